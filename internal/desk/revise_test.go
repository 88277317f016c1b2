package desk_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// issue issues the sheet as the window does it.
func issue(t *testing.T, s *desk.Sheet) quote.Revision {
	t.Helper()
	do, err := s.Issuing()
	require.NoError(t, err)
	r, moved, err := do(context.Background())
	require.NoError(t, err)
	s.Issued(moved)
	return r
}

func TestWhatIsTypedWhileItIsIssuedIsADraftOfTheNextLetter(t *testing.T) {
	_, s := issuingDesk(t)
	do, err := s.Issuing()
	require.NoError(t, err)
	s.Set(0, "form.wall", "9 mm")
	r, moved, err := do(context.Background())
	require.NoError(t, err)
	s.Issued(moved)
	assert.Equal(t, "A", r.Letter)
	assert.NotEqual(t, "9 mm", r.Commission.Pieces[0].Inputs["form.wall"])
	assert.Equal(t, "9 mm", s.Commission().Pieces[0].Inputs["form.wall"])
	assert.Equal(t, quote.Draft, s.Quote().State)
	assert.True(t, s.Unsaved())
	require.NoError(t, s.Save(context.Background()), "and it can be kept")
	assert.Equal(t, "B", s.Quote().Letter)
}

func TestAChangeToWhatIsOfferedMakesAnIssuedQuoteADraft(t *testing.T) {
	changes := map[string]struct {
		make func(*desk.Sheet)
		want quote.State
	}{
		"an input":        {func(s *desk.Sheet) { s.Set(0, "form.wall", "9 mm") }, quote.Draft},
		"the title":       {func(s *desk.Sheet) { s.Change("", func(c *estimate.Commission) { c.Title = "Weir" }) }, quote.Draft},
		"the words":       {func(s *desk.Sheet) { s.SetWords("idea", "Another one.") }, quote.Draft},
		"the start":       {func(s *desk.Sheet) { s.SetWords(desk.Start, "2 March 2026") }, quote.Issued},
		"a range":         {func(s *desk.Sheet) { ranges, _ := s.Ranges(); s.SetRange(ranges[0], [3]string{"0.9", "", ""}) }, quote.Issued},
		"nothing, in all": {func(s *desk.Sheet) { s.SetWords("idea", s.Quote().Words["idea"]) }, quote.Issued},
	}
	for name, change := range changes {
		t.Run(name, func(t *testing.T) {
			_, s := issuingDesk(t)
			issue(t, s)
			require.Equal(t, quote.Issued, s.Quote().State)
			change.make(s)
			assert.Equal(t, change.want, s.Quote().State)
			assert.NoError(t, s.Save(context.Background()))
		})
	}
}

func TestAQuoteBecomesOnlyWhatTheTableOfStatesLetsIt(t *testing.T) {
	_, s := issuingDesk(t)
	assert.Equal(t, []quote.State{quote.Withdrawn}, s.May(), "a draft is issued by issuing it")
	assert.ErrorContains(t, s.Become(quote.Accepted), "is draft and cannot become accepted")
	issue(t, s)
	require.NoError(t, s.Become(quote.Accepted))
	assert.True(t, s.Unsaved())
	require.NoError(t, s.Save(context.Background()))
	assert.Equal(t, quote.Accepted, s.Quote().State)
	assert.Equal(t, []quote.State{quote.Issued, quote.Withdrawn}, s.May())
}

func TestATypedDraftOutlivesACopyThatWasOnItsWay(t *testing.T) {
	d, s := issuingDesk(t)
	issue(t, s)
	require.NoError(t, s.Become(quote.Accepted))
	kept, err := d.Keep(context.Background(), s.Copy())
	require.NoError(t, err)
	s.Set(0, "form.wall", "9 mm")
	s.Kept(kept)
	assert.Equal(t, quote.Draft, s.Quote().State)
}

func TestAComparisonIsOfTheDraftAsItStood(t *testing.T) {
	_, s := issuingDesk(t)
	issue(t, s)
	s.Set(0, "form.wall", "9 mm")
	compare := s.Comparing()
	s.Set(0, "form.wall", "4 mm")
	c, err := compare(context.Background(), "A", "")
	require.NoError(t, err)
	assert.Greater(t, c.To, c.Before)
}
