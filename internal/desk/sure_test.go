package desk_test

import (
	"context"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/proposal"
	"meltwright/internal/quote"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// seen notes the papers that it is asked for.
type seen struct {
	proposal.Maker
	papers map[desk.Print]desk.Paper
}

func (s seen) Proposal(_ io.Writer, p desk.Paper) error {
	s.papers[desk.Proposal] = p
	return nil
}

func (s seen) CostSheet(_ io.Writer, p desk.Paper) error {
	s.papers[desk.CostSheet] = p
	return nil
}

func TestTheCostSheetHasTheRangeAndTheProposalWhereItIsSaid(t *testing.T) {
	papers := seen{papers: map[desk.Print]desk.Paper{}}
	d, err := desk.New(t.Context(), desk.NoStore{}, papers, time.Now)
	require.NoError(t, err)
	s := d.Put(desk.Demo()[1])
	require.NoError(t, s.WriteCostSheet(io.Discard))
	r := papers.papers[desk.CostSheet].Range
	require.NotNil(t, r)
	want, err := risk.Draw(t.Context(), s.Commission(), d.Shop(), risk.Ask{})
	require.NoError(t, err)
	assert.Equal(t, want, *r, "the one that the window shows")

	require.NoError(t, s.WriteProposal(io.Discard))
	assert.Nil(t, papers.papers[desk.Proposal].Range)
	s.SayRange(true)
	write, err := s.Ready(desk.Proposal)
	require.NoError(t, err)
	require.NoError(t, write(io.Discard))
	assert.Equal(t, &want, papers.papers[desk.Proposal].Range)
}

// bookedStore has an accepted quote.
type bookedStore struct {
	desk.NoStore
	accepted quote.Quote
}

func (b bookedStore) Accepted(context.Context) ([]quote.Acceptance, error) {
	return []quote.Acceptance{{Quote: b.accepted, At: second}}, nil
}

func TestAProposalBegunOnADayIsDatedAfterAcceptedWork(t *testing.T) {
	other := desk.Demo()[1]
	other.ID, other.State = 3, quote.Accepted
	papers := seen{papers: map[desk.Print]desk.Paper{}}
	d, err := desk.New(t.Context(), bookedStore{accepted: other}, papers, time.Now)
	require.NoError(t, err)
	s := d.Put(desk.Demo()[1])
	require.NoError(t, s.WriteProposal(io.Discard))
	assert.Empty(t, papers.papers[desk.Proposal].Booked, "it has no timeline")
	s.SetWords(desk.Start, "2 March 2026")
	require.NoError(t, s.WriteProposal(io.Discard))
	booked, err := d.Booked(t.Context(), s.Quote(), second)
	require.NoError(t, err)
	require.NotEmpty(t, booked.Bookings)
	assert.Equal(t, booked.Bookings, papers.papers[desk.Proposal].Booked)
}

func TestAnOptionHasARangeOfItsOwn(t *testing.T) {
	_, s := issuingDesk(t)
	w := s.Weighing()
	list := w.Options()
	r, err := w.Range(context.Background(), list[0], risk.Ask{Trials: 200})
	require.NoError(t, err)
	assert.Equal(t, list[0].Estimate.Price, r.Quoted)
	assert.Less(t, r.Price.P10, r.Price.P90)
}

// What is kept of a range is what it is drawn from: commission, shop book, seed.
func TestTheRangeOfAnIssuedRevisionIsDrawnAgainToTheCent(t *testing.T) {
	d, s := issuingDesk(t)
	list, _ := s.Ranges()
	s.SetRange(list[0], [3]string{"95 %", "", "130 %"})
	ranging, err := s.Ranging()
	require.NoError(t, err)
	before, err := ranging(t.Context(), risk.Ask{Trials: 500})
	require.NoError(t, err)
	r, err := s.Issue(t.Context())
	require.NoError(t, err)
	require.NoError(t, d.SetBook(t.Context(), d.Book().With("labour.mould", "199 / h", "2026-03-15")))
	s.SetRange(list[0], [3]string{})

	kept, err := d.Revision(t.Context(), s.Quote().ID, r.Letter)
	require.NoError(t, err)
	book, err := shop.Read(kept.Book)
	require.NoError(t, err)
	again, err := risk.Draw(t.Context(), kept.Commission, book, risk.Ask{Trials: 500})
	require.NoError(t, err)
	assert.Equal(t, before, again)
}
