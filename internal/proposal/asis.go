package proposal

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
)

// finest is the most dots an inch that a photograph may have to go into a paper
// as it is: a third more than paper shows, so that one which was kept for papers
// need not be decoded and written anew, and lose by it.
const finest = 400.0 / 72

// asIs is the plate of a photograph that a paper can hold as it came, in a room
// of so many points: an upright JPEG with no more pixels than it is good for.
// False is none.
func (f photo) asIs(wide, high float64) (*plate, bool) {
	if f.turned > 1 || float64(f.wide) > wide*finest+1 || float64(f.high) > high*finest+1 {
		return nil, false
	}
	file, ok := bareJPEG(f.Data)
	if !ok {
		return nil, false
	}
	// The image is looked at by nobody: it tells this plate from the others.
	return &plate{image: image.NewUniform(color.White), file: file, across: f.wide}, true
}

// The marks of a JPEG file (ITU-T T.81, table B.1).
const (
	markBaseline    = 0xc0
	markProgressive = 0xc2
	markRestart0    = 0xd0
	markRestart7    = 0xd7
	markStart       = 0xd8
	markEnd         = 0xd9
	markScan        = 0xda
	markTables      = 0xdb
	markHuffman     = 0xc4
	markInterval    = 0xdd
	markJFIF        = 0xe0
	markAdobe       = 0xee
)

// bareJPEG gives a JPEG file without what a camera notes beside the picture, from
// its start to its end and nothing behind it. It is false for one that is cut
// off, or of a sort that a PDF cannot hold or shows in other colours (ISO
// 32000-1, 7.4.8): arithmetic coding, twelve bits, four inks.
func bareJPEG(file []byte) ([]byte, bool) {
	c, _, err := image.DecodeConfig(bytes.NewReader(file))
	if err != nil || c.ColorModel != color.YCbCrModel && c.ColorModel != color.GrayModel || !bytes.HasPrefix(file, []byte{0xff, markStart}) {
		return nil, false
	}
	out := append(make([]byte, 0, len(file)), file[:2]...)
	for rest := file[2:]; len(rest) >= 4 && rest[0] == 0xff; {
		kind := rest[1]
		switch kind {
		case 0xff: // filling
			rest = rest[1:]
			continue
		case markEnd:
			return append(out, rest[:2]...), true
		}
		end := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		if end < 4 || end > len(rest) {
			return nil, false
		}
		if kind == markScan {
			end += scanned(rest[end:])
		}
		switch kept := keepsMark(kind, rest[4:end]); {
		case kept:
			out = append(out, rest[:end]...)
		case kind < markJFIF:
			return nil, false
		}
		rest = rest[end:]
		if bytes.HasPrefix(rest, []byte{0xff, markEnd}) {
			return append(out, 0xff, markEnd), true
		}
	}
	return nil, false
}

// keepsMark is true for the segments of a JPEG file that the picture is made of.
func keepsMark(kind byte, body []byte) bool {
	switch kind {
	case markBaseline, markProgressive, markScan, markTables, markHuffman, markInterval:
		return true
	case markJFIF:
		const noThumbnail = 14
		return bytes.HasPrefix(body, []byte("JFIF\x00")) && len(body) == noThumbnail
	case markAdobe:
		return bytes.HasPrefix(body, []byte("Adobe"))
	}
	return false
}

// scanned is how long the coded picture is that follows the head of a scan: up to
// the next mark that is none of its own.
func scanned(coded []byte) int {
	for at := 0; ; {
		next := bytes.IndexByte(coded[at:], 0xff)
		if next < 0 || at+next+1 >= len(coded) {
			return len(coded)
		}
		at += next
		if m := coded[at+1]; m != 0 && (m < markRestart0 || m > markRestart7) {
			return at
		}
		at += 2
	}
}
