package drawing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// SVG 2, section 9.3: the triangle of its first example, and its rule that
// numbers may follow each other without a space where that is not ambiguous.
func TestPathDataIsReadAsSVGSaysIt(t *testing.T) {
	p, err := ParsePath("M 100 100 L 300 100 L 200 300 z")
	require.NoError(t, err)
	assert.Equal(t, Polygon(Point{100, 100}, Point{300, 100}, Point{200, 300}), p)

	p, err = ParsePath("M.5.5-1-2")
	require.NoError(t, err)
	assert.Equal(t, Polyline(Point{0.5, 0.5}, Point{-1, -2}), p)

	p, err = ParsePath("M 100 200 L 200 100 -100 -200")
	require.NoError(t, err)
	same, err := ParsePath("M 100 200 L 200 100 L -100 -200")
	require.NoError(t, err)
	assert.Equal(t, same, p)
}

func TestSmallLettersAreStepsFromThePlaceBefore(t *testing.T) {
	p, err := ParsePath("m1,2 l3,0 v1 h-3 z m10 10 c0 1 1 1 1 0")
	require.NoError(t, err)
	want := Polygon(Point{1, 2}, Point{4, 2}, Point{4, 3}, Point{1, 3})
	want.Move(11, 12)
	want.Cubic(11, 13, 12, 13, 12, 12)
	assert.Equal(t, want, p)
}

func TestBrokenPathDataSaysWhere(t *testing.T) {
	for data, says := range map[string]string{
		"M 1":               "M needs 2 numbers and has 1",
		"L 1 2":             "begins with L",
		"M 1 2 Q 1 2 3 4":   `holds 'Q'`,
		"1 2":               "where M, L, H, V, C or Z belongs",
		"M 1 2 z 3":         "where M, L, H, V, C or Z belongs",
		"M 1 x":             "M needs 2 numbers",
		"M 1 2 C 1 2 3 4 5": "C needs 6 numbers and has 5",
		"M 1e999 0":         "M needs 2 numbers",
	} {
		_, err := ParsePath(data)
		assert.ErrorContains(t, err, says, data)
	}
}

func FuzzParsePath(f *testing.F) {
	f.Add("M.5.5-1-2C1 2 3 4 5 6z")
	f.Add("m1 2e3v-4h+.5")
	f.Fuzz(func(t *testing.T, data string) {
		p, err := ParsePath(data)
		if err == nil && len(p) > 0 {
			assert.Equal(t, MoveTo, p[0].Op)
		}
	})
}
