package proposal

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
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

func TestTheCommitteePageIsOnePageOfAWholeProposalInEveryLanguageAndOnEveryPaper(t *testing.T) {
	for code, words := range map[string][3]string{
		"en": {"Sizes to choose from", "Recommended:", "Price over height"},
		"fr": {"Tailles au choix", "Nous conseillons", "Prix selon la hauteur"},
		"es": {"Tamaños a elegir", "Recomendamos:", "Precio según la altura"},
	} {
		for _, paper := range []string{"a4", "letter"} {
			q := sizedKeeper()
			q.Words = map[string]string{"language": code, "paper": paper}
			at := slices.IndexFunc(strings.Split(textOf(t, proposalOf(t, q)), "\f"), func(page string) bool {
				text := flat(page)
				return !strings.Contains(text, "…") && strings.Contains(text, words[0]) && strings.Contains(text, words[1]) && strings.Contains(text, words[2])
			})
			assert.Positive(t, at, "%s on %s", code, paper)
		}
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

// withoutFigures is a scene without the figures that stand in its drawings.
func withoutFigures(s drawing.Scene) drawing.Scene {
	var items []drawing.Item
	for _, item := range s.Items {
		if g, ok := item.(drawing.Group); ok {
			g.Items = slices.DeleteFunc(slices.Clone(g.Items), func(x drawing.Item) bool { _, figure := x.(drawing.Group); return figure })
			item = g
		}
		items = append(items, item)
	}
	s.Items = items
	return s
}

// pair is a picture with figures, and the same without them, both some pixels to
// the point.
type pair struct {
	with, without image.Image
	scale         float64
}

// dark is how far a pixel is from white.
func dark(img image.Image, x, y int) float64 {
	r, g, b, _ := img.At(x, y).RGBA()
	return 3 - float64(r+g+b)/0xffff
}

// rows gives the edges of the rows that figures cover in the columns around x.
func (p pair) rows(x, half int) (first, last int) {
	first = -1
	for y := range p.with.Bounds().Dy() {
		for at := x - half; at <= x+half; at++ {
			if math.Abs(dark(p.with, at, y)-dark(p.without, at, y)) > 0.04 {
				if first < 0 {
					first = y
				}
				last = y + 1
				break
			}
		}
	}
	return first, last
}

// ruler reads the lines of the ruler in column x between two rows, from the
// ground up: the middle of each.
func (p pair) ruler(x, from, to int) (lines []float64) {
	sheet := dark(p.without, x, from)
	sum, weight := 0.0, 0.0
	for y := to - 1; y >= from; y-- {
		switch d := dark(p.without, x, y) - sheet; {
		case d > 0.02:
			sum, weight = sum+d*(float64(y)+0.5), weight+d
		case weight > 0:
			lines, sum, weight = append(lines, sum/weight), 0, 0
		}
	}
	return lines
}

// The figures are measured where they are seen: in the picture on the screen and
// on the page as a PDF reader draws it, against the lines of their ruler, to a
// pixel.
func TestFiguresAreAsTallOnTheScreenAndOnThePageAsTheirNumbersSay(t *testing.T) {
	for name, pieces := range map[string]int{"a figure": 1, "a group": 3} {
		t.Run(name, func(t *testing.T) {
			q := sizedKeeper()
			q.Commission.Pieces = q.Commission.Pieces[:pieces]
			o, d := sizesOf(t, q)
			results := options.Compare(q.Commission, o.paper.Shop)
			var sizes []size
			for i, r := range results {
				sizes = append(sizes, o.size(r, q.Commission.Options[i]))
			}
			scene := o.sizesLineUp(sizes, 190).Scene()
			alone := drawing.Scene{Width: scene.Width, Height: scene.Height, Items: []drawing.Item{drawing.Group{Items: scene.Items}}, Ground: drawing.Sheet}
			const scale = 3.0
			measured(t, pair{
				drawing.Raster(alone, drawing.Light(), scale),
				drawing.Raster(withoutFigures(alone), drawing.Light(), scale), scale,
			}, sizes, 0, 0, scene.Height-2, o.sizeWide(len(sizes)), scene.Items)

			with := made(t, d.pdf)
			page, top, bottom := pictureOn(t, d.pages[1])
			d.pages[1] = withoutFigures(d.pages[1])
			measured(t, pair{pixelsOf(t, with, "2", "216"), pixelsOf(t, made(t, d.pdf), "2", "216"), 216 / 72.0},
				sizes, d.sheet.left, top, bottom, o.sizeWide(len(sizes)), page)
		})
	}
}

// level are the heights of the lines across a drawing, in points from its top,
// and highest the highest number that is written at one, in metres.
func level(items []drawing.Item) (lines []float64, highest float64) {
	for _, item := range items {
		switch x := item.(type) {
		case drawing.Text:
			var v float64
			if _, err := fmt.Sscanf(x.Words, "%g\u00a0m", &v); err == nil {
				highest = max(highest, v)
			}
		case drawing.Shape:
			if b := x.Path.Bounds(); b.Height() == 0 && b.Width() > 100 {
				lines = append(lines, b.Min.Y)
			}
		}
	}
	slices.Sort(lines)
	slices.Reverse(lines)
	return lines, highest
}

// pictureOn is the drawing of the options on a page, where it begins, and where
// what is below it does.
func pictureOn(t *testing.T, page drawing.Scene) (items []drawing.Item, top, bottom float64) {
	for _, item := range page.Items {
		g, ok := item.(drawing.Group)
		if !ok {
			continue
		}
		if top > 0 {
			return items, top, g.Matrix.F
		}
		for _, inner := range g.Items {
			if _, figure := inner.(drawing.Group); figure {
				items, top = g.Items, g.Matrix.F
			}
		}
	}
	require.Fail(t, "no drawing is on the page")
	return nil, 0, 0
}

// measured holds the heights of figures in a picture against their numbers. The
// drawing begins at left and goes from top to bottom, in points. Readers of PDF
// move lines to whole pixels, so the ruler is that of the drawing, and its lines
// are held to it.
func measured(t *testing.T, p pair, sizes []size, left, top, bottom, wide float64, items []drawing.Item) {
	t.Helper()
	lines := p.ruler(int((left+sizeLabel*0.5)*p.scale), int((top+2)*p.scale), int(bottom*p.scale))
	for len(lines) > 1 && lines[0]-lines[1] < 20*p.scale {
		lines = lines[1:] // words below the ground
	}
	ruler, metres := level(items)
	require.Len(t, lines, len(ruler))
	require.Greater(t, metres, 1.0)
	for i, y := range ruler {
		require.InDelta(t, (top+y)*p.scale, lines[i], 1, "line %d of the ruler", i)
	}
	ground := (top + ruler[0]) * p.scale
	perMetre := (ruler[0] - ruler[len(ruler)-1]) * p.scale / metres
	for i, s := range sizes {
		piece := s.Estimate.Pieces[0]
		x := int((left + sizeLabel + wide*(float64(i)+0.5)) * p.scale)
		first, last := p.rows(x, int(wide*p.scale*0.45))
		assert.InDelta(t, ground-float64(piece.Standing)*perMetre, float64(first), 1, "%s: %.0f pixels to the metre", s.name, perMetre)
		if len(s.Estimate.Pieces) == 1 {
			assert.InDelta(t, ground-float64(piece.Standing-piece.Height)*perMetre, float64(last), 1, "%s ends on its plinth", s.name)
		}
	}
}

func TestAPieceIsDrawnAsItIsChosenScannedOrNamed(t *testing.T) {
	p := estimate.Piece{Name: "Lock keeper"}
	assert.Equal(t, "standing", silhouetteOf(p, "").Name)
	p.Scan = &mesh.Scan{Front: mesh.Outline{{{-0.1, 0}, {0.1, 0}, {0.2, 1}, {-0.2, 1}}}}
	assert.InDelta(t, 0.4, silhouetteOf(p, "").Width(), 1e-9, "its own outline")
	assert.Equal(t, "seated", silhouetteOf(p, "seated").Name, "another was chosen")
	p.Scan = &mesh.Scan{}
	assert.Equal(t, "standing", silhouetteOf(p, "a dragon").Name, "a scan without an outline")
}

func TestAGroupStandsTogetherInEverySize(t *testing.T) {
	q := sizedKeeper()
	o, _ := sizesOf(t, q)
	for i, r := range options.Compare(q.Commission, o.paper.Shop) {
		f := o.size(r, q.Commission.Options[i]).figure()
		require.Len(t, f.Beside, len(r.Estimate.Pieces)-1)
		for k, p := range f.Beside {
			assert.InDelta(t, float64(r.Estimate.Pieces[k+1].Height), p.Height, 1e-9)
		}
	}
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

func TestACircleOnAPageClosesWhereItBegins(t *testing.T) {
	qpdf := needTool(t, "qpdf")
	file := kept(t, "sizes.pdf", pdfOfSizes(t, sizedKeeper()))
	page := told(t, qpdf, "--qdf", "--object-streams=disable", file, "-")
	rings := regexp.MustCompile(`(?m)^([\d.]+ [\d.]+) m\n(?:[\d. ]+ c\n){3}[\d.]+ [\d.]+ [\d.]+ [\d.]+ ([\d.]+) ([\d.]+) c\nh\nS`).FindAllStringSubmatch(page, -1)
	require.NotEmpty(t, rings, "the option beyond the budget is a ring")
	for _, r := range rings {
		end := make([]float64, 2)
		for i, text := range r[2:] {
			v, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			end[i] = v
		}
		assert.Equal(t, r[1], fmt.Sprintf("%.2f %.2f", end[0], end[1]))
		assert.InDelta(t, math.Round(end[0]*100)/100, end[0], 1e-5)
		assert.InDelta(t, math.Round(end[1]*100)/100, end[1], 1e-5)
	}
}
