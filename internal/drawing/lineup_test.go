package drawing

import (
	"fmt"
	"image"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// figure is the silhouette called name.
func figure(name string) Silhouette {
	s, _ := Named(name)
	return s
}

// fiveHeights is a commission at five scales.
func fiveHeights(width, height float64) LineUp {
	l := LineUp{
		Frame: Frame{Width: width, Height: height, Text: 12}, Person: "visitor, 1.75\u00a0m", Recommended: "recommended",
	}
	for i, name := range []string{"Half life", "Life size", "1¼ life size", "1½ life size", "Twice life size"} {
		h := []float64{0.875, 1.75, 2.1875, 2.625, 3.5}[i]
		l.Figures = append(l.Figures, Figure{
			Name: name, Notes: []string{fmt.Sprintf("%.2f m", h)}, Height: h, Drawing: figure("standing"), Recommended: i == 2,
		})
	}
	return l
}

// rows gives the first and last row of img between two columns that satisfy is.
func rows(img *image.RGBA, left, right int, is func(x, y int) bool) (first, last int) {
	first, last = -1, -1
	for y := range img.Bounds().Dy() {
		for x := left; x < right; x++ {
			if is(x, y) {
				if first < 0 {
					first = y
				}
				last = y
			}
		}
	}
	return first, last
}

// ofMetal tells whether a pixel belongs to a figure: it is further from the
// grounds and from the lines across them than these are from each other.
func ofMetal(img *image.RGBA) func(x, y int) bool {
	p := Light()
	far := func(c [3]float64, r Role) float64 {
		w := p.Colour(r)
		return math.Abs(c[0]-float64(w.R)) + math.Abs(c[1]-float64(w.G)) + math.Abs(c[2]-float64(w.B))
	}
	return func(x, y int) bool {
		q := img.RGBAAt(x, y)
		c := [3]float64{float64(q.R), float64(q.G), float64(q.B)}
		return min(far(c, Metal), far(c, MetalShade), far(c, MetalLight)) < 60 && far(c, Rule) > 90
	}
}

// metres reads pixels to the metre off the picture's own ruler: the row of the
// ground, and the row that the line of its nth tick is drawn on.
func metres(t *testing.T, l LineUp, scale float64, n int) (perMetre, ground float64) {
	p := l.plan()
	require.Less(t, n, len(p.ticks))
	img := Raster(Scene{Width: l.Width, Height: l.Height, Ground: Sheet, Items: l.ruler(p)}, Light(), scale)
	y := (p.ground - p.ticks[n].Value*p.scale) * scale
	x := int((p.left + 3) * scale)
	first, last := rows(img, x, x+1, func(x, row int) bool {
		return math.Abs(float64(row)-y) < 3*scale && !near(img, x, row, Sheet)
	})
	require.GreaterOrEqual(t, first, 0, "the line of %s is drawn", p.ticks[n].Label)
	ground = p.ground * scale
	return (ground - float64(first+last+1)/2) / p.ticks[n].Value, ground
}

// near tells whether a pixel has the colour of r, or almost.
func near(img *image.RGBA, x, y int, r Role) bool {
	c, w := img.RGBAAt(x, y), Light().Colour(r)
	return math.Abs(float64(c.R)-float64(w.R)) < 6 && math.Abs(float64(c.B)-float64(w.B)) < 6
}

func TestFiguresAreAsTallInThePictureAsTheirNumbersSay(t *testing.T) {
	for _, name := range Names() {
		l := LineUp{Frame: Frame{Width: 900, Height: 420}, NoPerson: true}
		heights := []float64{0.9, 1.75, 2.4, 3}
		for _, h := range heights {
			l.Figures = append(l.Figures, Figure{Name: "x", Height: h, Drawing: figure(name)})
		}
		const scale = 2
		l = l.ready()
		perMetre, ground := metres(t, l, scale, len(l.plan().ticks)-1)
		img := Raster(l.Scene(), Light(), scale)
		for i, c := range l.plan().columns {
			top, _ := rows(img, int(c.left*scale), int(c.right*scale), ofMetal(img))
			assert.InDelta(t, heights[i]*perMetre, ground-float64(top), 1.5, "%s of %g m", name, heights[i])
		}
	}
}

func TestAPlinthLiftsItsFigureByItsHeight(t *testing.T) {
	l := LineUp{Frame: Frame{Width: 600, Height: 400}, Figures: []Figure{
		{Name: "on the ground", Height: 1.8, Drawing: figure("standing")},
		{Name: "on a plinth", Height: 1.8, Plinth: 0.6, Drawing: figure("standing")},
	}}
	l = l.ready()
	perMetre, ground := metres(t, l, 2, len(l.plan().ticks)-1)
	img := Raster(l.Scene(), Light(), 2)
	columns := l.plan().columns[1:]
	var top, foot [2]int
	for i, c := range columns {
		top[i], foot[i] = rows(img, int(c.left*2), int(c.right*2), func(x, y int) bool {
			return float64(y) < ground-3 && ofMetal(img)(x, y)
		})
	}
	assert.InDelta(t, 0.6*perMetre, float64(top[0]-top[1]), 1.5)
	assert.InDelta(t, ground-0.6*perMetre, float64(foot[1]), 1.5)
	assert.True(t, near(img, int(columns[1].centre*2), int(ground-0.3*perMetre), Plinth))
}

func TestTheVisitorIsAMetreAndThreeQuartersTall(t *testing.T) {
	p := fiveHeights(900, 400).plan()
	require.True(t, p.columns[0].visitor)
	assert.Equal(t, 1.75, p.columns[0].height)
	l := fiveHeights(900, 400)
	l.NoPerson = true
	assert.False(t, l.plan().columns[0].visitor)
}

func TestTheRulersLinesStandAtTheirHeights(t *testing.T) {
	for units, want := range map[Units]string{Metric: "0 m 1 m 2 m 3 m", FeetInches: "0 ft 2 ft 4 ft 6 ft 8 ft 10 ft 12 ft"} {
		l := fiveHeights(900, 400)
		l.Units = units
		p := l.plan()
		assert.Equal(t, want, strings.Join(labels(p.ticks), " "))
		metre, _ := metres(t, l, 3, 1)
		again, _ := metres(t, l, 3, 3)
		assert.InDelta(t, metre, again, 1)
		assert.InDelta(t, p.scale*3, again, 0.5)
	}
}

func TestWhatIsRecommendedIsMarkedByMoreThanColour(t *testing.T) {
	words := func(l LineUp) (all []string) {
		for _, text := range l.Scene().Texts() {
			all = append(all, text.Words)
		}
		return all
	}
	with := fiveHeights(900, 400)
	without := fiveHeights(900, 400)
	without.Figures[2].Recommended = false
	assert.Contains(t, words(with), "recommended")
	assert.NotContains(t, words(without), "recommended")
	p := with.plan()
	assert.Len(t, with.highlight(p, p.columns[3]), 3, "an outlined ground, a drop of metal and a word")
}

func TestNoTextsMeetInALineUpOfOneToEightOptions(t *testing.T) {
	names := []string{
		"Half life", "Life size", "1¼ life size", "One and a half times life size", "Heroic",
		"The whole group with the dog, on the upper terrace", "¾", "Überlebensgroß",
	}
	rapid.Check(t, func(t *rapid.T) {
		l := LineUp{
			Frame:  Frame{Width: rapid.Float64Range(480, 1600).Draw(t, "width"), Height: rapid.Float64Range(200, 700).Draw(t, "height"), Text: rapid.SampledFrom([]float64{8, 10, 12}).Draw(t, "text")},
			Units:  rapid.SampledFrom([]Units{Metric, FeetInches}).Draw(t, "units"),
			Person: "visitor, 1.75\u00a0m", Recommended: "recommended",
		}
		for range rapid.IntRange(1, 8).Draw(t, "options") {
			l.Figures = append(l.Figures, Figure{
				Name:        rapid.SampledFrom(names).Draw(t, "name"),
				Notes:       []string{"2.19 m", "$128,400"}[:rapid.IntRange(0, 2).Draw(t, "notes")],
				Height:      rapid.Float64Range(0.1, 8).Draw(t, "tall"),
				Plinth:      rapid.SampledFrom([]float64{0, 0, 0.5, 2}).Draw(t, "plinth"),
				Drawing:     figure(rapid.SampledFrom(Names()).Draw(t, "drawing")),
				Recommended: rapid.Bool().Draw(t, "recommended"),
			})
		}
		assertApart(t, l.Scene())
		assertSideBySide(t, l)
	})
}

// assertSideBySide holds that no two figures meet and that none leaves the frame.
func assertSideBySide(t assert.TestingT, l LineUp) {
	l = l.ready()
	p := l.plan()
	edge := p.left
	for _, c := range p.columns {
		half := c.shape.width() * p.scale / 2
		assert.GreaterOrEqual(t, c.centre-half, edge-0.01)
		assert.LessOrEqual(t, c.centre+half, c.right+0.01)
		assert.LessOrEqual(t, (c.height+c.plinth)*p.scale, p.ground+0.01)
		edge = c.right
	}
	assert.LessOrEqual(t, edge, l.Width)
}

func TestFiguresStandOverTheColumnsOfATable(t *testing.T) {
	l := fiveHeights(1000, 400)
	l.Centres = []float64{300, 450, 600, 750, 900}
	p := l.plan()
	for i, c := range p.columns[1:] {
		assert.Equal(t, l.Centres[i], c.centre)
	}
	assert.Less(t, p.columns[0].right, 300.0)
	assertApart(t, l.Scene())

	for _, unusable := range [][]float64{{1, 2}, {900, 750, 600, 450, 300}, {300, 450, 600, 750, 5000}} {
		l.Centres = unusable
		assertSideBySide(t, l)
		assertApart(t, l.Scene())
	}
}

func TestALineUpOfAnythingCanBeDrawn(t *testing.T) {
	odd := []float64{0, -1, math.NaN(), math.Inf(1), 1e300, 1e-300}
	for _, v := range odd {
		l := LineUp{Frame: Frame{Width: v, Height: v, Text: v}, Figures: []Figure{{Height: v, Plinth: v}}}
		assert.NotPanics(t, func() { Raster(l.Scene(), Light(), 0.1) })
		l = fiveHeights(500, 300)
		l.Figures[1].Height, l.Figures[2].Plinth = v, v
		l.Centres = []float64{v, v, v, v, v}
		assert.NotPanics(t, func() { Raster(l.Scene(), Light(), 1) })
	}
	assert.NotPanics(t, func() { LineUp{}.Scene() })
	assert.NotPanics(t, func() { LineUp{NoPerson: true, Figures: []Figure{{Height: 1e-300}}}.Scene() })
}

func BenchmarkLineUpOfFiveAt1280(b *testing.B) {
	l := fiveHeights(1280, 520)
	for b.Loop() {
		Raster(l.Scene(), Light(), 1)
	}
}
