package desk_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/risk"
)

var second = time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)

// accept takes a quote as a new one, issues it, and has it accepted.
func accept(t *testing.T, d *desk.Desk, q quote.Quote, start string) *desk.Sheet {
	t.Helper()
	s, err := d.Take(context.Background(), q)
	require.NoError(t, err)
	s.SetWords(desk.Start, start)
	_, err = s.Issue(context.Background())
	require.NoError(t, err)
	require.NoError(t, s.SetState(context.Background(), quote.Accepted))
	return s
}

func soonOf(t *testing.T, s *desk.Sheet) desk.Soon {
	t.Helper()
	plan, err := s.Scheduling()
	require.NoError(t, err)
	soon, err := plan(context.Background(), risk.Ask{Trials: 20})
	require.NoError(t, err)
	return soon
}

func iso(t time.Time) string { return t.Format(time.DateOnly) }

func TestANewQuoteIsScheduledAfterThoseThatAreAcceptedAndSaysSo(t *testing.T) {
	d, s := issuingDesk(t)
	s.SetWords(desk.Start, "2 March 2026")
	alone := soonOf(t, s)
	assert.Zero(t, alone.Booked)
	assert.Empty(t, alone.BookedWords(iso))

	for range 2 {
		accept(t, d, desk.Demo()[1], "2 March 2026")
	}
	_, err := d.Take(context.Background(), desk.Demo()[1]) // a draft books nothing
	require.NoError(t, err)
	after := soonOf(t, s)
	assert.Equal(t, 2, after.Booked.Quotes)
	assert.Equal(t, alone.Schedule.Ready, after.Schedule.Unbooked)
	assert.True(t, after.Schedule.Ready.After(alone.Schedule.Ready))
	assert.True(t, after.Finish.P80.After(alone.Finish.P80), "the range of the finish is after them too")
	weeks := func(b desk.Booked) float64 {
		s.Change("options", func(c *estimate.Commission) { c.Options = []estimate.Option{{Height: "1.75 m"}} })
		return s.Weighing().Amid(b).Options()[0].Weeks
	}
	assert.Greater(t, weeks(after.Booked), weeks(desk.Booked{})+1, "and so are scale options")
	require.Len(t, after.BookedWords(iso), 1)
	assert.Regexp(t, `^After 2 accepted quotes; the first pour day free is 2026-\d\d-\d\d\. Ready \d+ weeks later than in an empty shop; waited for longest: Sculptor, free from 202\d-\d\d-\d\d\.$`, after.BookedWords(iso)[0])
}

func TestAnAcceptedQuoteComesAfterThoseAcceptedBeforeItAlone(t *testing.T) {
	d, _ := issuingDesk(t)
	first := accept(t, d, desk.Demo()[1], "2 March 2026")
	last := accept(t, d, desk.Demo()[1], "2 March 2026")
	assert.Zero(t, soonOf(t, first).Booked.Quotes)
	assert.Equal(t, 1, soonOf(t, last).Booked.Quotes)
	last.Set(0, "form.wall", "9 mm") // a draft again, of the next letter
	assert.Equal(t, 1, soonOf(t, last).Booked.Quotes)
}

func TestWorkThatIsOverIsInNobodysWay(t *testing.T) {
	d, _ := issuingDesk(t)
	accept(t, d, desk.Demo()[1], "2 March 2020")
	b, err := d.Booked(context.Background(), quote.Quote{}, second)
	require.NoError(t, err)
	assert.Zero(t, b)
	b, err = d.Booked(context.Background(), quote.Quote{}, second.AddDate(-6, 0, 0))
	require.NoError(t, err)
	assert.Equal(t, 1, b.Quotes)
}

func TestAnAcceptedQuoteKeepsTheDayItsWorkBegins(t *testing.T) {
	d, _ := issuingDesk(t)
	s := accept(t, d, desk.Demo()[1], "")
	assert.Equal(t, "14 March 2026", s.Quote().Words[desk.Start], "the day it was accepted on, where none was typed")
	again, err := d.Open(context.Background(), s.Quote().ID)
	require.NoError(t, err)
	assert.Equal(t, "14 March 2026", again.Quote().Words[desk.Start])
	again.SetWords(desk.Start, "4 May 2026")
	assert.Equal(t, quote.Accepted, again.Quote().State, "its day may be moved")
	assert.Equal(t, "4 May 2026", accept(t, d, desk.Demo()[1], "4 May 2026").Quote().Words[desk.Start])

	_, window := issuingDesk(t)
	issue(t, window)
	require.NoError(t, window.Become(quote.Accepted))
	assert.Equal(t, "14 March 2026", window.Quote().Words[desk.Start])
}

func TestAnAcceptedQuoteThatCannotBeScheduledIsNamed(t *testing.T) {
	d, s := issuingDesk(t)
	s.SetWords(desk.Start, "2 March 2026")
	q := desk.Demo()[1]
	q.Commission = q.Commission.With(estimate.Whole, "delivery.by", "by others")
	q.Commission.Pieces[0].Inputs = map[string]string{"form.known_by": "typed area", "form.area": "1 m²", "form.casts": "10000"}
	q.Commission.Pieces = q.Commission.Pieces[:1]
	x := accept(t, d, q, "2 March 2026")
	soon := soonOf(t, s)
	assert.Equal(t, []string{x.Quote().Number}, soon.Booked.Left)
	assert.Equal(t, []string{"Left out, because it cannot be scheduled as it stands: " + x.Quote().Number + "."}, soon.BookedWords(iso))
}
