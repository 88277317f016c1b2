package proposal

import (
	"bytes"
	"encoding/binary"
	"image"
)

// orientation is how a camera was held, as its file says: the numbers 1 to 8 of
// the tag Orientation (TIFF 6.0, section 8; Exif 2.3, table 4). 0 is not said.
type orientation uint16

// sideways is true where width and height change places.
func (o orientation) sideways() bool { return o >= 5 && o <= 8 }

// orientationOf reads the orientation from a JPEG file's Exif segment.
func orientationOf(file []byte) orientation {
	if !bytes.HasPrefix(file, []byte{0xff, 0xd8}) {
		return 0
	}
	for rest := file[2:]; len(rest) >= 4 && rest[0] == 0xff; {
		kind, size := rest[1], int(binary.BigEndian.Uint16(rest[2:]))
		if kind == 0xff { // a byte of filling
			rest = rest[1:]
			continue
		}
		if kind == 0xda || size < 2 || len(rest) < 2+size { // the picture itself, or nonsense
			return 0
		}
		if exif, ok := bytes.CutPrefix(rest[4:2+size], []byte("Exif\x00\x00")); ok && kind == 0xe1 {
			return orientationIn(exif)
		}
		rest = rest[2+size:]
	}
	return 0
}

// orientationIn finds the tag in the first directory of a TIFF file.
func orientationIn(tiff []byte) orientation {
	var order binary.ByteOrder = binary.BigEndian
	switch {
	case bytes.HasPrefix(tiff, []byte("II*\x00")):
		order = binary.LittleEndian
	case !bytes.HasPrefix(tiff, []byte("MM\x00*")):
		return 0
	}
	if len(tiff) < 8 {
		return 0
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return 0
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			return 0
		}
		const tag, short = 0x0112, 3
		if order.Uint16(entries) == tag && order.Uint16(entries[2:]) == short {
			if o := orientation(order.Uint16(entries[8:])); o <= 8 {
				return o
			}
			return 0
		}
		entries = entries[12:]
	}
	return 0
}

// of turns a plane upright.
func (o orientation) of(p plane) plane {
	if o < 2 || o > 8 {
		return p
	}
	out := plane{wide: p.wide, high: p.high, each: p.each}
	if o.sideways() {
		out.wide, out.high = p.high, p.wide
	}
	out.stride = out.wide * p.each
	out.pix = make([]byte, out.stride*out.high)
	for y := range out.high {
		for x := range out.wide {
			sx, sy := o.from(x, y, p.wide, p.high)
			copy(out.pix[y*out.stride+x*p.each:][:p.each], p.pix[sy*p.stride+sx*p.each:])
		}
	}
	return out
}

// from is where the upright pixel at x and y is in a picture as the camera was
// held, of wide by high.
func (o orientation) from(x, y, wide, high int) (int, int) {
	switch o {
	case 2:
		return wide - 1 - x, y
	case 3:
		return wide - 1 - x, high - 1 - y
	case 4:
		return x, high - 1 - y
	case 5:
		return y, x
	case 6:
		return y, high - 1 - x
	case 7:
		return wide - 1 - y, high - 1 - x
	case 8:
		return wide - 1 - y, x
	}
	return x, y
}

// ofPhoto turns a photograph upright.
func (o orientation) ofPhoto(img *image.YCbCr) *image.YCbCr {
	if o < 2 || o > 8 {
		return img
	}
	b := img.Bounds()
	cw, ch := colourSize(b.Dx(), b.Dy(), img.SubsampleRatio)
	return photoOf(
		o.of(plane{img.Y, img.YStride, b.Dx(), b.Dy(), 1}),
		o.of(plane{img.Cb, img.CStride, cw, ch, 1}), o.of(plane{img.Cr, img.CStride, cw, ch, 1}),
	)
}
