package mesh

import (
	"bytes"
	"io"
	"strings"
)

const sniffed = 1 << 16

// A reader reads one format: what it finds goes to the builder, sound or not.
type reader func(in *input, b *builder) error

// sniff tells the format by what is in the file. A binary STL may begin with
// any word, even "solid", so its size is asked first.
func (in *input) sniff() (reader, Format, error) {
	head := make([]byte, min(max(in.size, 0), sniffed))
	n, err := in.src.ReadAt(head, 0)
	if head = head[:n]; n == 0 {
		if err = in.excuse(err); err == nil {
			err = in.fault("is empty", "export the scan again")
		}
		return nil, "", err
	}
	switch {
	case isBinarySTL(head, in.size):
		return readBinarySTL, BinarySTL, nil
	case bytes.HasPrefix(head, []byte("glTF")):
		return readGLB, GLB, nil
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return read3MF, ThreeMF, nil
	case isPLY(head):
		return readPLY, TextPLY, nil // the header says which kind
	}
	if kind := otherKind(head); kind != "" {
		return nil, "", in.fault("is "+kind, "export the scan as STL, OBJ, PLY, 3MF or glTF")
	}
	text := !bytes.Contains(head, []byte{0}) || head[0] >= 0xfe
	if !text && seemsBinarySTL(head) {
		return readBinarySTL, BinarySTL, nil
	}
	if read, format := in.sniffText(); read != nil {
		return read, format, nil
	}
	return nil, "", in.fault("is of no kind that can be read", "give a scan as STL, OBJ, PLY, 3MF, glTF or GLB")
}

// otherKinds are files that people have beside their scans, by how they begin.
var otherKinds = []struct{ begins, kind string }{
	{"Kaydara FBX Binary", "an FBX file"},
	{"ISO-10303-21", "a STEP drawing"},
	{"BLENDER", "a working file of a modelling program"},
	{"OFF", "an OFF mesh"},
	{"%PDF", "a PDF document"},
	{"\xff\xd8\xff", "a picture"},
	{"\x89PNG", "a picture"},
	{"\x1f\x8b", "a compressed file"},
	{"7z\xbc\xaf", "a compressed archive"},
	{"Rar!", "a compressed archive"},
	{"PK\x05\x06", "an empty archive"},
}

func otherKind(head []byte) string {
	for _, k := range otherKinds {
		if bytes.HasPrefix(head, []byte(k.begins)) {
			return k.kind
		}
	}
	return ""
}

// sniffText tells by the first line with a word that only one format has.
func (in *input) sniffText() (reader, Format) {
	const enough = 1 << 20
	quiet := *in
	quiet.meter = &meter{ctx: in.meter.ctx}
	s := newStream(io.LimitReader(quiet.all(), enough))
	solid, named := false, false
	for {
		word := strings.ToLower(string(s.word()))
		switch word {
		case "":
			switch {
			case solid:
				return readTextSTL, TextSTL
			case named:
				return readOBJ, OBJ
			}
			return nil, ""
		case "facet", "outer", "vertex", "endloop", "endfacet", "endsolid":
			return readTextSTL, TextSTL
		case "solid":
			solid = true
			passTitle(s)
			continue
		case "v", "vn", "vt", "vp", "f", "mtllib", "usemtl":
			return readOBJ, OBJ
		case "o", "g", "#":
			named = true
		}
		if word[0] == '{' {
			return readGLTF, GLTF
		}
		s.endLine()
	}
}

// unitWords are the names of units as people write them in a comment.
var unitWords = map[string]Unit{
	"mm": Millimetre, "millimeter": Millimetre, "millimeters": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre,
	"cm": Centimetre, "centimeter": Centimetre, "centimeters": Centimetre, "centimetre": Centimetre, "centimetres": Centimetre,
	"m": Metre, "meter": Metre, "meters": Metre, "metre": Metre, "metres": Metre,
	"in": Inch, "inch": Inch, "inches": Inch,
	"ft": Foot, "foot": Foot, "feet": Foot,
	"micron": Micrometre, "microns": Micrometre, "µm": Micrometre, "um": Micrometre,
}

// unitNamedIn finds "units = mm", "Unit: inches" and the like in a comment
// (common practice, no source). The zero Unit is none found.
func unitNamedIn(comment []byte) Unit {
	words := strings.FieldsFunc(strings.ToLower(string(comment)), func(r rune) bool {
		return r <= ' ' || strings.ContainsRune("=:,;()#\"'", r)
	})
	for i, w := range words[:max(len(words)-1, 0)] {
		if w == "unit" || w == "units" {
			next := words[i+1]
			if next == "in" || next == "are" || next == "is" {
				if i+2 < len(words) {
					if u, ok := unitWords[words[i+2]]; ok {
						return u
					}
				}
			}
			return unitWords[next]
		}
	}
	return Unit{}
}
