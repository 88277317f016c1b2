package proposal

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	_ "image/gif" // read, like the formats below
	_ "image/jpeg"
	_ "image/png"
	"math"

	_ "golang.org/x/image/webp"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// photo is a picture that has been looked at, and not yet decoded.
type photo struct {
	quote.Picture
	wide, high int // in pixels, upright
	turned     orientation
}

// What a picture may be: 50 million pixels are more than the cameras of phones
// make by default, and what is larger decoded is refused before it is decoded.
const (
	mostPixels = 50_000_000
	mostSide   = 60_000
	mostBytes  = 120 << 20
)

// look reads how large a picture is, and which way up, without decoding it.
func look(p quote.Picture) (photo, error) {
	if len(p.Data) > mostBytes {
		return photo{}, pictureFault(p, fmt.Sprintf("is a file of %d MB", len(p.Data)>>20), "use a smaller one; it is printed at 300 dots an inch at most")
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(p.Data))
	if err != nil {
		return photo{}, pictureFault(p, "cannot be read: "+err.Error(), "use a JPEG, PNG, GIF or WebP file")
	}
	if c.Width < 1 || c.Height < 1 {
		return photo{}, pictureFault(p, "has no pixels", "use another")
	}
	if c.Width > mostSide || c.Height > mostSide || c.Width*c.Height > mostPixels {
		return photo{}, pictureFault(p, fmt.Sprintf("is %d × %d pixels", c.Width, c.Height), "make it smaller: 50 million pixels are the most, and 2000 across are enough")
	}
	f := photo{Picture: p, wide: c.Width, high: c.Height, turned: orientationOf(p.Data)}
	if f.turned.sideways() {
		f.wide, f.high = f.high, f.wide
	}
	return f, nil
}

func pictureFault(p quote.Picture, problem, remedy string) error {
	return fault.Fault{Where: "pictures." + p.Name, Field: "Picture", Value: p.Name, Problem: problem, Remedy: remedy}
}

// dotsPerPoint is 300 dots an inch: more is not seen on paper.
const dotsPerPoint = 300.0 / 72

// plate is a picture ready for paper: upright, and with no more pixels than 300
// dots an inch.
type plate struct {
	image   image.Image
	lineArt bool // is kept to the pixel; a photograph is not
	// seeThrough keeps what shines through line art; on paper it is white.
	seeThrough bool
	file       []byte // the picture as the document holds it, once it is pressed
	across     int    // how many pixels it has from left to right
	told       bool   // apart from others as wide
}

// ready decodes a picture for a room of so many points, in which it is shown
// whole.
func (f photo) ready(wide, high float64) (*plate, error) {
	img, kind, err := image.Decode(bytes.NewReader(f.Data))
	if err != nil {
		return nil, pictureFault(f.Picture, "is damaged: "+err.Error(), "open it in another program, and save it anew")
	}
	w, h := f.pixels(wide, high)
	if f.turned.sideways() {
		w, h = h, w
	}
	switch from := img.(type) {
	case *image.YCbCr:
		upright := f.turned.ofPhoto(shrinkPhoto(from, w, h))
		return &plate{image: upright, across: upright.Rect.Dx()}, nil
	case *image.Gray:
		b := from.Bounds()
		grey := plane{from.Pix[from.PixOffset(b.Min.X, b.Min.Y):], from.Stride, b.Dx(), b.Dy(), 1}
		grey = f.turned.of(grey.shrunk(w, h))
		return &plate{image: &image.Gray{Pix: grey.pix, Stride: grey.stride, Rect: image.Rect(0, 0, grey.wide, grey.high)}, across: grey.wide, lineArt: kind != "jpeg" && fewTones(grey)}, nil
	}
	b := img.Bounds()
	full, ok := img.(*image.RGBA)
	if !ok || b.Min != (image.Point{}) {
		full = image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
		draw.Draw(full, full.Rect, img, b.Min, draw.Src)
	}
	colours := f.turned.of(plane{full.Pix, full.Stride, b.Dx(), b.Dy(), 4}.shrunk(w, h))
	return &plate{
		image:   &image.RGBA{Pix: colours.pix, Stride: colours.stride, Rect: image.Rect(0, 0, colours.wide, colours.high)},
		across:  colours.wide,
		lineArt: kind != "jpeg" && fewTones(colours),
	}, nil
}

// pixels is how many of them a picture has in a room, upright.
func (f photo) pixels(wide, high float64) (w, h int) {
	scale := min(wide*dotsPerPoint/float64(f.wide), high*dotsPerPoint/float64(f.high), 1)
	side := func(n int) int { return max(1, int(math.Round(float64(n)*scale))) }
	return side(f.wide), side(f.high)
}

// fewTones is true for line art: marks, drawings and diagrams, even with the
// soft edges that shrinking gives them, have few colours beside a photograph.
func fewTones(p plane) bool {
	const few = 4096
	seen := make(map[[4]byte]struct{}, few)
	for y := range p.high {
		row := p.pix[y*p.stride:]
		for x := range p.wide {
			var c [4]byte
			copy(c[:], row[x*p.each:(x+1)*p.each])
			if seen[c] = struct{}{}; len(seen) > few {
				return false
			}
		}
	}
	return true
}
