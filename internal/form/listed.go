package form

import (
	"slices"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// Listed is a kind of solid as a list of solids has it: its name, the sizes it
// wants, and whether its ends may be open.
type Listed struct {
	Name  string
	Sizes []field.Def
	Ends  bool
	make  func(size []float64, e Ends) (Shape, string)
}

// size is a length from a micrometre to a kilometre: beyond that, powers of it
// run out of the range of numbers.
func size(key, label string) field.Def {
	return field.Def{Key: key, Label: label, Kind: quantity.KindLength, Bounds: field.Bounds{Min: 1e-6, Max: 1000}}
}

// Catalogue is every solid there is.
var Catalogue = []Listed{
	{"sphere", []field.Def{size("diameter", "diameter")}, false, func(s []float64, _ Ends) (Shape, string) { return Sphere{s[0]}, "" }},
	{"ellipsoid", []field.Def{size("length", "length"), size("width", "width"), size("height", "height")}, false, func(s []float64, _ Ends) (Shape, string) {
		return Ellipsoid{s[0], s[1], s[2]}, ""
	}},
	{"cylinder", []field.Def{size("diameter", "diameter"), size("height", "height")}, true, func(s []float64, e Ends) (Shape, string) {
		return Cylinder{s[0], s[1], e}, ""
	}},
	{"cone", []field.Def{size("diameter", "diameter"), size("height", "height")}, true, func(s []float64, e Ends) (Shape, string) {
		return Frustum{s[0], 0, s[1], e}, ""
	}},
	{"frustum", []field.Def{size("foot", "diameter of the foot"), size("top", "diameter of the top"), size("height", "height")}, true, func(s []float64, e Ends) (Shape, string) {
		return Frustum{s[0], s[1], s[2], e}, ""
	}},
	{"box", []field.Def{size("length", "length"), size("width", "width"), size("height", "height")}, true, func(s []float64, e Ends) (Shape, string) {
		return Box{s[0], s[1], s[2], e}, ""
	}},
	{"torus", []field.Def{size("ring", "diameter of the ring"), size("diameter", "diameter of its section")}, false, func(s []float64, _ Ends) (Shape, string) {
		if s[1] > s[0] {
			return nil, "is wider than its ring"
		}
		return Torus{s[0], s[1]}, ""
	}},
	{"tube", []field.Def{size("diameter", "diameter"), size("bore", "bore"), size("length", "length")}, false, func(s []float64, _ Ends) (Shape, string) {
		if s[1] >= s[0] {
			return nil, "is not narrower than the tube"
		}
		return Tube{s[0], s[1], s[2]}, ""
	}},
	{"plate", []field.Def{size("length", "length"), size("width", "width"), size("thickness", "thickness")}, false, func(s []float64, _ Ends) (Shape, string) {
		return Plate{s[0], s[1], s[2]}, ""
	}},
}

// EndNames are the ends as a list has them.
var EndNames = []string{"closed", "one open", "open"}

// Names lists the solids of the catalogue.
func Names() []string {
	names := make([]string, len(Catalogue))
	for i, l := range Catalogue {
		names[i] = l.Name
	}
	return names
}

// ReadSolid reads one row of a list of solids: "shape", "count", "ends" and the
// sizes of the shape, as typed. Each fault's Where is the key of its cell.
func ReadSolid(row map[string]string, sys quantity.System) (Solid, fault.List) {
	at := slices.IndexFunc(Catalogue, func(l Listed) bool { return strings.EqualFold(l.Name, strings.TrimSpace(row["shape"])) })
	if at < 0 {
		return Solid{}, fault.List{{Where: "shape", Field: "shape", Value: row["shape"], Problem: "is no solid of the list", Remedy: "give one of " + strings.Join(Names(), ", ")}}
	}
	l := Catalogue[at]
	faults := strangers(row)
	ctx := field.Context{System: sys}
	sizes := make([]float64, len(l.Sizes))
	for i, d := range l.Sizes {
		v, err := d.Read(row[d.Key], ctx)
		if err != nil {
			f := fault.All(err)[0]
			f.Where = d.Key
			faults = append(faults, f)
			continue
		}
		sizes[i] = v.Num
	}
	n, ends := readCount(row, &faults), readEnds(row, l, &faults)
	if len(faults) > 0 {
		return Solid{}, faults
	}
	shape, wrong := l.make(sizes, ends)
	if wrong != "" {
		d := l.Sizes[1]
		return Solid{}, fault.List{{Where: d.Key, Field: d.Label, Value: row[d.Key], Problem: wrong, Remedy: "give a smaller one"}}
	}
	return Solid{shape, n}, nil
}

// Describe says what a row of solids is, in the words it was typed in: "frustum
// 0.3 m, 0.2 m, 0.8 m".
func Describe(row map[string]string) string {
	name := strings.ToLower(strings.TrimSpace(row["shape"]))
	var sizes []string
	for _, l := range Catalogue {
		for _, d := range l.Sizes {
			if l.Name == name {
				sizes = append(sizes, strings.TrimSpace(row[d.Key]))
			}
		}
	}
	return name + " " + strings.Join(sizes, ", ")
}

// strangers tells of cells that no solid of the catalogue has. Those of another
// solid than the row's are kept and not read; two strokes begin a comment.
func strangers(row map[string]string) (faults fault.List) {
	for key := range row {
		if !strings.HasPrefix(key, "//") && !slices.Contains(cells, key) {
			faults = append(faults, fault.Fault{Where: key, Field: "cell", Value: key, Problem: "is in no solid", Remedy: "give " + strings.Join(cells[:len(cells)-1], ", ") + " or " + cells[len(cells)-1]})
		}
	}
	slices.SortFunc(faults, func(a, b fault.Fault) int { return strings.Compare(a.Where, b.Where) })
	return faults
}

// cells are the keys that a row of solids may have.
var cells = func() []string {
	keys := []string{"shape", "count", "ends"}
	for _, l := range Catalogue {
		for _, d := range l.Sizes {
			if !slices.Contains(keys, d.Key) {
				keys = append(keys, d.Key)
			}
		}
	}
	return keys
}()

func readCount(row map[string]string, faults *fault.List) int {
	text := strings.TrimSpace(row["count"])
	if text == "" {
		return 1
	}
	d := field.Def{Label: "count", Kind: quantity.KindCount, Bounds: field.Bounds{Min: 1, Max: 100000}}
	v, err := d.Read(text, field.Context{})
	if err != nil {
		f := fault.All(err)[0]
		f.Where = "count"
		*faults = append(*faults, f)
	}
	return int(v.Num)
}

func readEnds(row map[string]string, l Listed, faults *fault.List) Ends {
	text := strings.TrimSpace(row["ends"])
	if text == "" {
		return Closed
	}
	i := slices.Index(EndNames, strings.ToLower(text))
	if i < 0 || i > 0 && !l.Ends {
		*faults = append(*faults, fault.Fault{Where: "ends", Field: "ends", Value: text, Problem: "are not ends of this solid", Remedy: "give closed, one open or open, or leave it empty"})
		return Closed
	}
	return Ends(i)
}
