package sqlite

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// validFor issues a new quote that stands for so many days from at(10).
func validFor(t testing.TB, s *Store, title string, days int) quote.Quote {
	t.Helper()
	q := saved(t, s, title, march)
	r := revisionOf(q)
	r.ValidUntil = r.IssuedAt.AddDate(0, 0, days)
	r.By = "Ada"
	require.NoError(t, s.Issue(t.Context(), r))
	q, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	return q
}

func reminded(t testing.TB, s *Store, now time.Time) (all []string) {
	t.Helper()
	list, err := s.Reminders(t.Context(), now, now.AddDate(0, 0, 14))
	require.NoError(t, err)
	for _, r := range list {
		all = append(all, string(r.What)+" "+r.Title+" "+r.Number)
	}
	return all
}

func TestWhatFallsDueWithinTwoWeeksIsRemindedOf(t *testing.T) {
	s := newStore(t)
	in := func(days int) time.Time { return dayOf(march).AddDate(0, 0, days) }
	called(t, s, quote.Call{Title: "Bare call", Due: in(3)})
	called(t, s, quote.Call{Title: "Far call", Due: in(15)})
	called(t, s, quote.Call{Title: "Past call", Due: in(-1)})
	begun, sent := called(t, s, quote.Call{Title: "Begun", Due: in(14)}), called(t, s, quote.Call{Title: "Sent", Due: in(5)})
	_, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), Call: begun.ID}, "", march)
	require.NoError(t, err)
	q, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), Call: sent.ID}, "", march)
	require.NoError(t, err)
	require.NoError(t, s.Issue(t.Context(), revisionOf(q)))
	validFor(t, s, "Owl", 7)
	validFor(t, s, "Otter", 60)
	assert.Equal(t, []string{"deadline Bare call ", "lapses Owl 2026-003A", "deadline Begun 2026-001A"}, reminded(t, s, march))
}

func TestAQuoteLapsesWhenItsLastDayIsOver(t *testing.T) {
	s := newStore(t)
	owl, otter := validFor(t, s, "Owl", 7), validFor(t, s, "Otter", 60)
	lastDay := owl.Changed.AddDate(0, 0, 7)
	n, err := s.Lapse(t.Context(), lastDay.Add(11*time.Hour))
	require.NoError(t, err)
	assert.Zero(t, n, "it stands to the end of that day")
	over := lastDay.AddDate(0, 0, 1)
	n, err = s.Lapse(t.Context(), over)
	require.NoError(t, err)
	assert.Equal(t, 1, n)
	kept, err := s.Quote(t.Context(), owl.ID)
	require.NoError(t, err)
	assert.Equal(t, quote.Lapsed, kept.State)
	assert.Equal(t, owl.Version, kept.Version, "a window that has it open may go on")
	steps, err := s.Steps(t.Context(), owl.ID)
	require.NoError(t, err)
	require.Len(t, steps, 3)
	assert.Equal(t, quote.Step{At: moment(micros(over)), State: quote.Lapsed, Letter: "B"}, steps[2], "by nobody's hand")
	assert.Equal(t, "Ada", steps[1].By)
	still, err := s.Quote(t.Context(), otter.ID)
	require.NoError(t, err)
	assert.Equal(t, quote.Issued, still.State)
	assert.Equal(t, []string{"lapsed Owl 2026-001A"}, reminded(t, s, over))
	assert.Empty(t, reminded(t, s, over.AddDate(0, 0, 31)), "for a month")

	// What it is answered with later still counts.
	owl.State = quote.Accepted
	_, err = s.Save(t.Context(), owl, "", over)
	require.Error(t, err, "lapsed cannot become accepted at once")
	owl.State = quote.Issued
	owl, err = s.Save(t.Context(), owl, "", over)
	require.NoError(t, err)
	sound(t, s)
}

func TestEveryStepSaysWhoTookIt(t *testing.T) {
	s := newStore(t)
	q, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), By: "Ida"}, "", march)
	require.NoError(t, err)
	r := revisionOf(q)
	r.By = "Nils"
	require.NoError(t, s.Issue(t.Context(), r))
	q, err = s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	q.State, q.By = quote.Accepted, "Ada"
	_, err = s.Save(t.Context(), q, "", at(20))
	require.NoError(t, err)
	steps, err := s.Steps(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, []quote.Step{
		{At: moment(micros(march)), State: quote.Draft, Letter: "A", By: "Ida"},
		{At: r.IssuedAt, State: quote.Issued, Letter: "A", By: "Nils"},
		{At: moment(micros(at(20))), State: quote.Accepted, Letter: "B", By: "Ada"},
	}, steps)
	kept, err := s.Revision(t.Context(), q.ID, "A")
	require.NoError(t, err)
	assert.Equal(t, "Nils", kept.By)
}
