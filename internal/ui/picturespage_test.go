package ui

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// photograph writes a picture of sky and quay and gives its path.
func photograph(t testing.TB, name string, tone uint8) string {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 640, 420))
	for y := range 420 {
		for x := range 640 {
			m.Set(x, y, color.RGBA{tone, uint8(y / 3), uint8(x / 4), 255})
		}
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	return path
}

func TestPicturesAreAddedCaptionedOrderedAndTakenOffWithAWayBack(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.quote().choose(picturesID)
	b.tap("Add a picture …")
	b.answer(photograph(t, "clay.jpg", 120))
	b.tap("Add a picture …")
	b.answer(photograph(t, "quay.jpg", 40))
	b.fill("picture.caption", "The quay at low tide")
	b.tap("Up")
	assert.Contains(t, b.said(), "1 The quay at low tide")
	b.tap("Make it the cover")
	b.clock.pass(time.Second)
	kept := b.kept().Pictures
	require.Len(t, kept, 2)
	assert.Equal(t, quote.Shown{Picture: kept[0].Picture, Name: quote.Cover, Caption: "The quay at low tide"}, kept[0])
	assert.Empty(t, kept[1].Name)

	b.tap("Remove this picture")
	assert.Contains(t, b.said(), "without a caption")
	assert.NotContains(t, b.said(), "low tide")
	b.tap("Bring back")
	assert.Contains(t, b.said(), "The quay at low tide")

	letter := filepath.Join(t.TempDir(), "letter.jpg")
	require.NoError(t, os.WriteFile(letter, []byte("Dear town"), 0o600))
	b.tap("Add a picture …")
	b.answer(letter)
	assert.Contains(t, b.said(), "This picture was not added")
	assert.Contains(t, b.said(), "letter.jpg")
}

func TestTheShopsLogoIsChosenOnceAndCanBeBroughtBack(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.menu("Shop book")
	b.book().choose(marksID)
	b.tap("Choose a file …")
	b.answer(photograph(t, "logo.jpg", 200))
	marks, err := b.store.Marks(t.Context())
	require.NoError(t, err)
	require.Contains(t, marks, quote.Logo)
	b.tap("Take it away")
	gone, err := b.store.Marks(t.Context())
	require.NoError(t, err)
	assert.Empty(t, gone)
	b.tap("Bring back")
	again, err := b.store.Marks(t.Context())
	require.NoError(t, err)
	assert.Equal(t, marks, again)
	b.picture("logo-1280")
}

func TestThePicturesPageHoldsItsWords(t *testing.T) {
	for name, mode := range bothModes {
		for _, size := range []fyne.Size{fyne.NewSize(1280, 820), fyne.NewSize(1024, 700)} {
			b := sit(t, withDemo, withMaker)
			b.wear(mode, 100)
			b.win.Resize(size)
			b.quote().choose(picturesID)
			b.tap("Add a picture …")
			b.answer(photograph(t, "clay.jpg", 120))
			b.holdsItsWords(size.Width)
			b.picture(fmt.Sprintf("pictures-%.0f-%s", size.Width, name))
		}
	}
}
