package proposal

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"maps"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

func crc(chunk []byte) uint32 { return crc32.ChecksumIEEE(chunk) }

// illustrated is the waterfront's paper with a logo, a cover and three
// photographs of the site, and a letterhead.
func illustrated(t testing.TB) quote.Paper {
	p := paperOf(t, waterfront())
	s := *p.Shop
	s.Book = s.Book.WithLetterhead(shop.Letterhead{Phone: "902 555 0148", Email: "quay@example.org", Web: "alderquay.example.org", Registration: "BN 80123 4567 RT0001"}, "2026-01-05")
	p.Shop = &s
	p.Pictures = []quote.Picture{
		{Name: quote.Logo, Data: pngOf(t, signOf(480, 480))},
		{Name: quote.Cover, Data: jpegOf(t, scenery(1600, 1200)), Caption: "The maquette, at one fifth."},
		{Name: "basin.jpg", Data: jpegOf(t, scenery(2200, 1100)), Caption: "The Upper Basin from the lock, where the group will stand."},
		{Name: "armature.jpg", Data: heldAs(jpegOf(t, scenery(1600, 1200)), 6, binary.BigEndian), Caption: "The armature."},
		{Name: "clay.jpg", Data: jpegOf(t, scenery(1200, 1600)), Caption: "The clay."},
	}
	return p
}

// inLanguage is a paper whose proposal is in a language.
func inLanguage(p quote.Paper, code string) quote.Paper {
	words := maps.Clone(p.Quote.Words)
	if words == nil {
		words = map[string]string{}
	}
	words["language"] = code
	p.Quote.Words = words
	return p
}

func illustratedPDF(t testing.TB, p quote.Paper) []byte {
	return made(t, func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) })
}

// poppler's pdfimages tells what a document holds.
func TestPicturesAreInTheDocumentAtNoMoreThanFourHundredDotsAnInch(t *testing.T) {
	out := told(t, needTool(t, "pdfimages"), "-list", kept(t, "paper.pdf", illustratedPDF(t, illustrated(t))))
	rows := strings.Split(strings.TrimSpace(out), "\n")[2:]
	require.Len(t, rows, 5)
	kinds := map[string]int{}
	for _, r := range rows {
		cells := strings.Fields(r)
		kinds[cells[8]]++
		for _, dpi := range cells[12:14] {
			n, err := strconv.Atoi(dpi)
			require.NoError(t, err, r)
			assert.LessOrEqual(t, n, 401, r)
			assert.GreaterOrEqual(t, n, 95, r)
		}
	}
	assert.Equal(t, map[string]int{"jpeg": 4, "image": 1}, kinds)
}

func TestAnIllustratedProposalPassesWhatEveryPDFPasses(t *testing.T) {
	for _, code := range []string{"en", "fr", "es"} {
		pdf := illustratedPDF(t, inLanguage(illustrated(t), code))
		out := told(t, needTool(t, "qpdf"), "--check", kept(t, "paper.pdf", pdf))
		assert.Contains(t, out, "No syntax or stream encoding errors found")
		assert.NotContains(t, out, "WARNING")
		text := flat(textOf(t, pdf))
		for _, words := range []string{"902 555 0148 · quay@example.org · alderquay.example.org", "BN 80123 4567 RT0001", "The maquette, at one fifth.", "The Upper Basin from the lock", "The armature.", "The clay."} {
			assert.Contains(t, text, words)
		}
		outline := told(t, needTool(t, "mutool"), "show", kept(t, "paper.pdf", pdf), "outline")
		assert.Contains(t, outline, map[string]string{"en": `"Pictures"`, "fr": `"Images"`, "es": `"Imágenes"`}[code])
	}
}

func TestTheSamePicturesAreTheSameBytes(t *testing.T) {
	p := illustrated(t)
	first := illustratedPDF(t, p)
	for range 3 {
		assert.True(t, bytes.Equal(first, illustratedPDF(t, p)))
	}
}

func TestPicturesStayWithinTheMarginsAndApartFromWords(t *testing.T) {
	p := illustrated(t)
	for i := range 9 {
		p.Pictures = append(p.Pictures, quote.Picture{Name: "p" + strconv.Itoa(i), Data: jpegOf(t, scenery(60+70*i, 700-60*i)), Caption: strings.Repeat("A long caption. ", 30)})
	}
	d, err := Maker{}.proposal(p)
	require.NoError(t, err)
	seen := 0
	for n, page := range d.pages {
		for _, b := range picturesOf(page) {
			seen++
			assert.GreaterOrEqual(t, b.Min.X, d.sheet.left-0.01)
			assert.LessOrEqual(t, b.Max.X, d.sheet.width-d.sheet.right+0.01)
			assert.GreaterOrEqual(t, b.Min.Y, d.sheet.top-0.01)
			assert.LessOrEqual(t, b.Max.Y, d.sheet.height-d.sheet.bottom+0.01)
			for _, words := range page.Texts() {
				assert.False(t, tight(words).Overlaps(b), "page %d: %q", n+1, words.Words)
			}
		}
	}
	assert.Equal(t, 14, seen)
}

func TestWithoutPicturesThereIsNoPageForThem(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, waterfront())))
	assert.NotContains(t, text, "Pictures")
	assert.Contains(t, text, "The outlines show size, not design", "the cover shows the silhouettes")
}

func TestAPictureThatWillNotDoIsAFaultOfThePaper(t *testing.T) {
	p := illustrated(t)
	p.Pictures[2].Data = p.Pictures[2].Data[:3000]
	var out bytes.Buffer
	err := Maker{}.Proposal(&out, p)
	require.ErrorContains(t, err, "Picture “basin.jpg” is damaged")
	assert.Zero(t, out.Len())
}

func TestAFaultInsideAPictureIsAnErrorOnEveryHand(t *testing.T) {
	err := inParallel(5, func(i int) error {
		if i == 3 {
			panic("no such marker")
		}
		return nil
	})
	assert.EqualError(t, err, "no such marker")
}

// boxes is a canvas that keeps where pictures are.
type boxes struct {
	found []drawing.Box
}

func (*boxes) FillPath(drawing.Path, color.NRGBA)                                 {}
func (*boxes) StrokePath(drawing.Path, float64, []float64, color.NRGBA)           {}
func (*boxes) DrawText(string, drawing.Face, float64, drawing.Point, color.NRGBA) {}
func (b *boxes) DrawPicture(_ image.Image, box drawing.Box)                       { b.found = append(b.found, box) }

// picturesOf are the places of a page's pictures.
func picturesOf(page drawing.Scene) []drawing.Box {
	var b boxes
	page.Draw(&b, drawing.Light())
	return b.found
}
