package proposal

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// sceneries are those that were painted.
var sceneries sync.Map

// scenery is a picture such as a camera takes: sky, ground, a figure, grain; its
// top left corner is marked red.
func scenery(wide, high int) *image.YCbCr {
	if img, ok := sceneries.Load([2]int{wide, high}); ok {
		return img.(*image.YCbCr)
	}
	img := paint(wide, high)
	sceneries.Store([2]int{wide, high}, img)
	return img
}

func paint(wide, high int) *image.YCbCr {
	img := image.NewYCbCr(image.Rect(0, 0, wide, high), image.YCbCrSubsampleRatio420)
	r := rand.New(rand.NewPCG(1, 2))
	for y := range high {
		for x := range wide {
			c := color.RGBA{uint8(120 + 80*y/high), uint8(150 + 60*x/wide), uint8(230 - 90*y/high), 255}
			dx, dy := float64(x)/float64(wide)-0.5, float64(y)/float64(high)-0.55
			switch {
			case x < wide/6 && y < high/6:
				c = color.RGBA{230, 20, 20, 255}
			case 8*dx*dx+3*dy*dy < 0.3:
				shade := 90 + 90*math.Cos(5*dx-2*dy)
				c = color.RGBA{uint8(shade + 50), uint8(shade * 0.7), uint8(shade * 0.35), 255}
			case dy > 0.25:
				c = color.RGBA{uint8(110 + 30*math.Sin(40*dx)), 120, 70, 255}
			}
			cy, cb, cr := color.RGBToYCbCr(c.R, c.G, c.B)
			img.Y[img.YOffset(x, y)] = uint8(min(255, int(cy)+r.IntN(7)))
			img.Cb[img.COffset(x, y)], img.Cr[img.COffset(x, y)] = cb, cr
		}
	}
	return img
}

// jpegOf is an image as a camera's file.
func jpegOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, &jpeg.Options{Quality: 90}))
	return b.Bytes()
}

func pngOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	return b.Bytes()
}

// signOf is a foundry's sign in two colours on nothing.
func signOf(wide, high int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			dx, dy := float64(x)/float64(wide)-0.5, float64(y)/float64(high)-0.5
			switch d := dx*dx + dy*dy; {
			case d < 0.05:
				img.SetNRGBA(x, y, color.NRGBA{34, 29, 23, 255})
			case d < 0.2 && d > 0.13:
				img.SetNRGBA(x, y, color.NRGBA{164, 102, 44, 255})
			}
		}
	}
	return img
}

// heldAs says in a JPEG file how the camera was held, in either order of bytes.
func heldAs(file []byte, o uint16, order binary.ByteOrder) []byte {
	var tiff bytes.Buffer
	head := "II*\x00"
	if order == binary.ByteOrder(binary.BigEndian) {
		head = "MM\x00*"
	}
	tiff.WriteString(head)
	write := func(v any) { _ = binary.Write(&tiff, order, v) }
	write(uint32(8))
	write(uint16(2))
	for _, tag := range [][2]uint16{{0x0100, 7}, {0x0112, o}} {
		write(tag[0])
		write(uint16(3))
		write(uint32(1))
		write(tag[1])
		write(uint16(0))
	}
	write(uint32(0))
	segment := append([]byte("Exif\x00\x00"), tiff.Bytes()...)
	out := append([]byte{}, file[:2]...)
	out = append(out, 0xff, 0xe1, byte((len(segment)+2)>>8), byte(len(segment)+2))
	return append(append(out, segment...), file[2:]...)
}

func photoNamed(data []byte) quote.Picture { return quote.Picture{Name: "quay.jpg", Data: data} }

// readied is a picture as it goes on paper in a room.
func readied(t testing.TB, data []byte, wide, high float64) *plate {
	t.Helper()
	f, err := look(photoNamed(data))
	require.NoError(t, err)
	p, err := f.ready(wide, high)
	require.NoError(t, err)
	return p
}

// ImageMagick's -auto-orient is the reference.
func TestEveryWayToHoldACameraIsPrintedUprightAsImageMagickDoes(t *testing.T) {
	convert := needTool(t, "convert")
	file := jpegOf(t, scenery(240, 160))
	for o := uint16(1); o <= 8; o++ {
		for _, order := range []binary.ByteOrder{binary.LittleEndian, binary.BigEndian} {
			data := heldAs(file, o, order)
			upright := filepath.Join(t.TempDir(), "upright.png")
			told(t, convert, kept(t, "held.jpg", data), "-auto-orient", upright)
			f, err := os.Open(upright)
			require.NoError(t, err)
			want, err := png.Decode(f)
			require.NoError(t, err)
			require.NoError(t, f.Close())
			got := readied(t, data, 1000, 1000).image
			require.Equal(t, want.Bounds(), got.Bounds(), o)
			assert.Less(t, apart(want, got), 4.0, "%d", o) // their readings of a JPEG differ by a little
		}
	}
}

