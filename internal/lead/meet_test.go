package lead

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheLatestStartIsReadyInTimeAndTheDayAfterIsNot(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	booked := planned(t, estimated(t, edition(), s, monday.AddDate(0, 2, 0)), s).Bookings
	m, err := Meet(o, s, day(2027, 6, 1), booked)
	require.NoError(t, err)
	assert.True(t, m.Met)
	assert.Empty(t, m.Gives)
	for d := m.Latest; d.Before(m.Required); d = d.AddDate(0, 0, 1) {
		o.Start = d
		late := dayOf(planned(t, o, s, booked...).Ready) > dayOf(m.Required)
		if d.Equal(m.Latest) || d.Weekday() == time.Saturday || d.Weekday() == time.Sunday {
			continue
		}
		assert.True(t, late, d)
	}
	o.Start = m.Latest
	assert.False(t, planned(t, o, s, booked...).Ready.After(m.Required.AddDate(0, 0, 1)))
}

func TestADateTooNearSaysWhatWouldHaveToGive(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	plain := planned(t, o, s).Ready
	m, err := Meet(o, s, plain.AddDate(0, 0, -10), nil)
	require.NoError(t, err)
	assert.False(t, m.Met)
	assert.Equal(t, dateOf(dayOf(plain)), m.Ready)
	assert.True(t, m.Latest.Before(monday), "it should have begun before")
	var whats []string
	for _, g := range m.Gives {
		whats = append(whats, g.What)
		assert.False(t, g.Ready.After(plain), g.What)
		assert.Equal(t, !g.Ready.After(m.Required), g.Met)
		assert.NotContains(t, g.What, "coat", "fewer coats is never offered")
	}
	assert.Equal(t, []string{"Pour on Monday too", "Work 2 hours of overtime a day", "Pour on Monday too; work 2 hours of overtime a day"}, whats)
	assert.True(t, m.Gives[1].Met)
}

func TestMoreTanksAreNamedOnlyWhereTheyBringTheDateNearer(t *testing.T) {
	s := bookWith(t, "calendar.tank_dips", "6")
	o := estimated(t, group(), s, monday)
	plain := planned(t, o, s).Ready
	m, err := Meet(o, s, plain.AddDate(0, 0, -10), nil)
	require.NoError(t, err)
	last := m.Gives[len(m.Gives)-1]
	assert.Equal(t, "Dip 12 sections a day, with more slurry tanks", last.What)
	assert.True(t, last.Ready.Before(dateOf(dayOf(plain))))
}

func TestAShopWithoutOvertimeIsOfferedNone(t *testing.T) {
	s := bookWith(t, "calendar.overtime", "0 h", "calendar.pour_days", "Monday to Friday")
	m, err := Meet(estimated(t, group(), s, monday), s, monday.AddDate(0, 1, 0), nil)
	require.NoError(t, err)
	assert.Empty(t, m.Gives)
}
