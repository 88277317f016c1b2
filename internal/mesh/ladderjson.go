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

const (
	ladderFormat = 1
	// storedShare is every how manieth point of a rung's shares is stored; those
	// between lie nearly on a line.
	storedShare = 3
	// mostStored keeps a damaged ladder from taking all memory; whole ones have
	// some hundred rungs.
	mostStored = 1 << 24
)

var errLadder = errors.New("the stored section plan is damaged; open the scan file again")

// MarshalJSON keeps a ladder short, some ten kilobytes: single precision,
// squeezed, as text.
func (l Ladder) MarshalJSON() ([]byte, error) {
	var raw bytes.Buffer
	squeezed, _ := flate.NewWriter(&raw, flate.DefaultCompression)
	w := &binaryWriter{to: squeezed}
	w.put(uint8(ladderFormat), float32(l.weld), uint32(len(l.rungs)))
	for i := range l.rungs {
		l.rungs[i].write(w)
	}
	w.list(l.tops)
	if w.err == nil {
		w.err = squeezed.Close()
	}
	if w.err != nil {
		return nil, w.err
	}
	return json.Marshal(raw.Bytes())
}

// UnmarshalJSON reads what MarshalJSON wrote, and refuses what is damaged.
func (l *Ladder) UnmarshalJSON(data []byte) error {
	var raw []byte
	if err := json.Unmarshal(data, &raw); err != nil {
		return errLadder
	}
	r := &binaryReader{from: io.LimitReader(flate.NewReader(bytes.NewReader(raw)), mostStored)}
	if r.byte() != ladderFormat {
		return errLadder
	}
	read := Ladder{weld: r.number()}
	for n := int(r.count()); n > 0 && r.err == nil; n-- {
		read.rungs = append(read.rungs, readRung(r))
	}
	read.tops = r.list()
	if r.err != nil || !read.sound() {
		return errLadder
	}
	*l = read
	return nil
}

// sound says that every rung is reached once, and only from one above it.
func (l *Ladder) sound() bool {
	held := make([]bool, len(l.rungs))
	hold := func(list []int) bool {
		for _, i := range list {
			if i >= len(held) || held[i] {
				return false
			}
			held[i] = true
		}
		return true
	}
	for i := range l.rungs {
		if !hold(l.rungs[i].into) {
			return false
		}
	}
	if !hold(l.tops) {
		return false
	}
	todo, seen := append([]int(nil), l.tops...), 0
	for ; len(todo) > 0; seen++ {
		i := todo[len(todo)-1]
		todo = append(todo[:len(todo)-1], l.rungs[i].into...)
	}
	return seen == len(l.rungs)
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

func (w *binaryWriter) list(numbers []int) {
	w.put(uint32(len(numbers)))
	for _, n := range numbers {
		w.put(uint32(n))
	}
}

func (g *rung) write(w *binaryWriter) {
	w.put(float32(g.Area), float32(g.Volume), float32(g.Weld), float32(g.slit), float32(g.seam), single(g.Min), single(g.Max))
	for k := 0; k < sharePoints; k += storedShare {
		w.put(g.Shares[k])
	}
	w.list(g.into)
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
func (r *binaryReader) count() (v uint32) { r.get(&v); return v }

// number is a float that must be one.
func (r *binaryReader) number() float64 {
	var v float32
	if r.get(&v); math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
		r.err = errLadder
		return 0
	}
	return float64(v)
}

func (r *binaryReader) vec() Vec { return Vec{r.number(), r.number(), r.number()} }

// list are numbers that there may be as many of as there are bytes.
func (r *binaryReader) list() (numbers []int) {
	for n := r.count(); n > 0 && r.err == nil; n-- {
		numbers = append(numbers, int(r.count()))
	}
	return numbers
}

func readRung(r *binaryReader) rung {
	g := rung{}
	g.Area, g.Volume, g.Weld, g.slit, g.seam = r.number(), r.number(), r.number(), r.number(), r.number()
	g.Min, g.Max = r.vec(), r.vec()
	for k := 0; k < sharePoints; k += storedShare {
		g.Shares[k] = float32(r.number())
	}
	g.Shares.fillGaps()
	g.into = r.list()
	return g
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
