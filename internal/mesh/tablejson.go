package mesh

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"encoding/json"
	"errors"
	"io"
	"math"
)

// Tables are a form in slices across x, y and z. They are stored in some tens of
// kilobytes: single precision, squeezed, as text.
type Tables []*Table

const (
	tableFormat = 1
	// storedShare is every how manieth point of a part's shares is stored; those
	// between lie nearly on a line.
	storedShare = 3
	// mostStored keeps a damaged table from taking all memory; whole ones have
	// some hundred parts.
	mostStored = 1 << 24
)

var errTables = errors.New("the stored cut tables are damaged; open the scan file again")

// MarshalJSON keeps tables short.
func (t Tables) MarshalJSON() ([]byte, error) {
	var raw bytes.Buffer
	squeezed, _ := flate.NewWriter(&raw, flate.DefaultCompression)
	w := &binaryWriter{to: squeezed}
	w.put(uint8(tableFormat), uint8(len(t)))
	for _, x := range t {
		x.write(w)
	}
	if w.err == nil {
		w.err = squeezed.Close()
	}
	if w.err != nil {
		return nil, w.err
	}
	return json.Marshal(raw.Bytes())
}

// UnmarshalJSON reads what MarshalJSON wrote, and refuses what is damaged.
func (t *Tables) UnmarshalJSON(data []byte) error {
	var raw []byte
	if err := json.Unmarshal(data, &raw); err != nil {
		return errTables
	}
	r := &binaryReader{from: io.LimitReader(flate.NewReader(bytes.NewReader(raw)), mostStored)}
	if r.byte() != tableFormat {
		return errTables
	}
	read := make(Tables, r.byte())
	for i := range read {
		read[i] = readTable(r)
	}
	if r.err != nil {
		return errTables
	}
	*t = read
	return nil
}

type binaryWriter struct {
	to  io.Writer
	err error
}

func (w *binaryWriter) put(values ...any) {
	for _, v := range values {
		if w.err == nil {
			w.err = binary.Write(w.to, binary.LittleEndian, v)
		}
	}
}

func single(v Vec) [3]float32 { return v.Vec32() }

func (t *Table) write(w *binaryWriter) {
	w.put(uint8(t.Axis), uint16(t.Slices), t.Low, t.Thick, uint32(len(t.Parts)), uint32(len(t.Joints)))
	for i := range t.Parts {
		p := &t.Parts[i]
		w.put(uint16(p.Slice), float32(p.Area), float32(p.Volume), single(p.Low), single(p.Top))
		for k := 0; k < sharePoints; k += storedShare {
			w.put(p.shares[k])
		}
	}
	for _, j := range t.Joints {
		near := j.Near[:min(len(j.Near), math.MaxUint8)]
		w.put(uint32(j.Below), uint32(j.Above), float32(j.Weld), uint8(len(near)))
		for _, q := range near {
			w.put(single(q))
		}
	}
}

type binaryReader struct {
	from io.Reader
	err  error
}

func (r *binaryReader) get(into any) {
	if r.err == nil {
		r.err = binary.Read(r.from, binary.LittleEndian, into)
	}
}

func (r *binaryReader) byte() (v uint8)   { r.get(&v); return v }
func (r *binaryReader) short() (v uint16) { r.get(&v); return v }
func (r *binaryReader) count() (v uint32) { r.get(&v); return v }

// number is a float that must be one.
func (r *binaryReader) number() float64 {
	var v float32
	r.get(&v)
	return r.finite(float64(v))
}

func (r *binaryReader) finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		r.err = errTables
		return 0
	}
	return v
}

func (r *binaryReader) vec() Vec { return Vec{r.number(), r.number(), r.number()} }

func readTable(r *binaryReader) *Table {
	t := &Table{Axis: int(r.byte()), Slices: int(r.short())}
	r.get(&t.Low)
	r.get(&t.Thick)
	r.finite(t.Low)
	r.finite(t.Thick)
	parts, joints := int(r.count()), int(r.count())
	if t.Axis > 2 || parts > 0 && t.Slices == 0 {
		r.err = errTables
	}
	for range parts {
		p := Part{Slice: int(r.short()), Area: r.number(), Volume: r.number(), Low: r.vec(), Top: r.vec()}
		for k := 0; k < sharePoints; k += storedShare {
			p.shares[k] = float32(r.number())
		}
		if p.Slice >= t.Slices {
			r.err = errTables
		}
		if r.err != nil {
			return t
		}
		p.shares.fillGaps()
		t.Parts = append(t.Parts, p)
	}
	for range joints {
		j := Joint{Below: int(r.count()), Above: int(r.count()), Weld: r.number()}
		for range r.byte() {
			j.Near = append(j.Near, r.vec())
		}
		if r.err == nil && (j.Below >= parts || j.Above >= parts || t.Parts[j.Below].Slice+1 != t.Parts[j.Above].Slice) {
			r.err = errTables
		}
		if r.err != nil {
			return t
		}
		t.Joints = append(t.Joints, j)
	}
	return t
}

// fillGaps puts the points that were not stored on lines between those that were.
func (s *shares) fillGaps() {
	for k := 0; k+storedShare < sharePoints; k += storedShare {
		for i := 1; i < storedShare; i++ {
			f := float32(i) / storedShare
			s[k+i] = s[k]*(1-f) + s[k+storedShare]*f
		}
	}
}