// apart is how far two images are from each other on average, of 255.
func apart(a, b image.Image) float64 {
	sum, n := 0.0, 0.0
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p := color.RGBAModel.Convert(a.At(x, y)).(color.RGBA)
			q := color.RGBAModel.Convert(b.At(x, y)).(color.RGBA)
			for _, d := range []int{int(p.R) - int(q.R), int(p.G) - int(q.G), int(p.B) - int(q.B)} {
				sum, n = sum+math.Abs(float64(d)), n+1
			}
		}
	}
	return sum / n
}

// ImageMagick's -scale, which averages areas, is the reference.
func TestPicturesAreShrunkByTheMeanOfAreasAsImageMagickDoes(t *testing.T) {
	convert := needTool(t, "convert")
	from := kept(t, "large.png", pngOf(t, scenery(517, 333)))
	for _, size := range [][2]int{{200, 129}, {100, 64}, {37, 23}} {
		to := filepath.Join(t.TempDir(), "small.png")
		told(t, convert, from, "-scale", fmt.Sprintf("%dx%d!", size[0], size[1]), to)
		f, err := os.Open(to)
		require.NoError(t, err)
		want, err := png.Decode(f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		data, err := os.ReadFile(from)
		require.NoError(t, err)
		got := readied(t, data, float64(size[0])/dotsPerPoint, 1e6).image
		require.Equal(t, want.Bounds().Dx(), got.Bounds().Dx())
		if want.Bounds() == got.Bounds() {
			assert.Less(t, apart(want, got), 1.0, "%v", size)
		}
	}
}

func TestShrinkingKeepsTheMeanAndStaysWithinTheSamples(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		each := rapid.SampledFrom([]int{1, 4}).Draw(t, "each")
		w, h := rapid.IntRange(1, 60).Draw(t, "w"), rapid.IntRange(1, 60).Draw(t, "h")
		dw, dh := rapid.IntRange(1, w).Draw(t, "dw"), rapid.IntRange(1, h).Draw(t, "dh")
		p := plane{make([]byte, w*h*each), w * each, w, h, each}
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		lo, hi, sum := byte(255), byte(0), 0.0
		for i := range p.pix {
			p.pix[i] = byte(r.IntN(256))
			lo, hi, sum = min(lo, p.pix[i]), max(hi, p.pix[i]), sum+float64(p.pix[i])
		}
		got := p.shrunk(dw, dh)
		after := 0.0
		for _, v := range got.pix {
			if v < lo || v > hi {
				t.Fatalf("%d is not between %d and %d", v, lo, hi)
			}
			after += float64(v)
		}
		if d := math.Abs(after/float64(len(got.pix)) - sum/float64(len(p.pix))); d > 0.51 {
			t.Fatalf("the mean moves by %v", d)
		}
	})
}

func TestAPictureHasAtMostThreeHundredDotsAnInchAndIsNeverBlownUp(t *testing.T) {
	p := readied(t, jpegOf(t, scenery(1200, 800)), 144, 1000)
	assert.Equal(t, image.Rect(0, 0, 600, 400), p.image.Bounds(), "two inches wide")
	p = readied(t, jpegOf(t, scenery(120, 80)), 144, 1000)
	assert.Equal(t, image.Rect(0, 0, 120, 80), p.image.Bounds())
}

func TestPhotographsBecomeJPEGAndLineArtStaysPNG(t *testing.T) {
	var animated bytes.Buffer
	require.NoError(t, gif.Encode(&animated, signOf(60, 60), nil))
	grey := image.NewGray(image.Rect(0, 0, 90, 60))
	for name, c := range map[string]struct {
		data []byte
		head string
	}{
		"a camera's file": {jpegOf(t, scenery(300, 200)), "\xff\xd8"}, "a photograph as PNG": {pngOf(t, scenery(300, 200)), "\xff\xd8"},
		"a mark": {pngOf(t, signOf(200, 200)), "\x89PNG"}, "a mark as GIF": {animated.Bytes(), "\x89PNG"}, "grey as PNG": {pngOf(t, grey), "\x89PNG"}, "grey as JPEG": {jpegOf(t, grey), "\xff\xd8"},
	} {
		p := readied(t, c.data, 400, 400)
		require.NoError(t, p.press())
		assert.True(t, bytes.HasPrefix(p.file, []byte(c.head)), name)
		_, _, err := image.Decode(bytes.NewReader(p.file))
		assert.NoError(t, err, name)
	}
}

