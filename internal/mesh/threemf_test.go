package mesh

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// boxOf is the smallest and the largest coordinates.
func boxOf(m *Mesh) (low, high Vec) {
	low, high = m.Points[0].Vec(), m.Points[0].Vec()
	for _, p := range m.Points {
		for k, x := range p.Vec() {
			low[k], high[k] = min(low[k], x), max(high[k], x)
		}
	}
	return low, high
}

// volumeOf is what a closed mesh holds, below zero if it is inside out.
func volumeOf(m *Mesh) (volume float64) {
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		volume += a.Dot(b.Cross(c)) / 6
	}
	return volume
}

func TestA3MFNamesItsUnitAndWhatIsUp(t *testing.T) {
	cube := string(objectXML(1, brick(Vec{1, 1, 1}, 1)))
	for name, unit := range units3MF {
		_, report := mustRead(t, threeMFOf(t, modelXML(name, cube, `<item objectid="1"/>`)))
		assert.Equal(t, unit, report.Unit, name)
		assert.Equal(t, ZUp, report.Up)
	}
	_, report := mustRead(t, threeMFOf(t, modelXML("cubit", cube, `<item objectid="1"/>`)))
	assert.Equal(t, Millimetre, report.Unit)
	assert.Contains(t, report.Notes[0], "“cubit”, which is no unit of a 3MF")
}

// The rows of a transform are the images of the axes (3MF Core Specification,
// section 3.3).
func TestItemsOfA3MFArePlaced(t *testing.T) {
	cube := string(objectXML(7, brick(Vec{1, 2, 3}, 1)))
	m, report := mustRead(t, threeMFOf(t, modelXML("millimeter", cube,
		`<item objectid="7" transform="0 1 0 -1 0 0 0 0 2 10 20 30"/><item objectid="7"/>`)))
	assert.Equal(t, 24, len(m.Triangles))
	assert.Equal(t, 2, report.Bodies)
	low, high := boxOf(&Mesh{Points: m.Points[:8]})
	assert.Equal(t, Vec{8, 20, 30}, low, "x goes to y, y to −x, z is doubled")
	assert.Equal(t, Vec{10, 21, 36}, high)
}

func TestAMirroredItemIsNotInsideOut(t *testing.T) {
	cube := string(objectXML(1, brick(Vec{1, 1, 1}, 1)))
	m, _ := mustRead(t, threeMFOf(t, modelXML("millimeter", cube, `<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>`)))
	assert.InDelta(t, 1, volumeOf(m), 1e-12)
}

func TestObjectsOfA3MFAreMadeOfObjectsInOtherFiles(t *testing.T) {
	head := modelXML("inch", string(objectXML(1, brick(Vec{1, 1, 1}, 1))), "")
	group := `<object id="2"><components><component objectid="1" p:path="/3D/parts/head&amp;.model" transform="1 0 0 0 1 0 0 0 1 5 0 0"/><component objectid="3"/></components></object>` +
		strings.ReplaceAll(string(objectXML(3, brick(Vec{1, 1, 1}, 1))), "<object", "\n<object")
	m, report := mustRead(t, threeMFOf(t, modelXML("millimeter", group, `<item objectid="2" transform="2 0 0 0 2 0 0 0 2 0 0 0"/>`), "3D/parts/head&.model", head))
	assert.Equal(t, 24, len(m.Triangles))
	_, high := boxOf(m)
	assert.InDelta(t, 2*(5+25.4), high[0], 1e-5, "an inch is 25.4 mm")
	assert.Equal(t, Millimetre, report.Unit)
}

func TestA3MFMadeOfItselfEnds(t *testing.T) {
	object := `<object id="1"><components><component objectid="1"/><component objectid="2"/></components></object>` + string(objectXML(2, brick(Vec{1, 1, 1}, 1)))
	m, report := mustRead(t, threeMFOf(t, modelXML("millimeter", object, `<item objectid="1"/><item objectid="9"/>`)))
	assert.Equal(t, 12, len(m.Triangles))
	assert.Equal(t, []string{"Object 1 is made of itself; it was left out.", "Object 9 is to be built, but is not there."}, report.Notes)
}

