package ui

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/ui/kit"
)

// typewriter writes of every paper only its name; it can break.
type typewriter struct{ broken error }

func (p *typewriter) write(w io.Writer, name string) error {
	if p.broken != nil {
		return p.broken
	}
	_, err := io.WriteString(w, name)
	return err
}

func (p *typewriter) Proposal(w io.Writer, _ desk.Paper) error  { return p.write(w, "a proposal") }
func (p *typewriter) CostSheet(w io.Writer, _ desk.Paper) error { return p.write(w, "a cost sheet") }
func (p *typewriter) Workbook(w io.Writer, _ desk.Paper) error  { return p.write(w, "a workbook") }

func (p *typewriter) OrderList(w io.Writer, _ desk.Paper) error {
	return p.write(w, "an order list")
}

func (p *typewriter) OrderSheet(w io.Writer, _ desk.Paper) error {
	return p.write(w, "an order table")
}
func (p *typewriter) Traveller(w io.Writer, _ desk.Paper) error { return p.write(w, "a traveller") }
func (p *typewriter) Lines(w io.Writer, _ desk.Paper) error     { return p.write(w, "lines") }

// withPapers has papers written by a typewriter.
func withPapers(p *typewriter) func(*Options) {
	return func(o *Options) { o.Demo, o.Papers = true, p }
}

// answer types a path into the question that is asked, and Enter.
func (b *bench) answer(path string) {
	b.Helper()
	e, ok := b.focused().(*kit.Entry)
	require.True(b, ok, "nobody asks for a file")
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	b.typed(path)
	b.press(fyne.KeyReturn)
}

func TestEveryPaperIsWrittenWhereItWasAskedFor(t *testing.T) {
	b := sit(t, withPapers(&typewriter{}))
	for item, want := range map[string]string{
		"Proposal …": "a proposal", "Cost sheet …": "a cost sheet", "Workbook …": "a workbook",
		"Order list …": "an order list", "Order list as a table …": "an order table", "Traveller …": "a traveller", "Every line as a table …": "lines",
	} {
		path := filepath.Join(t.TempDir(), "paper.out")
		b.menu(item)
		assert.Contains(t, b.focused().(*kit.Entry).Text, "2026-002A The Weir Keeper ")
		b.answer(path)
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, want, string(data))
		assert.Contains(t, b.w.toast.Said(), "lies in "+path)
	}
}

func TestAFolderThatIsNotThereIsAskedForAgain(t *testing.T) {
	b := sit(t, withPapers(&typewriter{}))
	b.menu("Proposal …")
	b.answer("/no/such/folder/proposal.pdf")
	assert.Contains(t, b.said(), "There is no folder /no/such/folder")
	b.answer(" ")
	assert.Contains(t, b.said(), "Give the file a name.")
	b.press(fyne.KeyEscape)
	assert.False(t, b.w.asking())
}

func TestAFileIsReplacedOnlyWhenThatIsMeant(t *testing.T) {
	b := sit(t, withPapers(&typewriter{}))
	path := filepath.Join(t.TempDir(), "letter.pdf")
	require.NoError(t, os.WriteFile(path, []byte("a letter"), 0o600))
	b.menu("Proposal …")
	b.answer(path)
	b.tap("Choose another")
	b.press(fyne.KeyEscape)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "a letter", string(data))

	b.menu("Proposal …")
	b.answer(path)
	b.tap("Replace it")
	data, err = os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "a proposal", string(data))
}

func TestAPaperThatCannotBeWrittenLeavesNothingBehind(t *testing.T) {
	p := &typewriter{errors.New("the ribbon is dry")}
	b := sit(t, withPapers(p))
	dir := t.TempDir()
	b.menu("Proposal …")
	b.answer(filepath.Join(dir, "proposal.pdf"))
	assert.Contains(t, b.said(), "The proposal was not written The ribbon is dry.")
	b.tap("Close")
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestAQuoteWithFaultsHasNoPaper(t *testing.T) {
	b := sit(t, withPapers(&typewriter{}))
	b.fill("form.wall", "thick")
	b.menu("Proposal …")
	assert.Contains(t, b.said(), "There is no proposal yet")
	assert.Contains(t, b.said(), "wall thickness")
}
