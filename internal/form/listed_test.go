package form

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/quantity"
)

func TestEverySolidOfTheListIsReadFromItsSizes(t *testing.T) {
	for _, x := range []struct {
		row   map[string]string
		shape Shape
	}{
		{map[string]string{"shape": "sphere", "diameter": "50 cm"}, Sphere{0.5}},
		{map[string]string{"shape": "Ellipsoid ", "length": "1 m", "width": "60 cm", "height": "300 mm"}, Ellipsoid{1, 0.6, 0.3}},
		{map[string]string{"shape": "cylinder", "diameter": "40 cm", "height": "0.9", "ends": "open"}, Cylinder{0.4, 0.9, Open}},
		{map[string]string{"shape": "cone", "diameter": "60 cm", "height": "80 cm", "ends": "One open"}, Frustum{0.6, 0, 0.8, OneOpen}},
		{map[string]string{"shape": "frustum", "foot": "60 cm", "top": "30 cm", "height": "50 cm", "ends": "closed"}, Frustum{0.6, 0.3, 0.5, Closed}},
		{map[string]string{"shape": "box", "length": "1.6 m", "width": "0.42 m", "height": "9 cm"}, Box{1.6, 0.42, 0.09, Closed}},
		{map[string]string{"shape": "torus", "ring": "60 cm", "diameter": "20 cm"}, Torus{0.6, 0.2}},
		{map[string]string{"shape": "tube", "diameter": "60 cm", "bore": "40 cm", "length": "50 cm"}, Tube{0.6, 0.4, 0.5}},
		{map[string]string{"shape": "plate", "length": "1.2 m", "width": "40 cm", "thickness": "50 mm"}, Plate{1.2, 0.4, 0.05}},
	} {
		s, faults := ReadSolid(x.row, quantity.Metric)
		require.Empty(t, faults, x.row["shape"])
		near(t, Solid{x.shape, 1}, s)
	}
	assert.Len(t, Catalogue, len(Names()))
}

// near holds two solids against each other to what lengths are read to.
func near(t *testing.T, want, got Solid) {
	t.Helper()
	assert.IsType(t, want.Shape, got.Shape)
	assert.InEpsilon(t, want.Shape.area(), got.Shape.area(), 1e-12)
	assert.InEpsilon(t, want.Shape.volume(), got.Shape.volume(), 1e-12)
	assert.InEpsilon(t, want.Shape.half(), got.Shape.half(), 1e-12)
	assert.Equal(t, want.Count, got.Count)
}

func TestBareSizesAreInTheReadersUnit(t *testing.T) {
	s, faults := ReadSolid(map[string]string{"shape": "sphere", "diameter": "12", "count": " 3 "}, quantity.InchPound)
	require.Empty(t, faults)
	near(t, Solid{Sphere{12 * 0.0254}, 3}, s)
}

func TestEveryFaultOfASolidNamesItsCellAndWhatWouldBeRight(t *testing.T) {
	for what, x := range map[string]struct {
		row   map[string]string
		where []string
	}{
		"no shape":         {map[string]string{}, []string{"shape"}},
		"unknown shape":    {map[string]string{"shape": "blob"}, []string{"shape"}},
		"no size":          {map[string]string{"shape": "sphere"}, []string{"diameter"}},
		"all at once":      {map[string]string{"shape": "box", "length": "-1 m", "width": "wide", "height": "0", "count": "half", "ends": "ajar"}, []string{"length", "width", "height", "count", "ends"}},
		"a closed torus":   {map[string]string{"shape": "torus", "ring": "10 cm", "diameter": "20 cm"}, []string{"diameter"}},
		"bore too wide":    {map[string]string{"shape": "tube", "diameter": "10 cm", "bore": "10 cm", "length": "1 m"}, []string{"bore"}},
		"ends of a sphere": {map[string]string{"shape": "sphere", "diameter": "10 cm", "ends": "open"}, []string{"ends"}},
		"none of it":       {map[string]string{"shape": "sphere", "diameter": "10 cm", "count": "0"}, []string{"count"}},
		"two kilometres":   {map[string]string{"shape": "sphere", "diameter": "2 km"}, []string{"diameter"}},
	} {
		_, faults := ReadSolid(x.row, quantity.Metric)
		var where []string
		for _, f := range faults {
			where = append(where, f.Where)
			assert.NotEmpty(t, f.Field, what)
			assert.NotEmpty(t, f.Problem, what)
			assert.NotEmpty(t, f.Remedy, what)
			assert.Equal(t, x.row[f.Where], f.Value, what)
		}
		assert.Equal(t, x.where, where, what)
	}
}

// Nothing typed makes a solid that cannot be reckoned with.
func TestWhateverIsTypedASolidHasSurfaceAndRoomOrAFault(t *testing.T) {
	texts := rapid.OneOf(rapid.SampledFrom([]string{"", "0", "1 m", "1e400", "-2", "NaN", "½ in", "1/0", "5'10\"", "1000 m", "0.0000000001 mm", "." + strings.Repeat("0", 75) + "1um", "0.001 mm"}), rapid.String())
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(Catalogue).Draw(t, "solid")
		row := map[string]string{"shape": l.Name, "count": texts.Draw(t, "count"), "ends": rapid.SampledFrom([]string{"", "open", "ajar"}).Draw(t, "ends")}
		for _, d := range l.Sizes {
			row[d.Key] = texts.Draw(t, d.Key)
		}
		s, faults := ReadSolid(row, quantity.Metric)
		if len(faults) > 0 {
			return
		}
		all := Solids{s}
		v, _ := all.Volume()
		m, _ := all.Metal(0.005)
		for _, x := range []float64{float64(all.Area()), float64(v), float64(m), float64(all.Thickest())} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
				t.Fatalf("%v gives %v", row, x)
			}
		}
	})
}
