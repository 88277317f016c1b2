package proposal

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/options"
	"meltwright/internal/quote"
)

// sizedKeeper is the waterfront group at four sizes, the third recommended,
// against a budget.
func sizedKeeper() quote.Quote {
	q := waterfront()
	q.Commission = q.Commission.With(estimate.Whole, "price.budget", "400000")
	q.Commission.Options = []estimate.Option{
		{Height: "0.875 m"},
		{Height: "1.75 m"},
		{Height: "2.1875 m", Recommended: true, Why: "At one and a quarter life size the keeper stands above the railing, is seen from the ferry, and leaves room in the budget for the granite and its footing."},
		{Height: "2.625 m", Pieces: []map[string]string{{"form.wall": "6 mm"}}},
	}
	return q
}

// sizesOf sets the options of a quote alone, on pages of their own.
func sizesOf(t testing.TB, q quote.Quote) (*offer, *document) {
	t.Helper()
	p := paperOf(t, q)
	l := languageOf(q.Words["language"], p.Estimate.Currency)
	words, err := wordingOf(l.code, nil)
	require.NoError(t, err)
	o := &offer{paper: p, sheet: sheetOf(p.Estimate.System), language: l, words: words, own: q.Words}
	o.wide = o.sheet.wide()
	o.facts = o.gather()
	strips := o.options("options")
	if len(strips) == 0 {
		return o, nil
	}
	strips[0].fresh = true
	d, err := o.bind(strips)
	require.NoError(t, err)
	return o, d
}

func pdfOfSizes(t testing.TB, q quote.Quote) []byte {
	_, d := sizesOf(t, q)
	return made(t, d.pdf)
}

func TestTheCommitteePageHasDrawingTableAdviceAndCurveOnOnePage(t *testing.T) {
	_, d := sizesOf(t, sizedKeeper())
	require.Len(t, d.pages, 2, "the cover, and one page")
	text := flat(textOf(t, made(t, d.pdf), "-layout"))
	for _, words := range []string{
		"Sizes to choose from", "recommended", "Half life size", "Life size", "Life and a quarter", "Life and a half",
		"0.88 m", "1.75 m", "2.19 m", "2.63 m", "Price before tax", "Total, tax included", "Within $400,000 with tax",
		"From signing to ready", "Heaviest lift", "City crane", "Recommended: Life and a quarter",
		"is seen from the ferry", "Price over height", "budget $400,000", "height in bronze",
	} {
		assert.Contains(t, text, words)
	}
}

func TestEveryFigureOfTheCommitteePageIsTheEstimates(t *testing.T) {
	q := sizedKeeper()
	o, d := sizesOf(t, q)
	text := flat(textOf(t, made(t, d.pdf), "-layout"))
	for _, r := range options.Compare(q.Commission, o.paper.Shop) {
		assert.Contains(t, text, o.sum(r.Estimate.Price))
		assert.Contains(t, text, o.sum(r.Estimate.Total))
		if r.Left < 0 {
			assert.Contains(t, text, "no, by "+r.Estimate.Currency.Whole(-r.Left, o.language.locale))
		}
	}
	assert.Contains(t, text, "Wall, Lock keeper 4.76 mm 4.76 mm 4.76 mm 6 mm", "an option that is made otherwise says so")
	assert.NotContains(t, text, "Casts", "what is the same of all is not said here")
}

func TestWithoutOptionsThereIsNoSuchPage(t *testing.T) {
	o, d := sizesOf(t, waterfront())
	assert.Nil(t, d)
	assert.NoError(t, o.words.err)
}

func TestAnOptionThatCannotBeMadeIsToldByName(t *testing.T) {
	q := sizedKeeper()
	q.Commission.Options[1].Name = "Slight"
	q.Commission.Options[1].Pieces = []map[string]string{{"form.wall": "-1 mm"}}
	o, d := sizesOf(t, q)
	assert.Nil(t, d)
	assert.ErrorContains(t, o.words.err, "of option 2 (Slight)")
}

