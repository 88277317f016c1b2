package mesh

import "bytes"

// readOBJ reads the points and faces of a Wavefront OBJ: "v x y z" and
// "f 1/2/3 4//5 6 …", where a negative number counts back from the last point.
// Everything else (materials, normals, curves) says nothing about the surface.
func readOBJ(in *input, b *builder) error {
	o := objFile{s: newStream(in.all()), report: b.report, maxPoint: in.size, part: part{once: true}}
	for {
		word := o.s.word()
		if len(word) == 0 {
			break
		}
		o.statement(word)
		o.s.endLine()
		if err := b.fits(&o.part); err != nil {
			return err
		}
	}
	o.tell()
	if err := b.add(&o.part, &still); err != nil {
		return err
	}
	return o.s.err
}

type objFile struct {
	s        *stream
	report   *Report
	part     part
	maxPoint int64 // no file has more points than bytes
	corners  []uint32

	badPoints, badFaces       int // that cannot be read
	badPointLine, badFaceLine int // the line of the first
	curves, lines             int
}

// statement reads the line that word begins.
func (o *objFile) statement(word []byte) {
	switch string(word) {
	case "v":
		o.point()
	case "f", "fo":
		o.face()
	case "o":
		o.report.Bodies++
	case "l", "p":
		o.lines++
	case "curv", "curv2", "surf":
		o.curves++
	default:
		if word[0] == '#' && o.report.Unit == (Unit{}) {
			if c := o.s.rest(); len(c) < 200 && bytes.Contains(bytes.ToLower(c), []byte("unit")) {
				o.report.Unit = unitNamedIn(c)
			}
		}
	}
}

// point reads a point. One that cannot be read still counts, or every face
// after it would name the wrong points.
func (o *objFile) point() {
	var p Vec
	sound := true
	for i := range p {
		x, ok := o.s.numberOnLine()
		sound = sound && ok
		p[i] = x
	}
	if !sound {
		if o.badPoints++; o.badPoints == 1 {
			o.badPointLine = o.s.line + 1
		}
		p = nowhere
	}
	o.part.points = append(o.part.points, p)
}

func (o *objFile) face() {
	o.corners = o.corners[:0]
	sound := true
	for word := o.s.wordOnLine(); len(word) > 0; word = o.s.wordOnLine() {
		if word[0] == '#' {
			break
		}
		i, n := whole(word)
		sound = sound && n > 0 && (n == len(word) || word[n] == '/')
		if i < 0 {
			i += int64(len(o.part.points)) + 1
		}
		if i <= 0 || i > o.maxPoint || i > lost {
			i = none
		} else {
			i--
		}
		o.corners = append(o.corners, uint32(i))
	}
	if !sound || len(o.corners) < 3 {
		if o.badFaces++; o.badFaces == 1 {
			o.badFaceLine = o.s.line + 1
		}
		return
	}
	o.part.face(o.corners)
}

func (o *objFile) tell() {
	if o.badPoints > 0 {
		o.report.harm("%s not three numbers, the first at line %s.", are(o.badPoints, "point"), grouped(o.badPointLine))
	}
	if o.badFaces > 0 {
		o.report.harm("%s not three or more numbers of points, the first at line %s.", are(o.badFaces, "face"), grouped(o.badFaceLine))
	}
	if o.lines > 0 {
		o.report.note("Lines and loose points were passed over.")
	}
	if o.curves > 0 {
		o.report.note("Free-form curves and surfaces were passed over; only flat faces are read.")
	}
}
