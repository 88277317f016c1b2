package proposal

import (
	"bytes"
	"encoding/gob"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"runtime"
	"slices"
	"strconv"
	"sync"

	"github.com/jung-kurt/gofpdf"

	"meltwright/internal/drawing"
)

// jpegQuality is that of photographs in documents: at 300 dots an inch the eye
// finds no fault with it.
const jpegQuality = 84

// press writes the plate as the document will hold it: nothing of the file it
// came from is passed on, neither its oddities nor where it was taken.
func (p *plate) press() error {
	if p.file != nil {
		return nil
	}
	var b bytes.Buffer
	var err error
	switch {
	case p.lineArt && p.seeThrough:
		err = png.Encode(&b, p.image)
	case p.lineArt:
		err = png.Encode(&b, onPaper(p.image))
	case isPhoto(p.image):
		err = jpeg.Encode(&b, p.image, &jpeg.Options{Quality: jpegQuality})
	default:
		err = jpeg.Encode(&b, onPaper(p.image), &jpeg.Options{Quality: jpegQuality})
	}
	p.file = b.Bytes()
	return err
}

// isPhoto is true for images that let nothing shine through.
func isPhoto(img image.Image) bool {
	switch img.(type) {
	case *image.YCbCr, *image.Gray:
		return true
	}
	return false
}

// onPaper is an image on white, for what shines through it.
func onPaper(img image.Image) image.Image {
	if o, ok := img.(interface{ Opaque() bool }); ok && o.Opaque() {
		return img
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Over)
	return out
}

// inParallel does each of n things, as many at once as the machine has hands.
func inParallel(n int, do func(i int) error) error {
	errs := make([]error, n)
	var all sync.WaitGroup
	hands := make(chan struct{}, max(1, runtime.GOMAXPROCS(0)))
	for i := range n {
		all.Go(func() {
			hands <- struct{}{}
			defer func() {
				if r := recover(); r != nil {
					errs[i] = fmt.Errorf("%v", r)
				}
				<-hands
			}()
			errs[i] = do(i)
		})
	}
	all.Wait()
	return errors.Join(errs...)
}

// DrawPicture puts a plate on the page; images that are none are not printed.
func (k ink) DrawPicture(img image.Image, b drawing.Box) {
	at := slices.IndexFunc(k.plates, func(p *plate) bool { return p.image == img })
	if at < 0 {
		return
	}
	p, key := k.plates[at], "picture "+strconv.Itoa(at)
	options := gofpdf.ImageOptions{ImageType: "JPG"}
	if p.lineArt {
		options.ImageType = "PNG"
	}
	info := k.pdf.RegisterImageOptionsReader(key, options, bytes.NewReader(p.file))
	if same := k.alike(at); same > 0 && info != nil && !p.told {
		p.told = tellApart(info, same) == nil
	}
	k.pdf.ImageOptions(key, b.Min.X, b.Min.Y, b.Width(), b.Height(), false, options, 0, "")
}

// alike counts the plates before one that are as wide as it is.
func (k ink) alike(at int) (n int) {
	for _, p := range k.plates[:at] {
		if p.across == k.plates[at].across {
			n++
		}
	}
	return n
}

// tellApart makes a picture wider than others of its width, by less than a
// pixel, of which nothing is printed: the library writes pictures in the order of
// their widths, and those of one width in whatever order it finds them.
func tellApart(info *gofpdf.ImageInfoType, n int) error {
	coded, err := info.GobEncode()
	if err != nil {
		return err
	}
	var data, mask, palette []byte
	var number, bits int
	var wide, high, scale, dots float64
	var space, filter, decode string
	var clear []int
	fields := []any{&data, &mask, &number, &wide, &high, &space, &palette, &bits, &filter, &decode, &clear, &scale, &dots}
	from := gob.NewDecoder(bytes.NewReader(coded))
	for _, f := range fields {
		if err := from.Decode(f); err != nil {
			return err
		}
	}
	wide += float64(n) / 1024
	var b bytes.Buffer
	to := gob.NewEncoder(&b)
	for _, f := range fields {
		if err := to.Encode(f); err != nil {
			return err
		}
	}
	return info.GobDecode(b.Bytes())
}
