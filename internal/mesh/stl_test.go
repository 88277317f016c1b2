package mesh

import (
	"bytes"
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestABinarySTLMayBeginWithAnyWord(t *testing.T) {
	for _, title := range []string{"", "solid lion", "solid lion\nfacet normal 0 0 1", "glTF", "PK\x03\x04", "ply\nformat ascii 1.0\n", "{\"asset\":", "COLOR=\x01"} {
		m, report := mustRead(t, binarySTL(title, brick(Vec{1, 1, 1}, 1)))
		assert.Equal(t, BinarySTL, report.Format, title)
		assert.Equal(t, 12, len(m.Triangles), title)
	}
}

func TestHeaderSays12000Found11842(t *testing.T) {
	solid := torus(3, 1, 110)
	solid.Triangles = solid.Triangles[:12000]
	data := binarySTL("lion", solid)
	m, report := mustRead(t, data[:stlHead+stlRecord*11842+17])
	assert.Equal(t, 11842, len(m.Triangles))
	assert.Equal(t, []string{"The header says 12,000 triangles, 11,842 found."}, report.Notes)
	assert.Equal(t, 12000, report.Declared)
	assert.True(t, report.Damaged)
}

func TestABinarySTLMayHoldMoreThanItsHeaderSays(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	count := func(data []byte, n uint32) []byte {
		binary.LittleEndian.PutUint32(data[80:], n)
		return data
	}
	m, report := mustRead(t, count(binarySTL("", cube), 0))
	assert.Equal(t, 12, len(m.Triangles), "a writer that did not know its count left 0")
	assert.Equal(t, []string{"The header says 0 triangles, 12 found."}, report.Notes)

	m, _ = mustRead(t, count(binarySTL("", cube), 10))
	assert.Equal(t, 12, len(m.Triangles), "the two not counted are triangles too")

	m, report = mustRead(t, append(binarySTL("", cube), "made on a Tuesday"...))
	assert.Equal(t, 12, len(m.Triangles))
	assert.Equal(t, []string{"17 bytes follow the last triangle and were passed over."}, report.Notes)
	assert.False(t, report.Damaged)
}

func TestTrianglesThatAreNoneAreLeftOutAndCounted(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	data := binarySTL("", cube)
	put := func(triangle, number int, x float32) {
		binary.LittleEndian.PutUint32(data[stlHead+stlRecord*triangle+12+4*number:], math.Float32bits(x))
	}
	put(0, 4, float32(math.NaN()))
	put(1, 8, float32(math.Inf(-1)))
	copy(data[stlHead+stlRecord*2+12:][:12], data[stlHead+stlRecord*2+24:][:12])
	m, report := mustRead(t, data)
	assert.Equal(t, 9, len(m.Triangles))
	assert.Equal(t, 2, report.NonFinite)
	assert.Equal(t, 1, report.Degenerate)
	assert.Equal(t, 3, report.Left())
	assert.Equal(t, []string{
		"2 triangles were left out: a corner is no number, or too large for one.",
		"1 triangle was left out: two corners are the same point, so there is no surface.",
	}, report.Notes)

	for i := range 12 {
		put(i, 0, float32(math.NaN()))
	}
	_, _, err := readBytes(t, data)
	assert.EqualError(t, err, "Scan file form holds 12 triangles, and none can be used; 12 triangles were left out: a corner is no number, or too large for one; export the scan again")
}

func TestNegativeZeroIsZero(t *testing.T) {
	m, _ := mustRead(t, []byte("solid\nfacet\nvertex -0 0 0\nvertex 1 -0.0 0\nvertex 0 1 -0e3\nendfacet\nfacet\nvertex 0 0 0\nvertex 0 -1 0\nvertex 1 0 0\nendfacet\n"))
	assert.Equal(t, 4, len(m.Points))
}

// However many processors weld the stretches of a file, the mesh is the same.
func TestStretchesJoinToTheSameMesh(t *testing.T) {
	solid := torus(3, 1, 400) // 160,000 triangles: several stretches
	m, report := mustRead(t, binarySTL("", solid))
	assert.Equal(t, len(solid.Points), len(m.Points))
	want := newBuilder(&input{size: 1 << 30}, &Report{})
	want.weld = newWelder(0, 0)
	for i := range solid.Triangles {
		var at [3]uint32
		want.weld.number([]Vec32{solid.Points[solid.Triangles[i][0]], solid.Points[solid.Triangles[i][1]], solid.Points[solid.Triangles[i][2]]}, at[:])
		want.join(at)
	}
	assert.True(t, equal(want.triangles, m.Triangles), "numbered in the order of the file")
	assert.Equal(t, 160000, report.Found)
}

func TestTextSTLInEveryHandwriting(t *testing.T) {
	cube := brick(Vec{1, 2, 3}, 1)
	plain := string(textSTL("lion", cube))
	for name, text := range map[string]string{
		"as it should be":         plain,
		"capitals":                strings.ToUpper(plain),
		"lines of Windows":        strings.ReplaceAll(plain, "\n", "\r\n"),
		"lines of an old Mac":     strings.ReplaceAll(plain, "\n", "\r"),
		"all in one line":         strings.ReplaceAll(plain, "\n", " "),
		"another first word":      strings.Replace(plain, "solid lion", "object lion", 1),
		"a byte order mark":       "\xef\xbb\xbf" + plain,
		"no first line":           plain[strings.Index(plain, "facet"):],
		"no last line":            plain[:strings.Index(plain, "endsolid")],
		"blank lines":             "\n\n\t\n" + strings.ReplaceAll(plain, "\n", "\n\n"),
		"a name of keywords":      strings.ReplaceAll(plain, "lion", "facet vertex 1 2 3"),
		"decimal commas":          strings.ReplaceAll(plain, ".", ","),
		"a title of many letters": strings.ReplaceAll(plain, "lion", strings.Repeat("lion ", 5000)),
	} {
		m, report := mustRead(t, []byte(text))
		assert.Equal(t, TextSTL, report.Format, name)
		assert.Equal(t, cornersIn(cube), cornersIn(m), name)
		assert.Empty(t, report.Notes, name)
	}
}

func TestSeveralSolidsAreOneForm(t *testing.T) {
	two := append(textSTL("left", brick(Vec{1, 1, 1}, 1)), textSTL("right", sphere(5, 12))...)
	m, report := mustRead(t, append(two, "solid empty\nendsolid empty\n"...))
	assert.Equal(t, 12+len(sphere(5, 12).Triangles), len(m.Triangles))
	assert.Equal(t, 3, report.Bodies)
}

func TestATextSTLWithBrokenFacets(t *testing.T) {
	m, report := mustRead(t, []byte(`solid wounded
facet normal 0 0 1
 outer loop
  vertex 0 0 0
  vertex 1 0 0
  vertex 1 1 0
  vertex 0 1 0
 endloop
endfacet
facet normal 0 0 1
 outer loop
  vertex 0 0 zero
  vertex 1 0 0
  vertex 1 1 0
 endloop
endfacet
facet normal 0 0 1
 outer loop
  vertex 0 0 0
  vertex 1 0 0
 endloop
endfacet
facet normal 0 0 1
 outer loop
  vertex 0 0 0
  vertex 1 0 nan
  vertex 1 1 0
 endloop
endfacet
facet normal 0 0 1
 outer loop
  vertex 0 0 0
  vertex 1 0`))
	assert.Equal(t, 2, len(m.Triangles), "the facet of four corners")
	assert.Equal(t, 2, report.Broken)
	assert.Equal(t, 1, report.NonFinite)
	assert.Equal(t, []string{
		"The file ends in the middle of a triangle, at line 33.",
		"2 triangles were left out: unreadable, or naming points that the file does not have.",
		"1 triangle was left out: a corner is no number, or too large for one.",
	}, report.Notes)
}

func TestTheUnitOfATitleIsRead(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	_, report := mustRead(t, binarySTL("exported UNITS=mm", cube))
	assert.Equal(t, Millimetre, report.Unit)
	_, report = mustRead(t, append([]byte("# Units: inches\n"), textOBJ(cube)...))
	assert.Equal(t, Inch, report.Unit)
	_, report = mustRead(t, []byte(strings.Replace(string(plyOf(cube, nil)), "comment a solid", "comment file units are meters", 1)))
	assert.Equal(t, Metre, report.Unit)
	_, report = mustRead(t, binarySTL("united we stand", cube))
	assert.Equal(t, Unit{}, report.Unit)
}

func TestTextAndBinarySTLOfAnyMeshAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapidMesh(t)
		a, _, errA := Read(t.Context(), bytes.NewReader(binarySTL("", m)), int64(stlHead+stlRecord*len(m.Triangles)), "a", nil)
		text := textSTL("", m)
		b, _, errB := Read(t.Context(), bytes.NewReader(text), int64(len(text)), "b", nil)
		require.Equal(t, errA == nil, errB == nil)
		if errA == nil {
			assert.Equal(t, a, b)
		}
	})
}

