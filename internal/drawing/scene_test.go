package drawing

import (
	"fmt"
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// notebook is a canvas that writes down what is drawn.
type notebook struct{ notes []string }

func (n *notebook) FillPath(p Path, c color.NRGBA) {
	b := p.Bounds()
	n.notes = append(n.notes, fmt.Sprintf("fill %g %g %g %g %02x", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y, c.R))
}

func (n *notebook) StrokePath(p Path, width float64, dash []float64, c color.NRGBA) {
	n.notes = append(n.notes, fmt.Sprintf("stroke %g %v %02x", width, dash, c.R))
}

func (n *notebook) DrawText(words string, f Face, size float64, at Point, c color.NRGBA) {
	n.notes = append(n.notes, fmt.Sprintf("text %s %g at %.3f %g", words, size, at.X, at.Y))
}

func TestAGroupMovesAndGrowsAllThatIsInIt(t *testing.T) {
	s := Scene{Items: []Item{Group{
		Matrix: Scale(2, 2).Then(Move(10, 0)),
		Items: []Item{
			Shape{Path: Rect(1, 1, 2, 2), Fill: Metal, Stroke: Ink, Width: 1.5, Dash: []float64{3, 1}},
			Group{Matrix: Move(0, 5), Items: []Item{Text{At: Point{1, 1}, Words: "wax", Size: 8, Colour: Ink}}},
		},
	}}}
	var n notebook
	s.Draw(&n, Light())
	assert.Equal(t, []string{"fill 12 2 16 6 a4", "stroke 3 [6 2] 22", "text wax 16 at 12.000 12"}, n.notes)
}

func TestTheGroundIsDrawnFirstAndRolesTakeTheirColour(t *testing.T) {
	var n notebook
	Scene{Width: 3, Height: 4, Ground: Sheet}.Draw(&n, Dark())
	assert.Equal(t, []string{"fill 0 0 3 4 1e"}, n.notes)
}

func TestTextIsHungFromItsAnchor(t *testing.T) {
	width := Sans.Measure("shell", 10)
	for anchor, left := range map[Anchor]float64{Start: 50, Middle: 50 - width/2, End: 50 - width} {
		text := Text{At: Point{50, 20}, Words: "shell", Size: 10, Anchor: anchor, Colour: Ink}
		assert.InDelta(t, left, text.Box().Min.X, 1e-9)
		assert.InDelta(t, width, text.Box().Width(), 1e-9)
		var n notebook
		Scene{Items: []Item{text}}.Draw(&n, Light())
		assert.Equal(t, []string{fmt.Sprintf("text shell 10 at %.3f 20", left)}, n.notes)
	}
}

func TestAScenesTextsAreFoundWhereTheyAre(t *testing.T) {
	s := Scene{Items: []Item{
		Group{Matrix: Scale(3, 3), Items: []Item{Text{At: Point{1, 2}, Words: "pour", Size: 4, Colour: Ink}}},
		Text{Words: "", Size: 4, Colour: Ink},
		Text{Words: "unseen", Size: 4},
	}}
	texts := s.Texts()
	require.Len(t, texts, 1)
	assert.Equal(t, Point{3, 6}, texts[0].At)
	assert.Equal(t, 12.0, texts[0].Size)
}

// assertApart holds that no two texts of s meet, and that all lie within it.
func assertApart(t assert.TestingT, s Scene) {
	texts := s.Texts()
	for i, a := range texts {
		b := a.Box()
		assert.True(t, b.Min.X >= -0.01 && b.Max.X <= s.Width+0.01 && b.Min.Y >= -0.01 && b.Max.Y <= s.Height+0.01,
			"%q reaches out of the picture: %v in %g by %g", a.Words, b, s.Width, s.Height)
		for _, c := range texts[:i] {
			assert.False(t, b.Overlaps(c.Box()), "%q meets %q", a.Words, c.Words)
		}
	}
}
