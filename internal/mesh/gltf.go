package mesh

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// A glTF document, as far as it says where the triangles are (glTF 2.0
// specification, Khronos Group).
type gltfDocument struct {
	Scene       *gltfInt
	Scenes      []struct{ Nodes []gltfInt }
	Nodes       []gltfNode
	Meshes      []struct{ Primitives []gltfPrimitive }
	Accessors   []gltfAccessor
	BufferViews []gltfView
	Buffers     []struct{ URI *string }

	ExtensionsRequired []string
}

type gltfNode struct {
	Mesh, Skin  *gltfInt
	Children    []gltfInt
	Matrix      []float64
	Translation []float64
	Rotation    []float64
	Scale       []float64
	Extensions  map[string]json.RawMessage
}

type gltfPrimitive struct {
	Attributes map[string]gltfInt
	Indices    *gltfInt
	Mode       *gltfInt
	Targets    []json.RawMessage
	Extensions map[string]json.RawMessage
}

// gltfInt is a whole number, which JSON may write as 24, 24.0 or 2.4e1.
type gltfInt int64

// UnmarshalJSON reads a whole number of up to 2^40, beyond any file's size.
func (n *gltfInt) UnmarshalJSON(text []byte) error {
	v, err := strconv.ParseFloat(string(text), 64)
	if err != nil || v != float64(int64(v)) || v < 0 || v > 1<<40 {
		*n = -1 // found nowhere
		return nil
	}
	*n = gltfInt(v)
	return nil
}

// mostJSON is the longest text of a document that is read.
const mostJSON = 1 << 29

// readGLTF reads a glTF document in text.
func readGLTF(in *input, b *builder) error {
	text, err := io.ReadAll(io.LimitReader(in.all(), mostJSON))
	if err != nil {
		return err
	}
	g := &gltf{in: in, build: b}
	if err := g.understand(text); err != nil {
		return err
	}
	text = nil // a document can be large, if it holds its data
	return g.form()
}

// readGLB reads a glTF document with its data behind it.
func readGLB(in *input, b *builder) error {
	var head [12]byte
	if _, err := in.src.ReadAt(head[:], 0); err != nil {
		return in.fault("ends within its header", "export or copy it again")
	}
	if version := binary.LittleEndian.Uint32(head[4:]); version != 2 {
		return in.fault(fmt.Sprintf("is a GLB of version %d", version), "export it as glTF 2.0")
	}
	if declared := int64(binary.LittleEndian.Uint32(head[8:])); declared > in.size {
		b.report.harm("The header says %s bytes, %s found.", grouped(int(declared)), grouped(int(in.size)))
	}
	g := &gltf{in: in, build: b}
	var text []byte
	for at := int64(len(head)); ; {
		var chunk [8]byte
		if _, err := in.src.ReadAt(chunk[:], at); err != nil {
			break
		}
		at += int64(len(chunk))
		n := min(int64(binary.LittleEndian.Uint32(chunk[:])), in.size-at)
		switch kind := string(chunk[4:]); {
		case kind == "JSON" && text == nil:
			var err error
			if text, err = io.ReadAll(in.section(at, min(n, mostJSON))); err != nil {
				return err
			}
		case kind == "BIN\x00" && g.chunk == nil:
			g.chunk = io.NewSectionReader(&meteredAt{in.src, in.meter}, at, n)
		}
		at += n + -n&3 // chunks begin at multiples of four
	}
	if err := g.understand(text); err != nil {
		return err
	}
	return g.form()
}

// gltf is a document being read.
type gltf struct {
	in      *input
	build   *builder
	doc     gltfDocument
	chunk   *io.SectionReader // data in the file itself; nil if there is none
	buffers map[gltfInt]*io.SectionReader
	trouble error // why some data could not be had: the first reason
	open    []func()
}

// understand takes the document out of its text.
func (g *gltf) understand(text []byte) error {
	var about struct{ Asset struct{ Version any } }
	wrong := json.Unmarshal(text, &about)
	if v, ok := about.Asset.Version.(string); ok && !strings.HasPrefix(v, "2") {
		return g.in.fault(fmt.Sprintf("is glTF of version %.10s", v), "export it as glTF 2.0")
	}
	if err := json.Unmarshal(text, &g.doc); err != nil {
		wrong = err
	}
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(wrong, &kind):
		g.build.report.harm("“%s” is not what it should be in glTF; it was passed over.", kind.Field)
	case wrong != nil:
		return g.in.fault(fmt.Sprintf("begins like glTF, but cannot be understood (%v)", wrong), "export it again")
	}
	return g.needs()
}

// form reads the triangles that the document places.
func (g *gltf) form() error {
	g.build.report.Unit = Metre // section 3.4: metres, and y is up
	g.build.report.Up = YUp
	err := g.scene()
	g.shut()
	if err == nil {
		err = g.trouble
	}
	return err
}

// The extensions that keep points in a form not read here.
const (
	draco      = "KHR_draco_mesh_compression"
	meshopt    = "EXT_meshopt_compression"
	meshoptKHR = "KHR_meshopt_compression"
)

// harmless is how the names of extensions begin that do not change the form.
var harmless = []string{
	"KHR_mesh_quantization", "KHR_materials_", "KHR_texture_", "EXT_texture_", "MSFT_texture_",
	"KHR_lights_", "EXT_lights_", "KHR_xmp", "KHR_animation_", "EXT_mesh_gpu_instancing",
}

// needs refuses a document that cannot be read without what is not known here.
func (g *gltf) needs() error {
	for _, name := range g.doc.ExtensionsRequired {
		if name == draco || name == meshopt || name == meshoptKHR {
			return g.compressed(name)
		}
		if !isHarmless(name) {
			g.build.report.harm("The file needs “%.60s”, which is not known here; the form may be incomplete.", name)
		}
	}
	return nil
}

func isHarmless(extension string) bool {
	for _, begin := range harmless {
		if strings.HasPrefix(extension, begin) {
			return true
		}
	}
	return false
}

func (g *gltf) compressed(name string) error {
	return g.in.fault("is compressed by "+name+", which cannot be read", "export it without compression")
}