// Each object is twice the one before: a small file that would be a thousand
// million times as large.
func TestA3MFThatDoublesItselfIsStopped(t *testing.T) {
	for name, leaf := range map[string]string{"cube": string(objectXML(1, brick(Vec{1, 1, 1}, 1))), "nothing": `<object id="1"><mesh/></object>`} {
		objects := leaf
		for i := 2; i < 32; i++ {
			objects += fmt.Sprintf(`<object id="%d"><components><component objectid="%d"/><component objectid="%d"/></components></object>`, i, i-1, i-1)
		}
		data := threeMFOf(t, modelXML("millimeter", objects, `<item objectid="31"/>`))
		_, report, err := readBytes(t, data)
		if name == "cube" {
			require.NoError(t, err)
			assert.Contains(t, report.Notes[0], "The file holds more than 4,1")
			continue
		}
		assert.ErrorContains(t, err, "is made of more than a million objects")
	}
}

func TestA3MFThatUnpacksToTooMuchIsStopped(t *testing.T) {
	p := &package3MF{in: &input{name: "form"}, left: 1 << 19}
	s := newStream(&capped{ReadCloser: io.NopCloser(strings.NewReader(strings.Repeat(" ", 1<<20))), pack: p})
	for len(s.ahead()) > 0 {
		s.pos = s.end
	}
	assert.ErrorContains(t, s.err, "unpacks to more than 4 GB")
}

func TestA3MFWithoutABuildOrAModel(t *testing.T) {
	m, report := mustRead(t, threeMFOf(t, modelXML("millimeter", string(objectXML(1, brick(Vec{1, 1, 1}, 1))), "")))
	assert.Equal(t, 12, len(m.Triangles))
	assert.Contains(t, report.Notes[0], "does not say which of its objects are to be built")

	_, _, err := readBytes(t, archive(t, "lion.txt", "roar"))
	assert.EqualError(t, err, "Scan file form is an archive without a 3D model in it; unpack it and give the scan itself")
	_, _, err = readBytes(t, threeMFOf(t, modelXML("millimeter", "", "")))
	assert.ErrorContains(t, err, "holds no triangles")
	_, _, err = readBytes(t, []byte("PK\x03\x04 and then nothing"))
	assert.ErrorContains(t, err, "its archive cannot be opened")
	_, _, err = readBytes(t, threeMFOf(t, modelXML("millimeter", "", `<item objectid="1" p:path="/gone.model"/>`)))
	assert.ErrorContains(t, err, "lacks “/gone.model”, which it names")
}

func TestXMLInEveryHandwriting(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	plain := modelXML("millimeter", string(objectXML(1, cube)), `<item objectid="1"/>`)
	for name, text := range map[string]string{
		"as it should be":     plain,
		"single quotes":       strings.ReplaceAll(plain, `"`, `'`),
		"a prefix":            strings.NewReplacer("<vert", "<m:vert", "</vert", "</m:vert", "<tri", "<m:tri", "</tri", "</m:tri").Replace(plain),
		"comments":            strings.ReplaceAll(plain, "<vertices>", "<!-- <vertex x=\"9\" y=\"9\" z=\"9\"/> --><vertices><![CDATA[<vertex/>]]>"),
		"angles in a value":   strings.ReplaceAll(plain, `<item `, `<item name="a > b" other='"' `),
		"lines and tabs":      strings.ReplaceAll(plain, `" `, "\"\n\t"),
		"room around =":       strings.ReplaceAll(plain, `x="`, `x = "`),
		"long paint":          strings.ReplaceAll(plain, ` v3=`, ` paint="`+strings.Repeat("A", 20000)+`" v3=`),
		"slices with corners": strings.ReplaceAll(plain, "</resources>", `<s:slicestack><s:vertices><s:vertex x="8" y="8"/></s:vertices></s:slicestack></resources>`),
		"a document type":     strings.Replace(plain, "<model", "<!DOCTYPE model [ <!ENTITY a \"b\"> ]>\n<model", 1),
	} {
		m, report := mustRead(t, threeMFOf(t, text))
		assert.Equal(t, cornersIn(cube), cornersIn(m), name)
		assert.Empty(t, report.Notes, name)
	}
}

