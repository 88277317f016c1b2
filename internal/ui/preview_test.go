package ui

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
	"meltwright/internal/ui/kit"
)

// previewed opens the demo at its preview.
func previewed(t testing.TB) *bench {
	b := sit(t, withDemo, withMaker)
	b.quote().choose(previewID)
	return b
}

// onPage are the texts of a page of the proposal.
func (b *bench) onPage(n int) (all string) {
	b.Helper()
	pages, ok := b.quote().preview.now()
	require.True(b, ok)
	for _, t := range pages.Scenes[n].Texts() {
		all += t.Words + " "
	}
	return all
}

// sectionRow chooses a section in the list.
func (b *bench) sectionRow(key string) {
	b.Helper()
	p := b.quote().pageOf(previewID).(*previewPage)
	p.sections.Select(key)
	p.sections.OnSelect(key)
}

func TestThePreviewIsThePagesThatArePrinted(t *testing.T) {
	b := previewed(t)
	assert.Contains(t, b.said(), "Being set …")
	b.clock.pass(time.Second)
	paper, err := b.quote().sheet.Paper()
	require.NoError(t, err)
	want, err := b.quote().sheet.Preview().Pages(paper)
	require.NoError(t, err)
	got, ok := b.quote().preview.now()
	require.True(t, ok)
	assert.Equal(t, want, got.Scenes)
	assert.Contains(t, b.said(), "Page 1 of ")
	b.tap("Next")
	assert.Contains(t, b.said(), "Page 2 of ")
	b.tap("Previous")
	assert.Contains(t, b.said(), "Page 1 of ")
}

func TestWordsTypedBesideThePageAreOnItAMomentLater(t *testing.T) {
	b := previewed(t)
	b.clock.pass(time.Second)
	b.fill("preview.words", "A heron in the reeds.")
	assert.Contains(t, b.said(), "Page 1 of ", "the pages stay while they are set anew")
	b.clock.pass(time.Second)
	assert.Contains(t, b.onPage(1), "A heron in the reeds.")
	assert.Equal(t, "A heron in the reeds.", b.kept().Words["idea"])
	b.sectionRow("care")
	b.fill("preview.words", "Wax it in May.")
	b.clock.pass(time.Second)
	assert.Equal(t, "Wax it in May.", b.kept().Words["care"])
	b.menu("Undo")
	assert.Empty(t, b.quote().sheet.Quote().Words["care"])
}

func TestSectionsAreLeftOutPutInAndOrdered(t *testing.T) {
	b := previewed(t)
	usual := b.quote().sheet.Chosen()
	b.sectionRow("care")
	b.tap("Leave out")
	assert.NotContains(t, b.quote().sheet.Chosen(), "care")
	b.tap("Put in")
	assert.Equal(t, usual, b.quote().sheet.Chosen())
	assert.Empty(t, b.quote().sheet.Quote().Words["sections"], "as usual needs no choice")
	b.sectionRow("recommendation")
	b.tap("Earlier")
	assert.Equal(t, []string{"recommendation", "idea"}, b.quote().sheet.Chosen()[:2])
	b.tap("Later")
	assert.Equal(t, usual, b.quote().sheet.Chosen())
	b.menu("Undo")
	assert.Equal(t, "recommendation", b.quote().sheet.Chosen()[0])
}

func TestLettersThatCannotBePrintedAreTold(t *testing.T) {
	b := previewed(t)
	b.fill("preview.words", "青銅")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "The words of “idea” have letters that the fonts lack: 青 (U+9752), 銅 (U+9285); a question mark stands for each. Write those words in Latin, Greek or Cyrillic letters.")
	b.fill("preview.words", "Bronze")
	b.clock.pass(time.Second)
	assert.NotContains(t, b.said(), "fonts lack")
}

func TestMakingAProposalOrIssuingItTellsFirstWhichLettersCannotBePrinted(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.quote().sheet.SetWords("idea", "青")
	const warning = "The words of “idea” have letters that the fonts lack: 青 (U+9752); a question mark stands for each."
	b.menu("Proposal …")
	assert.Contains(t, b.said(), warning)
	assert.Contains(t, b.said(), "Where should it lie?")
	b.press(fyne.KeyEscape)
	b.quote().issue()
	assert.Contains(t, b.said(), "Issue revision A?")
	assert.Contains(t, b.said(), warning)
	b.tap("Not yet")
	b.menu("Cost sheet …")
	assert.NotContains(t, b.said(), "fonts lack", "the idea is not on it")
}

func TestThePageHasTheRoomOfThePriceAndCanBeLarger(t *testing.T) {
	b := previewed(t)
	b.clock.pass(time.Second)
	p := b.quote().pageOf(previewID).(*previewPage)
	assert.NotContains(t, b.said(), "Price before tax Finished bronze")
	small := p.picture.Size().Width
	b.tap("Larger")
	assert.Greater(t, p.picture.Size().Width, small*1.5)
	b.tap("Smaller")
	assert.Equal(t, small, p.picture.Size().Width)
	b.quote().choose("price")
	assert.Contains(t, b.said(), "Finished bronze")
}

func TestTabGoesThroughThePreview(t *testing.T) {
	b := previewed(t)
	b.clock.pass(time.Second)
	assert.Equal(t, []string{"preview.language", "preview.paper", "preview.words", "rows", "[Later]", "[Leave out]", "[Next]", "[Larger]", "pages"}, b.around()[6:])
}

func TestAPageIsChosenAmongTheSmallOnes(t *testing.T) {
	b := previewed(t)
	b.clock.pass(time.Second)
	p := b.quote().pageOf(previewID).(*previewPage)
	b.win.Canvas().Focus(p.pages)
	p.pages.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	pages, ok := b.quote().preview.now()
	require.True(t, ok)
	last := fmt.Sprintf("Page %d of %d", len(pages.Scenes), len(pages.Scenes))
	assert.Contains(t, b.said(), last)
	p.pages.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	assert.Contains(t, b.said(), "Page 1 of ")
	b.tap("Next")
	assert.Equal(t, 1, p.pages.Chosen(), "the small ones follow")
}

func TestTheProposalsLanguageAndPaperAreChosenBesideIt(t *testing.T) {
	b := previewed(t)
	b.clock.pass(time.Second)
	b.pick("preview.language", "français")
	b.pick("preview.paper", "letter")
	b.clock.pass(time.Second)
	assert.Equal(t, [2]string{"fr", "letter"}, [2]string{b.kept().Words["language"], b.kept().Words["paper"]})
	assert.Contains(t, b.onPage(0), "Proposition pour un groupe en bronze")
	pages, _ := b.quote().preview.now()
	assert.Equal(t, 612.0, pages.Scenes[0].Width)
	b.menu("Undo")
	b.menu("Undo")
	assert.Empty(t, b.quote().sheet.Quote().Words["language"])
}

func TestAPageIsBroughtToTheWidthThereIs(t *testing.T) {
	s := onPaper(drawing.Scene{Width: 595, Height: 842}, 300)
	assert.InDelta(t, 300, s.Width, 1e-9)
	assert.InDelta(t, 842.0*300/595, s.Height, 1e-9)
	assert.Equal(t, 300, kit.Pixels(s, drawing.Light(), 300, 424).Bounds().Dx())
}
