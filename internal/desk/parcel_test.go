package desk_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/parcel"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
	"meltwright/internal/sqlite"
)

// deskWith is a desk at a store of its own, with that shop book.
func deskWith(t *testing.T, b shop.Book) *desk.Desk {
	t.Helper()
	ctx := context.Background()
	store, err := sqlite.Open(ctx, filepath.Join(t.TempDir(), "shop.db"))
	require.NoError(t, err)
	d, err := desk.New(ctx, store, paperless{}, func() time.Time { return time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC) })
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, d.Close()) })
	require.NoError(t, d.SetBook(ctx, b))
	return d
}

// foundry has walls and wages of its own, in inches and dollars of the States.
func foundry(t *testing.T) *desk.Desk {
	b := shop.Start().With("form.wall", "1/4", "2026-01-05").With("labour.wax", "44 / h", "2026-01-05").With("price.profit", "31 %", "2026-01-05")
	return deskWith(t, b.WithHouse("Cinder Lane Foundry", "9 Cinder Lane", "USD", "inch-pound", "2026-01-05"))
}

func sent(t *testing.T, s *desk.Sheet, withBook, withMargins bool, along ...parcel.Attachment) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, s.Send(&b, withBook, withMargins, along...))
	return b.Bytes()
}

func received(t *testing.T, d *desk.Desk, data []byte) (*desk.Sheet, parcel.Contents) {
	t.Helper()
	s, c, err := d.Receive(context.Background(), bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	return s, c
}

func TestAParcelBecomesANewDraftAndChangesNothingElse(t *testing.T) {
	ctx := context.Background()
	artist, s := issuingDesk(t)
	_, err := s.Issue(ctx)
	require.NoError(t, err)
	s.Set(estimate.Whole, "price.profit", "23 %")
	before, book := s.Quote(), artist.Book()

	got, c := received(t, artist, sent(t, s, false, false))
	assert.Equal(t, quote.Draft, got.Quote().State)
	assert.Equal(t, "A", got.Quote().Letter)
	assert.NotEqual(t, before.Number, got.Quote().Number, "even at the sender's own desk")
	assert.Equal(t, before, s.Quote())
	assert.Equal(t, book, artist.Book())
	assert.Equal(t, before.Number, c.Number)
	assert.Equal(t, "B", c.Letter)
	assert.Equal(t, before.Words, got.Quote().Words)
	kept, err := artist.Open(ctx, got.Quote().ID)
	require.NoError(t, err)
	assert.Equal(t, got.Commission(), kept.Commission())

	got, _ = received(t, artist, sent(t, s, false, false))
	_, total, err := artist.List(ctx, quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, 3, total, "what is received twice is there twice")
	assert.NotContains(t, got.Commission().Inputs, "price.profit")
}

// What is to be cast is the same on both sides, whatever their shop books say;
// what it costs is each side's own.
func TestTheWorkIsTheSameOnTheOtherSideAndThePriceIsTheirs(t *testing.T) {
	there := foundry(t)
	_, s := issuingDesk(t)
	s.Change("", func(c *estimate.Commission) {
		c.Units, c.Currency, c.Options = "", "", nil
		delete(c.Pieces[0].Inputs, "form.wall")
	})
	ours, good := s.Estimate()
	require.True(t, good)
	got, c := received(t, there, sent(t, s, false, false))
	assert.Equal(t, "3/16 in", got.Commission().Pieces[0].Inputs["form.wall"], "as our book says, and not 1/4")
	assert.Equal(t, "C87300 silicon bronze 95-1-4", got.Commission().Pieces[1].Inputs["form.alloy"])
	assert.Equal(t, "metric", got.Commission().Units)
	assert.Equal(t, "CAD", got.Commission().Currency)
	require.Len(t, got.Faults(), 1, "their book is in another currency: they are asked for the rate")
	assert.Equal(t, "price.exchange", got.Faults()[0].Where)

	got.Set(estimate.Whole, "price.exchange", "1.37")
	theirs, good := got.Estimate()
	require.True(t, good, got.Faults())
	for i := range ours.Pieces {
		assert.InDelta(t, float64(ours.Pieces[i].Finished), float64(theirs.Pieces[i].Finished), 1e-9)
		assert.InDelta(t, float64(ours.Pieces[i].Plinth), float64(theirs.Pieces[i].Plinth), 1e-9)
	}
	assert.NotEqual(t, ours.Price, theirs.Price)
	assert.Nil(t, c.Book)
	assert.NotEmpty(t, c.LeftOut)
}

func TestInchesOfTheBookStayInches(t *testing.T) {
	there := foundry(t)
	s, err := there.Take(context.Background(), quote.Quote{Commission: estimate.Commission{Pieces: []estimate.Piece{{Name: "Bust"}}}})
	require.NoError(t, err)
	here, _ := issuingDesk(t)
	got, _ := received(t, here, sent(t, s, false, false))
	assert.Equal(t, "inch-pound", got.Commission().Units)
	assert.Equal(t, "1/4", got.Commission().Pieces[0].Inputs["form.wall"])

	s.Change("", func(c *estimate.Commission) { c.Units = "metric" })
	got, _ = received(t, here, sent(t, s, false, false))
	e, err := estimate.Of(got.Commission().With(estimate.Whole, "price.exchange", "1.4"), here.Shop())
	require.NoError(t, err)
	assert.InDelta(t, 0.00635, float64(e.Pieces[0].Wall), 1e-9, "1/4 in, where a bare 1/4 would be millimetres")
}

func TestTheOthersShopBookIsOfferedAndNotTaken(t *testing.T) {
	there := foundry(t)
	s, err := there.Take(context.Background(), desk.Demo()[0])
	require.NoError(t, err)
	s.Set(estimate.Whole, "price.exchange", "1.37")
	theirs, _ := s.Estimate()
	here, _ := issuingDesk(t)
	before := here.Book()

	got, c := received(t, here, sent(t, s, true, true))
	assert.Equal(t, before, here.Book())
	require.NotNil(t, c.Book)
	assert.Equal(t, "44 / h", c.Book.Settings["labour.wax"].Text)
	ours, err := estimate.Of(got.Commission(), here.Shop())
	require.NoError(t, err)
	assert.NotEqual(t, theirs.Price, ours.Price)

	require.NoError(t, here.SetBook(context.Background(), *c.Book))
	got.Reckon()
	ours, good := got.Estimate()
	require.True(t, good)
	assert.Equal(t, theirs.Price, ours.Price, "with their book and margins it is their price")

	_, c = received(t, here, sent(t, s, true, false))
	assert.Equal(t, "15 %", c.Book.Settings["price.profit"].Text, "their margin is not in it")
}

func TestAQuoteWithFaultsIsSentAsItIs(t *testing.T) {
	here, s := issuingDesk(t)
	s.Set(0, "form.wall", "-3 mm")
	got, _ := received(t, here, sent(t, s, false, false))
	assert.Equal(t, "-3 mm", got.Commission().Pieces[0].Inputs["form.wall"])
	assert.NotEmpty(t, got.Faults())
}

func TestWhatIsNoParcelLeavesTheStoreAlone(t *testing.T) {
	ctx := context.Background()
	here, s := issuingDesk(t)
	data := sent(t, s, false, false)
	for _, bad := range [][]byte{nil, []byte("letter"), data[:len(data)-9]} {
		_, _, err := here.Receive(ctx, bytes.NewReader(bad), int64(len(bad)))
		require.Error(t, err)
	}
	_, total, err := here.List(ctx, quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, 1, total)
}

// A quote that is as large as any parcel may be is reckoned like another.
func TestTheLargestQuoteOfAParcelIsBorne(t *testing.T) {
	here, s := issuingDesk(t)
	s.Change("", func(c *estimate.Commission) {
		for len(c.Pieces) < 500 {
			c.Pieces = append(c.Pieces, estimate.Piece{Name: "Gull", Inputs: map[string]string{"form.height": "4000 km", "form.sections": "2000", "form.casts": "10000", "form.body_mass": "1e300 kg"}})
		}
	})
	got, _ := received(t, here, sent(t, s, false, false))
	assert.NotEmpty(t, got.Faults())
}

func TestFilesThatCameAlongAreUnpackedUnderFreeNames(t *testing.T) {
	_, s := issuingDesk(t)
	from, to := t.TempDir(), t.TempDir()
	scan := filepath.Join(from, "Keeper scan.stl")
	require.NoError(t, os.WriteFile(scan, []byte("solid keeper\nendsolid\n"), 0o600))
	a, err := desk.Attach(scan)
	require.NoError(t, err)
	assert.Equal(t, parcel.Scan, a.Kind)
	require.NoError(t, os.WriteFile(filepath.Join(to, "Keeper scan.stl"), []byte("mine"), 0o600))

	data := sent(t, s, false, false, a, a)
	_, c := received(t, deskWith(t, shop.Start()), data)
	paths, err := desk.Unpack(to, c.Attached)
	require.NoError(t, err)
	assert.Equal(t, []string{filepath.Join(to, "Keeper scan (2).stl"), filepath.Join(to, "Keeper scan (3).stl")}, paths)
	mine, err := os.ReadFile(filepath.Join(to, "Keeper scan.stl"))
	require.NoError(t, err)
	assert.Equal(t, "mine", string(mine))
	got, err := os.ReadFile(paths[0])
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(got), "solid keeper"))

	_, err = desk.Unpack(filepath.Join(to, "nowhere"), c.Attached)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "cannot be written to")
	_, err = desk.Attach(filepath.Join(from, "none.stl"))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "File to send")
}