func TestTheCommitteePageSpeaksThreeLanguagesAndFeet(t *testing.T) {
	for code, words := range map[string][]string{
		"fr": {"Tailles au choix", "Grandeur nature", "2,19 m", "Nous conseillons", "hauteur en bronze", "dépassé de"},
		"es": {"Tamaños a elegir", "Tamaño natural", "Recomendamos", "excede en"},
	} {
		q := sizedKeeper()
		q.Words = map[string]string{"language": code}
		text := flat(textOf(t, pdfOfSizes(t, q), "-layout"))
		for _, w := range words {
			assert.Contains(t, text, w)
		}
	}
	q := sizedKeeper()
	q.Commission.Units = "inch-pound"
	text := flat(textOf(t, pdfOfSizes(t, q), "-layout"))
	assert.Contains(t, text, `7'2 1/8"`)
	assert.Contains(t, text, "ft")
	assert.Contains(t, text, "lb")
}

func TestManyOptionsAreSetBelowEachOther(t *testing.T) {
	q := sizedKeeper()
	for _, h := range []string{"0.5 m", "3 m", "3.5 m", "4 m"} {
		q.Commission.Options = append(q.Commission.Options, estimate.Option{Height: h, Name: "At " + h})
	}
	_, d := sizesOf(t, q)
	text := flat(textOf(t, made(t, d.pdf), "-layout"))
	for _, w := range []string{"Half life size", "At 0.5 m", "At 4 m"} {
		assert.Contains(t, text, w)
	}
}

func TestNoWordsMeetOnTheCommitteePage(t *testing.T) {
	_, d := sizesOf(t, sizedKeeper())
	for _, page := range d.pages[1:] {
		texts := page.Texts()
		for i, a := range texts {
			assert.GreaterOrEqual(t, a.Box().Min.X, d.sheet.left-1, a.Words)
			assert.LessOrEqual(t, a.Box().Max.X, d.sheet.width-d.sheet.right+1, a.Words)
			for _, b := range texts[i+1:] {
				assert.False(t, tight(a).Overlaps(tight(b)), "%q and %q", a.Words, b.Words)
			}
		}
	}
}

// pixelsOf draws a page of a PDF at dots to the inch, as poppler does.
func pixelsOf(t testing.TB, pdf []byte, page string, dpi string) image.Image {
	t.Helper()
	needTool(t, "pdftoppm")
	file := kept(t, "sizes.pdf", pdf)
	out := filepath.Join(t.TempDir(), "page")
	told(t, "pdftoppm", "-r", dpi, "-png", "-f", page, "-l", page, "-singlefile", file, out)
	data, err := os.ReadFile(out + ".png")
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	return img
}

// like tells whether a pixel has the colour of a role, or nearly.
func like(img image.Image, x, y int, far float64, roles ...drawing.Role) bool {
	r, g, b, _ := img.At(x, y).RGBA()
	for _, role := range roles {
		c := drawing.Light().Colour(role)
		if math.Abs(float64(r>>8)-float64(c.R))+math.Abs(float64(g>>8)-float64(c.G))+math.Abs(float64(b>>8)-float64(c.B)) < far {
			return true
		}
	}
	return false
}

// tallest is the first row of metal in the columns around x, between two rows.
func tallest(img image.Image, x, half, from, to int) int {
	for y := from; y < to; y++ {
		for at := x - half; at <= x+half; at++ {
			if like(img, at, y, 50, drawing.Metal, drawing.MetalShade, drawing.MetalLight) {
				return y
			}
		}
	}
	return -1
}

// The figures are measured where they are seen: in the picture on the screen and
// on the page as a PDF reader draws it, against the lines of their ruler.
func TestFiguresAreAsTallOnTheScreenAndOnThePageAsTheirNumbersSay(t *testing.T) {
	q := sizedKeeper()
	for i := range q.Commission.Options {
		q.Commission.Options[i].Recommended = false // its edges have the colour of metal
	}
	o, d := sizesOf(t, q)
	results := options.Compare(q.Commission, o.paper.Shop)
	var sizes []size
	for i, r := range results {
		sizes = append(sizes, o.size(r, q.Commission.Options[i]))
	}
	wide := o.sizeWide(len(sizes))
	const scale = 3.0
	scene := o.sizesLineUp(sizes, 190).Scene()
	measured(t, drawing.Raster(scene, drawing.Light(), scale), sizes, 0, 0, wide, scale, int(scene.Height*scale))

	const dpi = 216 // three pixels to the point
	img := pixelsOf(t, made(t, d.pdf), "2", "216")
	top, bottom := pictureOn(t, d.pages[1])
	measured(t, img, sizes, d.sheet.left, top, wide, dpi/72.0, int(bottom*dpi/72))
}

