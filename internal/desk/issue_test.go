package desk_test

import (
	"context"
	"io"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/money"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
)

// paperless writes a word in place of each paper.
type paperless struct{}

func (paperless) Proposal(w io.Writer, p desk.Paper) error {
	_, err := io.WriteString(w, "proposal of "+p.Quote.Commission.Title)
	return err
}
func (paperless) CostSheet(io.Writer, desk.Paper) error { return nil }
func (paperless) Workbook(io.Writer, desk.Paper) error  { return nil }

func issuingDesk(t *testing.T) (*desk.Desk, *desk.Sheet) {
	t.Helper()
	ctx := context.Background()
	store, err := sqlite.Open(ctx, filepath.Join(t.TempDir(), "shop.db"))
	require.NoError(t, err)
	d, err := desk.New(ctx, store, paperless{}, func() time.Time { return time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC) })
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, d.Close()) })
	s, err := d.Take(ctx, desk.Demo()[1])
	require.NoError(t, err)
	return d, s
}

func TestAnIssuedRevisionHoldsCommissionBookPriceAndPaper(t *testing.T) {
	ctx := context.Background()
	d, s := issuingDesk(t)
	want, _ := s.Estimate()
	r, err := s.Issue(ctx)
	require.NoError(t, err)
	assert.Equal(t, "A", r.Letter)
	assert.Equal(t, "2026-05-13", r.ValidUntil.Format(time.DateOnly), "sixty days")

	require.NoError(t, d.SetBook(ctx, d.Book().With("labour.mould", "99 / h", "2026-03-15")))
	all, err := s.Revisions(ctx)
	require.NoError(t, err)
	require.Len(t, all, 1)
	assert.Equal(t, want.Currency.Text(want.Price), all[0].Price, "an old quote never changes")
	assert.Equal(t, quote.Issued, s.Quote().State)
	assert.Equal(t, "B", s.Quote().Letter)
}

func TestAQuoteWithFaultsIsNotIssued(t *testing.T) {
	_, s := issuingDesk(t)
	s.Set(0, "form.wall", "-3 mm")
	_, err := s.Issue(context.Background())
	require.Error(t, err)
	assert.Contains(t, err.Error(), "-3 mm")
	assert.Equal(t, quote.Draft, s.Quote().State)
}

func TestTwoRevisionsAreComparedLineByLine(t *testing.T) {
	ctx := context.Background()
	d, s := issuingDesk(t)
	_, err := s.Issue(ctx)
	require.NoError(t, err)
	s.Set(0, "form.wall", "6 mm")
	require.NoError(t, d.SetBook(ctx, d.Book().With("labour.mould", "60 / h", "2026-03-15")))
	s.Reckon()

	c, err := s.Compare(ctx, "A", "")
	require.NoError(t, err)
	assert.Equal(t, []desk.Changed{{Where: "Weir keeper: form.wall", Before: "3/16 in", After: "6 mm"}}, c.Inputs)
	assert.Equal(t, []desk.Changed{{Where: "Mould maker", Before: "54 / h", After: "60 / h"}}, c.Book)
	sum := money.Amount(0)
	for _, l := range append(c.Lines, c.Steps...) {
		sum += l.Change()
	}
	assert.Equal(t, c.To-c.Before, sum, "what changed adds up to the change of price")

	same, err := s.Compare(ctx, "A", "A")
	require.NoError(t, err)
	assert.Empty(t, same.Lines)
	assert.Empty(t, same.Inputs)
}

func TestAStateMovesOnlyWhereTheTableLetsIt(t *testing.T) {
	ctx := context.Background()
	_, s := issuingDesk(t)
	assert.ErrorContains(t, s.SetState(ctx, quote.Accepted), "is draft and cannot become accepted")
	_, err := s.Issue(ctx)
	require.NoError(t, err)
	require.NoError(t, s.SetState(ctx, quote.Accepted))
	assert.Equal(t, quote.Accepted, s.Quote().State)
}