func TestAPictureIsKnownByWhatIsInIt(t *testing.T) {
	path := filepath.Join(t.TempDir(), "form.stl")
	for head, kind := range map[string]parcel.Kind{"\x89PNG\r\n\x1a\n...": parcel.Picture, "\xff\xd8\xff\xe0": parcel.Picture, "solid": parcel.Scan, "": parcel.Scan} {
		require.NoError(t, os.WriteFile(path, []byte(head), 0o600))
		a, err := desk.Attach(path)
		require.NoError(t, err)
		assert.Equal(t, kind, a.Kind, head)
	}
}

func TestPicturesGoAlongAndStandWithTheQuoteOnTheOtherSide(t *testing.T) {
	ctx := context.Background()
	artist, s := issuingDesk(t)
	for i, caption := range []string{"In clay, from the east", ""} {
		p, err := artist.TakePicture(ctx, "clay.jpg", photograph(t, 60+i, 40, 90))
		require.NoError(t, err)
		s.AddPicture(p)
		s.SetCaption(i, caption)
	}
	there := foundry(t)
	got, c := received(t, there, sent(t, s, false, false))
	require.Len(t, c.Attached, 2)
	shown := got.Quote().Pictures
	assert.Equal(t, s.Quote().Pictures, shown, "the same pictures, captions and cover")
	data, err := there.PictureFile(ctx, shown[0].Picture)
	require.NoError(t, err)
	assert.Equal(t, photograph(t, 60, 40, 90), data)
	again, _ := received(t, there, sent(t, got, false, false))
	assert.Equal(t, shown, again.Quote().Pictures, "and back")
}

func TestAScanThatIsKeptWithTheQuoteGoesAlongAndIsKeptOnTheOtherSide(t *testing.T) {
	ctx := context.Background()
	artist, s := issuingDesk(t)
	file := []byte("solid heron\nendsolid heron\n")
	k := &mesh.Scan{File: "heron.stl", SHA256: fmt.Sprintf("%x", sha256.Sum256(file))}
	path := filepath.Join(t.TempDir(), "heron.stl")
	require.NoError(t, os.WriteFile(path, file, 0o600))
	require.NoError(t, artist.KeepScanFile(ctx, s.Quote().ID, k, path))
	s.Change("", func(c *estimate.Commission) { c.Pieces[0].Scan = k })
	there := foundry(t)
	got, c := received(t, there, sent(t, s, false, false))
	assert.Contains(t, c.Notes, "The scan “heron.stl” is kept with the quote.")
	kept, err := there.KeptScanFiles(ctx, got.Quote().ID)
	require.NoError(t, err)
	require.Len(t, kept, 1)
	var b bytes.Buffer
	require.NoError(t, there.WriteScanFile(ctx, got.Quote().ID, k.SHA256, &b))
	assert.Equal(t, file, b.Bytes())
}
