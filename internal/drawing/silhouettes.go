package drawing

import (
	"errors"
	"fmt"
	"strings"
	"sync"

	"meltwright/assets"
)

// Silhouette is a figure of height 1 that stands on the ground at y = 0; y
// points up and x is measured from the axis of its feet. Shade and Light are
// planes within Body that lie away from the light and towards it; a figure of
// someone's own has neither.
type Silhouette struct {
	Name  string // its key, "standing"
	Shows string // what it shows, "a standing figure in a long coat"
	Body  Path
	Shade Path
	Light Path
}

// Width is how wide s is, where its height is 1.
func (s Silhouette) Width() float64 { return s.Body.Bounds().Width() }

// Names lists the silhouettes that can be chosen for a piece, people first.
func Names() []string {
	return []string{"standing", "striding", "seated", "bust", "head", "horse", "dog", "cat", "bird", "block", "bench"}
}

// Person is the visitor for scale, who looks to the right.
const Person = "person"

// PersonHeight is how tall the visitor for scale is, in metres.
const PersonHeight = 1.75

// Named is the silhouette called name, one of Names or Person; false if there is
// none.
func Named(name string) (Silhouette, bool) {
	s, ok := silhouettes()[name]
	return s, ok
}

// silhouettes are the drawings that come with the program, read once.
var silhouettes = sync.OnceValue(func() map[string]Silhouette {
	all := map[string]Silhouette{}
	for _, name := range append(Names(), Person) {
		data, err := assets.Silhouettes.ReadFile("silhouettes/" + name + ".svgpath")
		if err != nil {
			continue // a test holds that each is there
		}
		if s, err := readSilhouette(name, string(data)); err == nil {
			all[name] = s
		}
	}
	return all
})

// readSilhouette reads one file of assets/silhouettes.
func readSilhouette(name, data string) (Silhouette, error) {
	s := Silhouette{Name: name}
	for line := range strings.Lines(data) {
		word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		if word == "#" {
			s.Shows = rest
			continue
		}
		path, err := ParsePath(rest)
		if err != nil {
			return s, fmt.Errorf("silhouette %s, %s: %w", name, word, err)
		}
		switch word {
		case "body":
			s.Body = path
		case "shade":
			s.Shade = path
		case "light":
			s.Light = path
		}
	}
	if len(s.Body) == 0 {
		return s, fmt.Errorf("silhouette %s has no body", name)
	}
	return s, nil
}

// SilhouetteOf is the drawing of a piece: the one that was chosen by name, else
// its own outline, else the one that suits it, by name too.
func SilhouetteOf[Flat ~[2]float64](chosen string, outlines [][]Flat, suits string) Silhouette {
	if s, ok := Named(chosen); ok {
		return s
	}
	lines := make([][]Point, len(outlines))
	for i, line := range outlines {
		for _, at := range line {
			lines[i] = append(lines[i], Point{at[0], at[1]})
		}
	}
	if s, err := Traced("scan", lines...); err == nil {
		return s
	}
	s, _ := Named(suits)
	return s
}

// Traced makes a silhouette from outlines of someone's own, such as those of a
// scan: each a closed line of points, y up, at any scale. It is brought to
// height 1, onto the ground, and its feet onto x = 0. An outline that encloses
// nothing, or a point that is not a number, is an error.
func Traced(name string, outlines ...[]Point) (Silhouette, error) {
	var p Path
	for _, o := range outlines {
		for _, at := range o {
			if finite(at.X) != at.X || finite(at.Y) != at.Y {
				return Silhouette{}, errors.New("an outline has a point that is not a number")
			}
		}
		if len(o) >= 3 {
			p = append(p, Polygon(o...)...)
		}
	}
	b := p.Bounds()
	if !(b.Height() > 0) || !(b.Width() > 0) {
		return Silhouette{}, errors.New("an outline needs at least three points that are not in one line")
	}
	grow := 1 / b.Height()
	fit := Move(-feet(outlines, b), -b.Min.Y).Then(Scale(grow, grow))
	return Silhouette{Name: name, Shows: name, Body: p.Transform(fit)}, nil
}

// feet is the middle of what touches the lowest fiftieth of b.
func feet(outlines [][]Point, b Box) float64 {
	ground := b.Min.Y + b.Height()/50
	stand := emptyBox()
	for _, o := range outlines {
		for i, at := range o {
			next := o[(i+1)%len(o)]
			if at.Y <= ground {
				stand = stand.with(at)
			}
			if (at.Y <= ground) != (next.Y <= ground) { // the edge passes the height
				t := (ground - at.Y) / (next.Y - at.Y)
				stand = stand.with(Point{at.X + t*(next.X-at.X), ground})
			}
		}
	}
	return (stand.Min.X + stand.Max.X) / 2
}

// tones are the colours a silhouette is drawn in.
type tones struct{ body, shade, light Role }

var (
	inBronze  = tones{Metal, MetalShade, MetalLight}
	inStone   = tones{Plinth, PlinthShade, PlinthLight}
	inPassing = tones{Visitor, VisitorShade, VisitorLight}
)

// Standing is s, height points tall, with its feet at (x, y), in bronze.
func (s Silhouette) Standing(x, y, height float64) Group { return s.standing(x, y, height, inBronze) }

func (s Silhouette) standing(x, y, height float64, t tones) Group {
	return Group{
		Matrix: Scale(height, -height).Then(Move(x, y)),
		Items: []Item{
			Shape{Path: s.Body, Fill: t.body},
			Shape{Path: s.Shade, Fill: t.shade},
			Shape{Path: s.Light, Fill: t.light},
		},
	}
}
