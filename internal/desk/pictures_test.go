package desk_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/proposal"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
)

// photograph is a picture of one grey, w by h pixels.
func photograph(t testing.TB, w, h int, grey uint8) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = grey
	}
	m.Set(0, 0, color.White)
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}

// hanging notes which pictures its papers were given.
type hanging struct {
	proposal.Maker
	seen *[]quote.Picture
}

func (h hanging) Proposal(w io.Writer, p desk.Paper) error {
	*h.seen = p.Pictures
	return h.Maker.Proposal(w, p)
}

func TestPicturesAreAddedOrderedCaptionedAndPrinted(t *testing.T) {
	ctx := context.Background()
	store, err := sqlite.Open(ctx, filepath.Join(t.TempDir(), "shop.db"))
	require.NoError(t, err)
	var seen []quote.Picture
	d, err := desk.New(ctx, store, hanging{seen: &seen}, func() time.Time { return time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC) })
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, d.Close()) })
	s, err := d.Take(ctx, desk.Demo()[1])
	require.NoError(t, err)

	take := func(name string, data []byte) quote.Shown {
		p, err := d.TakePicture(ctx, name, data)
		require.NoError(t, err)
		return p
	}
	s.AddPicture(take("clay.jpg", photograph(t, 4000, 3000, 90)))
	s.AddPicture(take("maquette.jpg", photograph(t, 600, 400, 120)))
	s.SetCaption(1, "The m")
	s.SetCaption(1, "The maquette, from the east")
	assert.Equal(t, 0, s.MovePicture(1, -1))
	require.Len(t, s.Quote().Pictures, 2)
	assert.Equal(t, "The maquette, from the east", s.Quote().Pictures[0].Caption)
	assert.Equal(t, quote.Cover, s.Quote().Pictures[1].Name, "the first that was added")
	logo := take("logo.jpg", photograph(t, 200, 80, 10))
	require.NoError(t, d.SetMark(ctx, quote.Logo, logo.Picture))

	r, err := s.Issue(ctx)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(r.Proposal, []byte("%PDF")))
	require.Len(t, seen, 3)
	assert.Equal(t, []string{quote.Logo, "", quote.Cover}, []string{seen[0].Name, seen[1].Name, seen[2].Name})
	kept, err := jpeg.DecodeConfig(bytes.NewReader(seen[2].Data))
	require.NoError(t, err)
	assert.LessOrEqual(t, kept.Width, 2000, "no larger than a page is worth")

	s.RemovePicture(0)
	assert.Equal(t, quote.Draft, s.Quote().State, "other pictures are another offer")
	assert.True(t, s.Undo())
	assert.Len(t, s.Quote().Pictures, 2)
	s.SetCover(0)
	s.SetCover(0)
	assert.Equal(t, []string{"", ""}, []string{s.Quote().Pictures[0].Name, s.Quote().Pictures[1].Name})
}

func TestWhatIsNoPictureIsRefusedInASentence(t *testing.T) {
	ctx := context.Background()
	store, err := sqlite.Open(ctx, filepath.Join(t.TempDir(), "shop.db"))
	require.NoError(t, err)
	d, err := desk.New(ctx, store, proposal.Maker{}, time.Now)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, d.Close()) })
	_, err = d.TakePicture(ctx, "letter.txt", []byte("Dear foundry"))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "letter.txt")
}
