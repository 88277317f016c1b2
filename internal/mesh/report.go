package mesh

import (
	"fmt"
	"strconv"
)

// Format is how a scan file is written.
type Format string

// The formats that Read knows.
const (
	BinarySTL Format = "binary STL"
	TextSTL   Format = "text STL"
	OBJ       Format = "OBJ"
	TextPLY   Format = "text PLY"
	BinaryPLY Format = "binary PLY"
	ThreeMF   Format = "3MF"
	GLTF      Format = "glTF"
	GLB       Format = "GLB"
)

// Unit is the length that a scan file counts in. Its zero value is a file
// that does not say.
type Unit struct {
	Symbol string  // "mm"
	Metres float64 // length of one unit in metres
}

// The units that the formats can name.
var (
	Micrometre = Unit{"µm", 1e-6}
	Millimetre = Unit{"mm", 1e-3}
	Centimetre = Unit{"cm", 1e-2}
	Metre      = Unit{"m", 1}
	Inch       = Unit{"in", 0.0254}
	Foot       = Unit{"ft", 0.3048}
)

// Axis is a direction of the file that a format promises to be up.
type Axis string

// The axes a format can promise; most promise none.
const (
	NoAxis Axis = ""
	YUp    Axis = "y"
	ZUp    Axis = "z"
)

// Report is what the reader found in a file, sound or not.
type Report struct {
	Name       string // of the file
	Format     Format
	Unit       Unit // if the file says
	Up         Axis // if the format promises
	Bodies     int  // solids, objects or instances that the file names
	Declared   int  // triangles (faces, in a PLY) the file says it holds; 0 if it does not say
	Found      int  // triangles found, once polygons are cut up
	Broken     int  // left out: unreadable, or naming a point the file does not have
	NonFinite  int  // left out: a corner is no number, or beyond all measure
	Degenerate int  // left out: two corners are one point
	Damaged    bool // the file is not what it says it is, or ends too early
	Notes      []string
}

// Left is how many of the triangles found were left out of the mesh.
func (r *Report) Left() int { return r.Broken + r.NonFinite + r.Degenerate }

// mostNotes is as many as anybody reads; a file may be wrong in more ways.
const mostNotes = 30

// note adds a sentence, once.
func (r *Report) note(format string, args ...any) {
	sentence := fmt.Sprintf(format, args...)
	for _, known := range r.Notes {
		if known == sentence {
			return
		}
	}
	if len(r.Notes) < mostNotes {
		r.Notes = append(r.Notes, sentence)
	}
}

// harm adds a sentence about something that is wrong with the file.
func (r *Report) harm(format string, args ...any) {
	r.Damaged = true
	r.note(format, args...)
}

// conclude tells what was left out and why.
func (r *Report) conclude() {
	if r.Broken > 0 {
		r.harm("%s left out: unreadable, or naming points that the file does not have.", were(r.Broken, "triangle"))
	}
	if r.NonFinite > 0 {
		r.harm("%s left out: a corner is no number, or too large for one.", were(r.NonFinite, "triangle"))
	}
	if r.Degenerate > 0 {
		r.note("%s left out: two corners are the same point, so there is no surface.", were(r.Degenerate, "triangle"))
	}
}

// were is "1 triangle was", "12,000 triangles were".
func were(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " was"
	}
	return many(n, noun) + " were"
}

// are is "1 face is", "12,000 faces are".
func are(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " is"
	}
	return many(n, noun) + " are"
}

// many is "1 triangle", "12,000 triangles".
func many(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return grouped(n) + " " + noun + "s"
}

// grouped writes n with a comma after every three digits: 12,000.
func grouped(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
