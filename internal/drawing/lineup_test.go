package drawing

import (
	"fmt"
	"image"
	"math"
	"slices"
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

// unlike tells whether a pixel differs between two pictures.
func unlike(a, b *image.RGBA, x, y int) bool {
	p, q := a.RGBAAt(x, y), b.RGBAAt(x, y)
	return math.Abs(float64(p.R)-float64(q.R))+math.Abs(float64(p.G)-float64(q.G))+math.Abs(float64(p.B)-float64(q.B)) > 9
}

// rows gives the edges of the rows of a that differ from b between two columns:
// that of the first, and of the one after the last.
func rows(a, b *image.RGBA, left, right int) (first, last int) {
	first, last = -1, -1
	for y := range a.Bounds().Dy() {
		for x := max(left, 0); x < right; x++ {
			if unlike(a, b, x, y) {
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

// withoutFigures is a scene without what stands in it.
func withoutFigures(s Scene) Scene {
	s.Items = slices.DeleteFunc(slices.Clone(s.Items), func(item Item) bool { _, figure := item.(Group); return figure })
	return s
}

// metres reads pixels to the metre off the picture's own ruler: the row of the
// ground, and the middle of the line of its highest tick.
func metres(t *testing.T, l LineUp, scale float64) (perMetre, ground float64) {
	t.Helper()
	p := l.plan()
	top := p.ticks[len(p.ticks)-1]
	require.Positive(t, top.Value)
	img := Raster(Scene{Width: l.Width, Height: l.Height, Ground: Sheet, Items: l.ruler(p)}, Light(), scale)
	y, x := int((p.ground-top.Value*p.scale)*scale), int((p.left+3)*scale)
	sum, weight := 0.0, 0.0
	for row := max(y-int(3*scale), 0); row <= y+int(3*scale); row++ {
		dark := float64(Light().Colour(Sheet).B) - float64(img.RGBAAt(x, row).B)
		sum, weight = sum+dark*(float64(row)+0.5), weight+dark
	}
	require.Positive(t, weight, "the line of %s is drawn", top.Label)
	ground = p.ground * scale
	return (ground - sum/weight) / top.Value, ground
}

// near tells whether a pixel has the colour of r, or almost.
func near(img *image.RGBA, x, y int, r Role) bool {
	c, w := img.RGBAAt(x, y), Light().Colour(r)
	return math.Abs(float64(c.R)-float64(w.R)) < 6 && math.Abs(float64(c.B)-float64(w.B)) < 6
}

// Whatever the scale, the top of a figure lies in the row of pixels that its
// number says, or at the edge of the next.
func TestFiguresAreAsTallInThePictureAsTheirNumbersSay(t *testing.T) {
	for _, name := range Names() {
		for _, scale := range []float64{1, 2, 3} {
			l := LineUp{Frame: Frame{Width: 900, Height: 420}, NoPerson: true}
			heights := []float64{0.9, 1.75, 2.4, 3}
			for _, h := range heights {
				l.Figures = append(l.Figures, Figure{Name: "x", Height: h, Drawing: figure(name)})
			}
			l = l.ready()
			perMetre, ground := metres(t, l, scale)
			img, bare := Raster(l.Scene(), Light(), scale), Raster(withoutFigures(l.Scene()), Light(), scale)
			for i, c := range l.plan().columns {
				top, _ := rows(img, bare, int(c.left*scale), int(c.right*scale))
				assert.InDelta(t, heights[i]*perMetre, ground-float64(top), 1, "%s of %g m at %g", name, heights[i], scale)
			}
		}
	}
}

func TestAPlinthLiftsItsFigureByItsHeight(t *testing.T) {
	l := LineUp{Frame: Frame{Width: 600, Height: 400}, NoPerson: true, Figures: []Figure{
		{Name: "on the ground", Height: 1.8, Drawing: figure("standing")},
		{Name: "on a plinth", Height: 1.8, Plinth: 0.6, Drawing: figure("standing")},
	}}
	l = l.ready()
	const scale = 2
	perMetre, ground := metres(t, l, scale)
	img, bare := Raster(l.Scene(), Light(), scale), Raster(withoutFigures(l.Scene()), Light(), scale)
	var top, foot [2]int
	for i, c := range l.plan().columns {
		top[i], foot[i] = rows(img, bare, int(c.left*scale), int(c.right*scale))
	}
	assert.InDelta(t, ground-1.8*perMetre, float64(top[0]), 1)
	assert.InDelta(t, ground-2.4*perMetre, float64(top[1]), 1)
	assert.InDelta(t, ground-0.6*perMetre, float64(foot[1]), 1)
	assert.True(t, near(img, int(l.plan().columns[1].centre*scale), int(ground-0.3*perMetre), Plinth))
}

// keeper is a figure with a dog and a bench beside it.
func keeper(height float64) Figure {
	return Figure{Name: "Group", Height: height, Plinth: height * 0.2, Drawing: figure("standing"), Beside: []Piece{
		{Height: height * 0.36, Drawing: figure("dog")}, {Height: height * 0.2, Drawing: figure("bench")},
	}}
}

func TestAFigureADogAndABenchStandAsAGroup(t *testing.T) {
	l := LineUp{Frame: Frame{Width: 900, Height: 400}, NoPerson: true, Figures: []Figure{keeper(1.75), keeper(2.5)}}
	l = l.ready()
	const scale = 2
	perMetre, ground := metres(t, l, scale)
	img, bare := Raster(l.Scene(), Light(), scale), Raster(withoutFigures(l.Scene()), Light(), scale)
	for i, c := range l.plan().columns {
		require.Len(t, c.bodies, 3)
		edge := c.left
		for k, b := range c.bodies {
			left, right := c.centre+(b.axis+b.shape.left)*l.plan().scale, c.centre+(b.axis+b.shape.right)*l.plan().scale
			assert.GreaterOrEqual(t, left, edge-1e-6, "none stands before another")
			assert.LessOrEqual(t, right, c.right)
			edge = right
			top, foot := rows(img, bare, int(left*scale)-1, int(right*scale)+1)
			assert.InDelta(t, ground-(b.Height+b.Plinth)*perMetre, float64(top), 1, "piece %d of group %d", k, i)
			assert.InDelta(t, ground-b.Plinth*perMetre, float64(foot), 1.5, "and stands on its ground")
		}
	}
}

func TestAGroupOfManyShowsAsManyAsCanBeToldApart(t *testing.T) {
	f := keeper(2)
	for range 40 {
		f.Beside = append(f.Beside, Piece{Height: 1, Drawing: figure("block")})
	}
	assert.Len(t, f.bodies(), 1+mostBeside)
}

func TestTheVisitorIsAMetreAndThreeQuartersTall(t *testing.T) {
	p := fiveHeights(900, 400).plan()
	require.True(t, p.columns[0].visitor)
	assert.Equal(t, 1.75, p.columns[0].tall)
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
		metre, _ := metres(t, l, 3)
		assert.InDelta(t, p.scale*3, metre, 0.1)
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
				Beside:      keeper(1).Beside[:rapid.IntRange(0, 2).Draw(t, "beside")],
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
		half := c.wide * p.scale / 2
		assert.GreaterOrEqual(t, c.centre-half, edge-0.01)
		assert.LessOrEqual(t, c.centre+half, c.right+0.01)
		assert.LessOrEqual(t, c.tall*p.scale, p.ground+0.01)
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