func TestSupportsForPrintingAreNoMetal(t *testing.T) {
	objects := string(objectXML(1, brick(Vec{1, 1, 1}, 1))) + strings.Replace(string(objectXML(2, brick(Vec{9, 9, 9}, 1))), `type="model"`, `type="support"`, 1)
	m, report := mustRead(t, threeMFOf(t, modelXML("millimeter", objects, `<item objectid="1"/><item objectid="2"/>`)))
	assert.Equal(t, 12, len(m.Triangles))
	assert.Equal(t, []string{"Supports for printing were passed over."}, report.Notes)
}

func TestADamagedModelGivesWhatCanBeUnpacked(t *testing.T) {
	solid := torus(3, 1, 60)
	data := simple3MF(t, solid)
	at := bytes.Index(data, []byte("form.model")) + 20000
	copy(data[at:], make([]byte, 400))
	m, report, err := readBytes(t, data)
	require.NoError(t, err)
	assertSound(t, m)
	assert.NotZero(t, len(m.Triangles))
	assert.True(t, report.Damaged)
}

func TestA3MFThatLostItsEndGivesWhatIsLeft(t *testing.T) {
	solid := torus(3, 1, 60)
	whole := simple3MF(t, solid)
	m, report := mustRead(t, whole[:len(whole)*9/10])
	assert.InDelta(t, len(solid.Triangles)*4/5, len(m.Triangles), float64(len(solid.Triangles))/5)
	assert.Equal(t, Millimetre, report.Unit)
	assert.Equal(t, "The archive has lost its end; what is left was read.", report.Notes[0])
	assert.Contains(t, report.Notes[1], "The model in the archive ends too early or is damaged")

	m, _ = mustRead(t, whole[:len(whole)-30])
	assert.Equal(t, cornersIn(solid), cornersIn(m), "only the list is lost")
}

// The marks before the files are found wherever blocks meet.
func TestSalvageFindsEveryFileOfAnArchive(t *testing.T) {
	for length := block - 60; length < block+10; length++ {
		var out bytes.Buffer
		w := zip.NewWriter(&out)
		for _, f := range []struct{ name, text string }{{"pad", strings.Repeat("PK", length/2)}, {"3D/a.model", "<model/>"}} {
			p, err := w.CreateRaw(&zip.FileHeader{Name: f.name, CompressedSize64: uint64(len(f.text)), UncompressedSize64: uint64(len(f.text))})
			require.NoError(t, err)
			_, err = p.Write([]byte(f.text))
			require.NoError(t, err)
		}
		require.NoError(t, w.Flush())
		in := &input{src: bytes.NewReader(out.Bytes()), size: int64(out.Len()), meter: &meter{ctx: t.Context()}}
		a := salvage(in)
		require.Len(t, a.list, 2)
		r, err := a.find("/3d/A.model").open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		assert.Equal(t, "<model/>", string(text))
	}
}

func TestVerticesAndTrianglesWithoutTheirNumbers(t *testing.T) {
	m, report := mustRead(t, threeMFOf(t, modelXML("millimeter", `<object id="1"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/><vertex x="1" y="one" z="0"/></vertices>
<triangles><triangle v1="0" v2="1" v3="2"/><triangle v1="0" v2="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="1" v3="-1"/><triangle/></triangles></mesh></object>`, `<item objectid="1" transform="1 0 0"/>`)))
	assert.Equal(t, 1, len(m.Triangles))
	assert.Equal(t, 3, report.Broken)
	assert.Equal(t, 1, report.NonFinite)
	assert.Contains(t, report.Notes, "An object's place cannot be read; it was put where it is modelled.")
}
