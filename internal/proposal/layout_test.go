package proposal

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
)

// everyDocument calls f with the proposal and the cost sheet of every story, as
// they are laid out.
func everyDocument(t *testing.T, f func(t *testing.T, d *document)) {
	for name, q := range stories() {
		t.Run(name+", proposal", func(t *testing.T) {
			d, err := Maker{}.proposal(paperOf(t, q))
			require.NoError(t, err)
			f(t, d)
		})
		t.Run(name+", cost sheet", func(t *testing.T) { f(t, costSheet(paperOf(t, q))) })
		t.Run(name+", order list", func(t *testing.T) { f(t, orderList(paperOf(t, q))) })
		t.Run(name+", traveller", func(t *testing.T) { f(t, traveller(paperOf(t, q))) })
	}
}

func TestNothingIsWrittenOutsideTheMargins(t *testing.T) {
	everyDocument(t, func(t *testing.T, d *document) {
		s := d.sheet
		for i, page := range d.pages {
			for _, words := range page.Texts() {
				b := words.Box()
				inside := b.Min.X > s.left-7 && b.Max.X < s.width-s.right+7 && b.Min.Y > s.top-34 && b.Max.Y < s.height-24
				assert.True(t, inside, "page %d: %q at %v", i+1, words.Words, b)
			}
		}
	})
}

func TestNoWordsLieOnOthers(t *testing.T) {
	everyDocument(t, func(t *testing.T, d *document) {
		for i, page := range d.pages {
			texts := page.Texts()
			boxes := make([]drawing.Box, len(texts))
			for k, words := range texts {
				boxes[k] = tight(words)
			}
			for k := range boxes {
				for n := range k {
					if boxes[k].Overlaps(boxes[n]) {
						assert.Fail(t, "overlap", "page %d: %q and %q", i+1, texts[k].Words, texts[n].Words)
					}
				}
			}
		}
	})
}

// tight is a text's box without the room of its descenders, which lines that
// follow closely may share.
func tight(t drawing.Text) drawing.Box {
	b := t.Box()
	b.Max.Y -= t.Size * 0.2
	b.Max.X -= 0.2
	return b
}

func TestNoHeadingIsTheLastThingOnItsPage(t *testing.T) {
	everyDocument(t, func(t *testing.T, d *document) {
		for i, page := range d.pages {
			texts := page.Texts()
			lowest := 0.0
			for _, words := range texts {
				if words.At.Y < d.sheet.height-d.sheet.bottom {
					lowest = max(lowest, words.At.Y)
				}
			}
			for _, words := range texts {
				heading := words.Face == sectionStyle.face && words.Size >= sectionStyle.size || words.Face == headStyle.face && words.Size == headStyle.size && words.Colour == headStyle.colour
				if heading && i > 0 {
					assert.Less(t, words.At.Y, lowest, "page %d ends with %q", i+1, words.Words)
				}
			}
		}
	})
}

func TestEveryPageHasSomethingOnIt(t *testing.T) {
	everyDocument(t, func(t *testing.T, d *document) {
		for i, page := range d.pages {
			assert.Greater(t, len(page.Texts()), 5, "page %d", i+1)
		}
	})
}

func TestTablesRepeatTheirHeadsOnEveryPage(t *testing.T) {
	d := costSheet(paperOf(t, waterfront()))
	heads := 0
	for _, page := range d.pages {
		top := drawing.Text{At: drawing.Point{Y: d.sheet.height}}
		for _, words := range page.Texts() {
			if words.At.Y > d.sheet.top && words.At.Y < top.At.Y {
				top = words
			}
		}
		if top.Words == "Line" {
			heads++
		}
	}
	assert.Positive(t, heads, "some page begins inside a stage's table, with its head")
}

// block of strips for the tests of pages.
func bands(n int, height float64, change func(i int, s *strip)) []strip {
	strips := make([]strip, n)
	for i := range strips {
		strips[i].height = height
		strips[i].items = []drawing.Item{drawing.Text{Words: string(rune('a' + i)), Size: 1, Colour: drawing.Ink}}
		if change != nil {
			change(i, &strips[i])
		}
	}
	return strips
}

var smallSheet = sheet{width: 100, height: 100, left: 10, right: 10, top: 10, bottom: 10} // 80 high

// wordsOf lists what stands on each page.
func wordsOf(pages []folio) (all []string) {
	for _, p := range pages {
		words := ""
		for _, t := range (drawing.Scene{Items: p.items}).Texts() {
			words += t.Words
		}
		all = append(all, words)
	}
	return all
}

func TestStripsFillPagesFromTheTop(t *testing.T) {
	pages, _ := smallSheet.compose(bands(7, 30, nil))
	assert.Equal(t, []string{"ab", "cd", "ef", "g"}, wordsOf(pages))
}

func TestStripsThatKeepTogetherMoveTogether(t *testing.T) {
	pages, _ := smallSheet.compose(bands(5, 30, func(i int, s *strip) { s.keep = i == 1 }))
	assert.Equal(t, []string{"a", "bc", "de"}, wordsOf(pages))
}

func TestAChainLongerThanAPageIsCutWhereThePageEnds(t *testing.T) {
	pages, _ := smallSheet.compose(bands(5, 30, func(i int, s *strip) { s.keep = true }))
	assert.Equal(t, []string{"ab", "cd", "e"}, wordsOf(pages))
}

func TestAHeadIsRepeatedAboveWhatItIsOf(t *testing.T) {
	head := []strip{{height: 20, items: []drawing.Item{drawing.Text{Words: "H", Size: 1, Colour: drawing.Ink}}}}
	pages, _ := smallSheet.compose(append(head, bands(5, 30, func(i int, s *strip) { s.head = head })...))
	assert.Equal(t, []string{"Hab", "Hcd", "He"}, wordsOf(pages))
}

func TestSpaceAboveIsLeftOutAtTheTopOfAPage(t *testing.T) {
	pages, marks := smallSheet.compose(bands(3, 30, func(i int, s *strip) { s.before, s.mark = 15, &mark{words: "m"} }))
	assert.Equal(t, []string{"ab", "c"}, wordsOf(pages))
	assert.Equal(t, []mark{{words: "m", page: 0, y: 10}, {words: "m", page: 0, y: 55}, {words: "m", page: 1, y: 10}}, marks)
}