// pictureOn is where the drawing of the options begins on a page, and where what
// is below it does.
func pictureOn(t *testing.T, page drawing.Scene) (top, bottom float64) {
	for _, item := range page.Items {
		g, ok := item.(drawing.Group)
		if !ok {
			continue
		}
		if top > 0 {
			return top, g.Matrix.F
		}
		for _, inner := range g.Items {
			if _, figure := inner.(drawing.Group); figure {
				top = g.Matrix.F
			}
		}
	}
	require.Fail(t, "no drawing is on the page")
	return 0, 0
}

// measured holds the heights of figures in a picture against their numbers, to a
// pixel. The drawing begins at left and top, in points.
func measured(t *testing.T, img image.Image, sizes []size, left, top, wide, scale float64, bottom int) {
	t.Helper()
	from := int(top*scale) + 2
	ruler := int((left + sizeLabel*0.5) * scale)
	lines, ground := 0, -1
	var metre [8]float64
	for y := bottom - 1; y > from; y-- { // from below: the ground, then a line each metre
		switch {
		case ground < 0 && like(img, ruler, y, 40, drawing.Ink):
			for like(img, ruler, y-1, 60, drawing.Ink) {
				y--
			}
			ground = y
		case ground > 0 && ground-y > int(6*scale) && like(img, ruler, y, 30, drawing.Rule):
			lines++
			metre[lines] = float64(y) + 0.5
			for like(img, ruler, y-1, 60, drawing.Rule) {
				metre[lines] -= 0.5
				y--
			}
			y -= int(3 * scale)
		}
	}
	require.Greater(t, lines, 1, "the ruler has lines")
	perMetre := (metre[1] - metre[lines]) / float64(lines-1)
	zero := metre[1] + perMetre
	for i, s := range sizes {
		p := s.Estimate.Pieces[0]
		x := int((left + sizeLabel + wide*(float64(i)+0.5)) * scale)
		y := tallest(img, x, int(wide*scale*0.42), from, ground)
		assert.InDelta(t, float64(p.Standing), (zero-float64(y))/perMetre, 1.5/perMetre, "%s: %.0f pixels to the metre", s.name, perMetre)
		// What is bronze ends on the plinth.
		foot := zero - float64(p.Standing-p.Height)*perMetre
		assert.True(t, bronzeAbove(img, x, int(wide*scale*0.42), foot), s.name)
	}
}

// bronzeAbove tells whether the bronze comes down to a row and no farther.
func bronzeAbove(img image.Image, x, half int, row float64) bool {
	metal := func(y int) bool {
		for at := x - half; at <= x+half; at++ {
			if like(img, at, y, 50, drawing.Metal, drawing.MetalShade, drawing.MetalLight) {
				return true
			}
		}
		return false
	}
	at := int(math.Round(row))
	return (metal(at-1) || metal(at-2)) && !metal(at+2)
}

func TestAScannedPieceIsDrawnByItsOutline(t *testing.T) {
	q := sizedKeeper()
	o, _ := sizesOf(t, q)
	s := o.size(options.Compare(q.Commission, o.paper.Shop)[1], q.Commission.Options[1])
	assert.Equal(t, "standing", o.silhouette(s).Name)
	s.Commission = s.Commission.Clone()
	s.Commission.Pieces[0].Scan = &mesh.Scan{Front: mesh.Outline{{{-0.1, 0}, {0.1, 0}, {0.2, 1}, {-0.2, 1}}}}
	assert.InDelta(t, 0.4, o.silhouette(s).Width(), 1e-9)
	o.own = map[string]string{"drawing.0": "seated"}
	assert.NotEqual(t, "scan", o.silhouette(s).Name, "another was chosen")
}

func TestWeeksCountFromTheDayTheWorkBegins(t *testing.T) {
	o := &offer{own: map[string]string{"start": "2026-09-01"}, paper: quote.Paper{Date: "2026-03-14"}}
	day, ok := o.begins()
	assert.True(t, ok)
	assert.Equal(t, "2026-09-01", day.Format("2006-01-02"))
	o.own = nil
	day, _ = o.begins()
	assert.Equal(t, "2026-03-14", day.Format("2006-01-02"))
	o.paper.Start = "2026-05-04"
	day, _ = o.begins()
	assert.Equal(t, "2026-05-04", day.Format("2006-01-02"))
}
