package desk_test

import (
	"bytes"
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/risk"
)

func TestADateIsReadWithItsMonthInWordsOrAsISO8601(t *testing.T) {
	for _, text := range []string{"2026-03-02", "2 March 2026", " 2  Mar 2026 ", "March 2, 2026", "Mar 2 2026", "Monday 2 March 2026"} {
		d, err := desk.ReadDate("Start", text)
		require.NoError(t, err, text)
		assert.Equal(t, time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), d, text)
	}
}

func TestADateThatCouldBeTwoIsAskedForAgain(t *testing.T) {
	for _, text := range []string{"02/03/2026", "2.3.26", "soon", "31 February 2026", "2 March 26", ""} {
		_, err := desk.ReadDate("Start", text)
		assert.ErrorContains(t, err, "is not a date; give day, month and year", text)
	}
}

func TestWithoutADateTheWorkBeginsToday(t *testing.T) {
	s := keeper(t)
	start, err := s.StartDate()
	require.NoError(t, err)
	assert.Equal(t, 0, start.Hour())
	required, err := s.RequiredDate()
	require.NoError(t, err)
	assert.True(t, required.IsZero())
	s.SetWords(desk.Required, "some day")
	_, err = s.Scheduling()
	assert.ErrorContains(t, err, "Required date “some day” is not a date")
}

func TestAScheduleIsOfTheSheetAsItStood(t *testing.T) {
	s := keeper(t)
	s.SetWords(desk.Start, "2026-03-02")
	s.SetWords(desk.Required, "1 June 2026")
	plan, err := s.Scheduling()
	require.NoError(t, err)
	s.SetWords(desk.Start, "2027-03-01")
	soon, err := plan(context.Background(), risk.Ask{Trials: 50})
	require.NoError(t, err)
	assert.Equal(t, 2026, soon.Schedule.Start.Year())
	require.NotNil(t, soon.Meeting)
	assert.False(t, soon.Meeting.Met)
	assert.True(t, soon.Meeting.Latest.Before(soon.Schedule.Start))
	assert.False(t, soon.Finish.P80.Before(soon.Schedule.Ready))
	var b bytes.Buffer
	require.NoError(t, soon.ICS(&b))
	assert.Contains(t, b.String(), "BEGIN:VCALENDAR\r\n")
}

func TestPapersTakeTheStartHoweverItsDateWasWritten(t *testing.T) {
	s := keeper(t)
	for text, want := range map[string]string{"": "", "2026-03-02": "2026-03-02", "2 March 2026": "2026-03-02", "soon": ""} {
		s.SetWords(desk.Start, text)
		p, err := s.Paper()
		require.NoError(t, err)
		assert.Equal(t, want, p.Start, text)
	}
}
