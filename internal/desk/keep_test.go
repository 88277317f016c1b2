package desk_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// shelf is a store of one quote and one book.
type shelf struct {
	quote.Store
	kept  quote.Quote
	price string
	book  shop.Book
	fail  error
}

func (s *shelf) Book(context.Context) (shop.Book, error) { return s.book, nil }

func (s *shelf) SaveBook(_ context.Context, b shop.Book, _ time.Time) error {
	if s.fail == nil {
		s.book = b
	}
	return s.fail
}

func (s *shelf) Quote(context.Context, quote.ID) (quote.Quote, error) { return s.kept, s.fail }

func (s *shelf) Marks(context.Context) (map[string]quote.PictureID, error) { return nil, nil }

func (s *shelf) Accepted(context.Context) ([]quote.Acceptance, error) { return nil, nil }

func (s *shelf) Save(_ context.Context, q quote.Quote, price string, now time.Time) (quote.Quote, error) {
	if s.fail != nil {
		return quote.Quote{}, s.fail
	}
	q.ID, q.Number, q.Letter, q.Version, q.Changed = 7, "2026-007", "A", q.Version+1, now
	s.kept, s.price = q, price
	return q, nil
}

func sitDown(t *testing.T) (*desk.Desk, *shelf) {
	t.Helper()
	s := &shelf{book: shop.Start()}
	noon := time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)
	d, err := desk.New(t.Context(), s, nil, func() time.Time { return noon })
	require.NoError(t, err)
	return d, s
}

func TestWhatIsTypedWhileACopyIsBeingKeptStaysAndIsStillToBeKept(t *testing.T) {
	d, store := sitDown(t)
	s := d.PutNew()
	assert.True(t, s.Unsaved(), "a new draft is not kept yet")
	s.Change("title", func(c *estimate.Commission) { c.Title = "Heron" })
	copied := s.Copy()
	assert.False(t, s.Unsaved())

	s.Change("title", func(c *estimate.Commission) { c.Title = "Herons" })
	q, err := d.Keep(t.Context(), copied)
	require.NoError(t, err)
	s.Kept(q)

	assert.Equal(t, "Heron", store.kept.Commission.Title, "the copy is of the moment it was taken")
	assert.NotEmpty(t, store.price)
	assert.Equal(t, "Herons", s.Commission().Title)
	assert.Equal(t, "2026-007", s.Quote().Number)
	assert.True(t, s.Unsaved())
}

func TestACopyThatCouldNotBeKeptIsStillToBeKept(t *testing.T) {
	d, store := sitDown(t)
	store.fail = errors.New("full")
	s := d.PutNew()
	_, err := d.Keep(t.Context(), s.Copy())
	require.Error(t, err)
	s.NotKept()
	assert.True(t, s.Unsaved())
}

func TestAQuoteWithFaultsIsKeptAsTypedWithoutAPrice(t *testing.T) {
	d, store := sitDown(t)
	s := d.PutNew()
	s.Set(0, "form.wall", "-3 mm")
	_, err := d.Keep(t.Context(), s.Copy())
	require.NoError(t, err)
	assert.Equal(t, "-3 mm", store.kept.Commission.Pieces[0].Inputs["form.wall"])
	assert.Empty(t, store.price)
}

func TestACopyOfAQuoteSharesNothingWithIt(t *testing.T) {
	d, _ := sitDown(t)
	q := desk.Demo()[1]
	q.ID, q.Version, q.State = 3, 9, quote.Issued
	s := d.PutCopy(q)
	assert.Equal(t, quote.ID(0), s.Quote().ID)
	assert.Equal(t, quote.Draft, s.Quote().State)
	assert.Equal(t, q.Commission.Title+" (copy)", s.Commission().Title)
	s.Set(0, "form.wall", "7 mm")
	assert.NotEqual(t, "7 mm", q.Commission.Pieces[0].Inputs["form.wall"])
}