func TestWhatShinesThroughIsWhiteOnPaper(t *testing.T) {
	p := readied(t, pngOf(t, signOf(64, 64)), 400, 400)
	require.NoError(t, p.press())
	img, err := png.Decode(bytes.NewReader(p.file))
	require.NoError(t, err)
	assert.Equal(t, color.RGBA{255, 255, 255, 255}, color.RGBAModel.Convert(img.At(0, 0)))
	_, _, _, a := p.image.At(0, 0).RGBA()
	assert.Zero(t, a, "in the window the ground shows")
}

func TestNothingOfTheCamerasNotesIsPassedOn(t *testing.T) {
	p := readied(t, heldAs(jpegOf(t, scenery(60, 40)), 6, binary.BigEndian), 400, 400)
	require.NoError(t, p.press())
	assert.NotContains(t, string(p.file), "Exif")
}

func TestASlimPictureIsUprightSmallAndTheSameTwice(t *testing.T) {
	p := quote.Picture{Name: "quay.jpg", Caption: "The quay.", Data: heldAs(jpegOf(t, scenery(2600, 300)), 6, binary.BigEndian)}
	slim, err := Slim(p)
	require.NoError(t, err)
	assert.Equal(t, [2]string{"quay.jpg", "The quay."}, [2]string{slim.Name, slim.Caption})
	c, kind, err := image.DecodeConfig(bytes.NewReader(slim.Data))
	require.NoError(t, err)
	assert.Equal(t, [3]any{231, 2000, "jpeg"}, [3]any{c.Width, c.Height, kind})
	assert.Zero(t, orientationOf(slim.Data))
	again, err := Slim(slim)
	require.NoError(t, err)
	d, err := look(again)
	require.NoError(t, err)
	assert.Equal(t, [2]int{231, 2000}, [2]int{d.wide, d.high})
}

func TestASlimMarkKeepsWhatShinesThrough(t *testing.T) {
	slim, err := Slim(quote.Picture{Name: quote.Logo, Data: pngOf(t, signOf(300, 300))})
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(slim.Data))
	require.NoError(t, err)
	_, _, _, a := img.At(0, 0).RGBA()
	assert.Zero(t, a)
	_, err = Slim(quote.Picture{Name: quote.Logo, Data: []byte("no picture")})
	assert.ErrorContains(t, err, "Picture “logo” cannot be read")
}

// bombOf is a PNG file that says it is of a size, and holds next to nothing.
func bombOf(t *testing.T, wide, high uint32) []byte {
	file := pngOf(t, image.NewGray(image.Rect(0, 0, 1, 1)))
	binary.BigEndian.PutUint32(file[16:], wide)
	binary.BigEndian.PutUint32(file[20:], high)
	binary.BigEndian.PutUint32(file[29:], crc(file[12:29]))
	return file
}

func TestWhatWouldBeHugeIsRefusedBeforeItIsDecoded(t *testing.T) {
	for _, size := range [][2]uint32{{40000, 40000}, {1, 1 << 30}, {1<<31 - 1, 1<<31 - 1}, {10000, 5001}} {
		_, err := look(photoNamed(bombOf(t, size[0], size[1])))
		require.Error(t, err, "%v", size)
		f := fault.All(err)[0]
		assert.Equal(t, "quay.jpg", f.Value)
		assert.NotEmpty(t, f.Remedy)
	}
	_, err := look(photoNamed(bombOf(t, 10000, 5000)))
	assert.NoError(t, err)
}

func TestWhatIsNoPictureIsNamed(t *testing.T) {
	whole := jpegOf(t, scenery(80, 60))
	for problem, data := range map[string][]byte{"cannot be read": []byte("%PDF-1.4"), "cannot be read: ": nil, "is damaged": whole[:len(whole)/2]} {
		f, err := look(photoNamed(data))
		if err == nil {
			_, err = f.ready(400, 400)
		}
		assert.ErrorContains(t, err, "Picture “quay.jpg” "+problem)
	}
}

func FuzzPictures(f *testing.F) {
	small := heldAs(jpegOf(f, scenery(16, 16)), 8, binary.LittleEndian)
	f.Add(small)
	f.Add(pngOf(f, signOf(9, 9)))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		orientationOf(data)
		p, err := look(photoNamed(data))
		if err != nil || p.wide*p.high > 1<<20 {
			return
		}
		if ready, err := p.ready(100, 100); err == nil && ready.press() != nil {
			t.Fatal("it could be read, and not be printed")
		}
	})
}
