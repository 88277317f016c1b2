package mesh

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
)

// isPLY is whether a file begins like a PLY: its name on a line of its own.
func isPLY(head []byte) bool {
	return len(head) > 3 && bytes.HasPrefix(head, []byte("ply")) && (head[3] == '\n' || head[3] == '\r' || head[3] == ' ')
}

// plyTypes are the number types by both sets of names that are in use.
var plyTypes = map[string]plyType{
	"char": plyInt8, "int8": plyInt8, "uchar": plyUint8, "uint8": plyUint8,
	"short": plyInt16, "int16": plyInt16, "ushort": plyUint16, "uint16": plyUint16,
	"int": plyInt32, "int32": plyInt32, "uint": plyUint32, "uint32": plyUint32,
	"float": plyFloat32, "float32": plyFloat32, "double": plyFloat64, "float64": plyFloat64,
	"int64": plyInt64, "uint64": plyUint64,
}

type plyType uint8

const (
	plyInt8 plyType = iota + 1
	plyUint8
	plyInt16
	plyUint16
	plyInt32
	plyUint32
	plyInt64
	plyUint64
	plyFloat32
	plyFloat64
)

// size is how many bytes a number of the type takes.
func (t plyType) size() int {
	return [...]int{0, 1, 1, 2, 2, 4, 4, 8, 8, 4, 8}[t]
}

// value is the number of the type at the beginning of b.
func (t plyType) value(b []byte, order binary.ByteOrder) float64 {
	switch t {
	case plyInt8:
		return float64(int8(b[0]))
	case plyUint8:
		return float64(b[0])
	case plyInt16:
		return float64(int16(order.Uint16(b)))
	case plyUint16:
		return float64(order.Uint16(b))
	case plyInt32:
		return float64(int32(order.Uint32(b)))
	case plyUint32:
		return float64(order.Uint32(b))
	case plyInt64:
		return float64(int64(order.Uint64(b)))
	case plyUint64:
		return float64(order.Uint64(b))
	case plyFloat32:
		return float64(math.Float32frombits(order.Uint32(b)))
	}
	return math.Float64frombits(order.Uint64(b))
}

// A plyProperty is one number of an element, or a list of them.
type plyProperty struct {
	name  string
	kind  plyType
	count plyType // type of a list's length; 0 if it is no list
}

// A plyElement is a table: so many rows, each with all the properties.
type plyElement struct {
	name       string
	rows       int64
	properties []plyProperty
}

// find is the place of the property of that name, or -1.
func (e *plyElement) find(names ...string) int {
	for _, name := range names {
		for i, p := range e.properties {
			if p.name == name {
				return i
			}
		}
	}
	return -1
}

// plyHead is what the header of a PLY says.
type plyHead struct {
	order    binary.ByteOrder // nil for text
	elements []plyElement
	unit     Unit
}

// mostHeader is how many lines a header may have.
const mostHeader = 4096

// readPLYHead reads the header up to and with its last line.
func readPLYHead(in *input, s *stream) (*plyHead, error) {
	h := &plyHead{}
	formatted := false
	for s.line < mostHeader {
		word := string(s.wordOnLine())
		switch word {
		case "end_header":
			endPLYHead(s)
			if !formatted {
				return nil, in.fault("is a PLY that does not say whether it is text or binary", "export it again")
			}
			return h, nil
		case "format":
			formatted = true
			switch kind := string(s.wordOnLine()); kind {
			case "ascii":
			case "binary_little_endian":
				h.order = binary.LittleEndian
			case "binary_big_endian":
				h.order = binary.BigEndian
			default:
				return nil, in.fault(fmt.Sprintf("is a PLY of the unknown kind “%.40s”", kind), "export it as binary or text PLY")
			}
		case "element":
			name := string(s.wordOnLine())
			rows, n := whole(s.wordOnLine())
			if n == 0 || rows < 0 {
				return nil, in.fault(fmt.Sprintf("does not say how many rows its element “%.40s” has", name), "export it again")
			}
			h.elements = append(h.elements, plyElement{name: name, rows: rows})
		case "property":
			p, ok := readPLYProperty(s)
			if !ok || len(h.elements) == 0 {
				return nil, in.fault(fmt.Sprintf("has a property in line %d of its header that cannot be understood", s.line+1), "export it again")
			}
			e := &h.elements[len(h.elements)-1]
			e.properties = append(e.properties, p)
		case "comment", "obj_info":
			if h.unit == (Unit{}) {
				h.unit = unitNamedIn(s.rest())
			}
		}
		if len(s.ahead()) == 0 {
			return nil, in.fault("ends within its header", "export it again")
		}
		s.endLine()
	}
	return nil, in.fault("has a header without an end", "export it again")
}

// endPLYHead ends the last line of the header with exactly what ends lines:
// the data that follow may begin with any byte, a line end too.
func endPLYHead(s *stream) {
	b := s.ahead()
	for len(b) > 0 && b[0] == ' ' {
		b = b[1:]
		s.pos++
	}
	n := 0
	switch {
	case bytes.HasPrefix(b, []byte("\r\n")):
		n = 2
	case len(b) > 0 && (b[0] == '\n' || b[0] == '\r'):
		n = 1
	}
	s.pos += n
	s.line++
}

func readPLYProperty(s *stream) (p plyProperty, ok bool) {
	word := string(s.wordOnLine())
	if word == "list" {
		p.count = plyTypes[string(s.wordOnLine())]
		word = string(s.wordOnLine())
		if p.count == 0 {
			return p, false
		}
	}
	p.kind = plyTypes[word]
	p.name = string(s.wordOnLine())
	return p, p.kind != 0 && p.name != ""
}