// rapidMesh is a mesh of few places, so that many corners coincide.
func rapidMesh(t *rapid.T) *Mesh {
	place := rapid.SampledFrom([]float32{-1000, -1, float32(math.Copysign(0, -1)), 0, 1e-30, 0.1, 1, 3, 2000})
	corner := rapid.Custom(func(t *rapid.T) Vec32 {
		return Vec32{place.Draw(t, "x"), place.Draw(t, "y"), place.Draw(t, "z")}
	})
	m := &Mesh{Points: rapid.SliceOfN(corner, 3, 30).Draw(t, "points")}
	number := rapid.Uint32Range(0, uint32(len(m.Points)-1))
	for range rapid.IntRange(1, 40).Draw(t, "triangles") {
		m.Triangles = append(m.Triangles, [3]uint32{number.Draw(t, "a"), number.Draw(t, "b"), number.Draw(t, "c")})
	}
	return m
}

// Two numbers at once are told sound or not as each by itself is, whatever
// their bits.
func TestOddNumbersAreFoundByTheirBits(t *testing.T) {
	bits := rapid.OneOf(rapid.Uint32(), rapid.SampledFrom([]uint32{0, 1, 0x80000000, 0x80000001, 0x7f7fffff, 0x7f800000, 0x7f800001, 0xff7fffff, 0xff800000, 0xffffffff}))
	isOdd := func(b uint32) bool {
		x := float64(math.Float32frombits(b))
		return math.IsNaN(x) || math.IsInf(x, 0) || x == 0 && math.Signbit(x)
	}
	rapid.Check(t, func(t *rapid.T) {
		low, high := bits.Draw(t, "low"), bits.Draw(t, "high")
		assert.Equal(t, isOdd(low) || isOdd(high), odd(uint64(low)|uint64(high)<<32) != 0)
	})
}

func TestATextSTLCutOffBeforeTheFirstCornerSaysSo(t *testing.T) {
	whole := "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n"
	m, report := mustRead(t, []byte(whole+"facet normal 0 0 1\nouter loop\nver"))
	assert.Len(t, m.Triangles, 1)
	assert.Equal(t, []string{"The file ends in the middle of a triangle, at line 11."}, report.Notes)
	_, report = mustRead(t, []byte(whole+"endsolid a\n"))
	assert.Empty(t, report.Notes)
}
