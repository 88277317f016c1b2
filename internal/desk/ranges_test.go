package desk_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/risk"
)

// ranged is the factor of that path.
func ranged(t *testing.T, s *desk.Sheet, where string) risk.Factor {
	t.Helper()
	list, _ := s.Ranges()
	for _, f := range list {
		if f.Where() == where {
			return f
		}
	}
	require.Fail(t, "nothing varies at "+where)
	return risk.Factor{}
}

func TestTypedPointsAreUndoneInOneStepAndKept(t *testing.T) {
	d, s := issuingDesk(t)
	area := ranged(t, s, "0.range.area")
	s.SetRange(area, [3]string{"9", "", ""})
	s.SetRange(area, [3]string{"90 %", "", ""})
	assert.Equal(t, [3]string{"90 %", "", ""}, s.Range(area))
	assert.Equal(t, 0.9, ranged(t, s, "0.range.area").Points.Low)
	assert.Equal(t, area.Usual.High, ranged(t, s, "0.range.area").Points.High, "what is not typed is the shop book's")
	require.NoError(t, s.Save(context.Background()))
	again, err := d.Open(context.Background(), s.Quote().ID)
	require.NoError(t, err)
	assert.Equal(t, [3]string{"90 %", "", ""}, again.Range(area))

	require.True(t, s.Undo())
	assert.Equal(t, [3]string{}, s.Range(area))
	require.True(t, s.Redo())
	s.SetRange(area, [3]string{})
	assert.Empty(t, s.Commission().Pieces[0].Ranges)
}

func TestTheRangeIsDrawnFromTheTypedPoints(t *testing.T) {
	_, s := issuingDesk(t)
	draw := func() risk.Range {
		ranging, err := s.Ranging()
		require.NoError(t, err)
		r, err := ranging(context.Background(), risk.Ask{Trials: 200})
		require.NoError(t, err)
		return r
	}
	before := draw()
	s.SetRange(ranged(t, s, "range.hours.original"), [3]string{"1", "1.5", "3"})
	assert.Greater(t, draw().Price.P50, before.Price.P90)
}

func TestARangeOfNothingIsToldAndCanBeTakenAway(t *testing.T) {
	d, _ := issuingDesk(t)
	c := desk.Demo()[1].Commission.WithRange(estimate.Whole, "weather", "1").WithRange(1, "arae", "1").WithRange(1, "area", "2 / 1 / 1")
	s := d.Put(quote.Quote{Commission: c})
	_, faults := s.Ranges()
	require.Len(t, faults, 3)
	s.DropStrayRanges()
	_, faults = s.Ranges()
	require.Len(t, faults, 1, "what was only typed wrong stays")
	assert.Equal(t, "1.range.area", faults[0].Where)
	assert.Empty(t, s.Commission().Ranges)
}
