package proposal

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// noted is a JPEG file with what cameras and programs leave beside the picture,
// and something behind its end.
func noted(t testing.TB, file []byte) []byte {
	file = heldAs(file, 1, binary.LittleEndian)
	segment := func(kind byte, words string) []byte {
		return append([]byte{0xff, kind, 0, byte(2 + len(words))}, words...)
	}
	out := append([]byte{}, file[:2]...)
	out = append(out, segment(0xfe, "taken at the quay")...)
	out = append(out, segment(0xe2, "MPF\x00another picture")...)
	out = append(out, 0xff) // filling, which is allowed
	return append(append(out, file[2:]...), "behind the end"...)
}

func TestAPhotographKeptForPapersGoesIntoThemAsItIs(t *testing.T) {
	file := jpegOf(t, scenery(900, 600))
	f, err := look(photoNamed(noted(t, file)))
	require.NoError(t, err)
	p, ok := f.asIs(400, 400)
	require.True(t, ok)
	assert.Equal(t, file, p.file, "nothing but the picture, byte for byte")
	require.NoError(t, p.press())
	assert.Equal(t, file, p.file)
	_, ok = f.asIs(100, 100)
	assert.False(t, ok, "far more pixels than the room is good for")
}

// poppler's pdfimages takes the photograph out of the document again.
func TestTheDocumentHoldsThePhotographItself(t *testing.T) {
	file := jpegOf(t, scenery(900, 600))
	p := paperOf(t, waterfront())
	p.Pictures = []quote.Picture{{Name: quote.Cover, Data: noted(t, file)}}
	at := kept(t, "paper.pdf", illustratedPDF(t, p))
	told(t, needTool(t, "pdfimages"), "-all", at, at)
	held, err := os.ReadFile(at + "-000.jpg")
	require.NoError(t, err)
	assert.True(t, bytes.Equal(file, held))
}

// A progressive file is ImageMagick's, and its picture is as Go's decoder sees it.
func TestAProgressivePhotographIsTheSamePicture(t *testing.T) {
	plain := kept(t, "plain.png", pngOf(t, scenery(300, 200)))
	told(t, needTool(t, "convert"), plain, "-interlace", "JPEG", plain+".jpg")
	file, err := os.ReadFile(plain + ".jpg")
	require.NoError(t, err)
	bare, ok := bareJPEG(noted(t, file))
	require.True(t, ok)
	want, err := jpeg.Decode(bytes.NewReader(file))
	require.NoError(t, err)
	got, err := jpeg.Decode(bytes.NewReader(bare))
	require.NoError(t, err)
	assert.Equal(t, want, got)
}

func TestWhatWillNotDoAsItIsIsDecoded(t *testing.T) {
	file := jpegOf(t, scenery(90, 60))
	_, ok := bareJPEG(file[:len(file)/2])
	assert.False(t, ok, "cut off")
	_, ok = bareJPEG(pngOf(t, scenery(9, 9)))
	assert.False(t, ok, "no JPEG")
	plain := kept(t, "plain.png", pngOf(t, scenery(300, 200)))
	told(t, needTool(t, "convert"), plain, "-colorspace", "CMYK", plain+".jpg")
	inks, err := os.ReadFile(plain + ".jpg")
	require.NoError(t, err)
	_, ok = bareJPEG(inks)
	assert.False(t, ok, "four inks")
	f, err := look(photoNamed(heldAs(file, 6, binary.BigEndian)))
	require.NoError(t, err)
	_, ok = f.asIs(400, 400)
	assert.False(t, ok, "held sideways")
}

func TestASlimPhotographIsNotWrittenAnew(t *testing.T) {
	file := jpegOf(t, scenery(900, 600))
	slim, err := Slim(photoNamed(noted(t, file)))
	require.NoError(t, err)
	assert.Equal(t, file, slim.Data)
}

func TestPagesOnAScreenShowThePhotographItself(t *testing.T) {
	p := paperOf(t, waterfront())
	p.Pictures = []quote.Picture{{Name: quote.Cover, Data: jpegOf(t, scenery(900, 600))}}
	d, err := Maker{}.offered(p, true)
	require.NoError(t, err)
	require.Len(t, d.plates, 1)
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, d.plates[0].image))
	assert.LessOrEqual(t, d.plates[0].image.Bounds().Dx(), 900)
	assert.IsType(t, &image.YCbCr{}, d.plates[0].image)
}

func TestPicturesOfOneWidthAreInTheDocumentInTheirOrder(t *testing.T) {
	p := paperOf(t, waterfront())
	for i := range 6 {
		p.Pictures = append(p.Pictures, quote.Picture{Name: string(rune('a' + i)), Data: jpegOf(t, scenery(300, 200+i))})
	}
	first := illustratedPDF(t, p)
	for range 4 {
		assert.True(t, bytes.Equal(first, illustratedPDF(t, p)))
	}
}
