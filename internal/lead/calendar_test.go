package lead

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/fault"
)

func TestDaysOfTheWeekAreReadAsPeopleWriteThem(t *testing.T) {
	for text, want := range map[string]string{
		"Monday to Friday":        ".MTWTF.",
		"Tue, Thu and Sat":        "..T.T.S",
		"Mon-Wed":                 ".MTW...",
		"thursdays":               "....T..",
		"Saturday – Monday":       "SM....S",
		"Sunday; Wednesday & fri": "S..W.F.",
	} {
		days, ok := weekdays(text)
		require.True(t, ok, text)
		got := ""
		for d, on := range days {
			got += map[bool]string{true: "SMTWTFS"[d : d+1], false: "."}[on]
		}
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "never", "Mo", "Monday to", "Blursday", ",,"} {
		_, ok := weekdays(text)
		assert.False(t, ok, text)
	}
}

func axisOf(t must, days int32, settings ...string) *axis {
	c, err := readCalendar(bookWith(t, settings...))
	require.NoError(t, err)
	return newAxis(c, dayOf(day(2026, 12, 21)), days)
}

func TestHolidaysAndWeekendsAreNotWorked(t *testing.T) {
	a := axisOf(t, 30, "calendar.holidays", "2026-12-24 to 2027-01-02; 01-06\n12-22")
	var worked []string
	for _, d := range a.dates {
		worked = append(worked, dateOf(d).Format("01-02"))
	}
	assert.Equal(t, []string{"12-21", "12-23", "01-04", "01-05", "01-07", "01-08", "01-11", "01-12", "01-13", "01-14", "01-15", "01-18", "01-19"}, worked)
	assert.Equal(t, a.slots, a.slotAt(dayOf(day(2026, 12, 22))), "the day after a holiday")
	assert.Equal(t, 2*a.slots, a.later(2*a.slots, 10), "ten days after the 23rd is a Saturday in the holidays: the Monday after")
	assert.Equal(t, a.end(), a.slotAt(dayOf(day(2030, 1, 1))))
}

func TestADayOfEightHoursIsFromEightToFour(t *testing.T) {
	a := axisOf(t, 30)
	assert.Equal(t, time.Date(2026, 12, 21, 8, 0, 0, 0, time.UTC), a.begins(0))
	assert.Equal(t, time.Date(2026, 12, 21, 16, 0, 0, 0, time.UTC), a.ends(a.slots))
	assert.Equal(t, time.Date(2026, 12, 22, 8, 30, 0, 0, time.UTC), a.ends(a.slots+1))
	long := axisOf(t, 30, "calendar.hours", "10 h")
	assert.Equal(t, time.Date(2026, 12, 21, 7, 0, 0, 0, time.UTC), long.begins(0))
}

func TestEverySlotIsFoundAgainByItsDate(t *testing.T) {
	a := axisOf(t, 900, "calendar.days", "Monday to Saturday")
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Int32Range(0, int32(len(a.dates))-1).Draw(t, "working day")
		date := dateOf(a.dates[d])
		require.Equal(t, d*a.slots, a.slotAt(a.dates[d]))
		require.NotEqual(t, time.Sunday, date.Weekday())
		require.EqualValues(t, date.Weekday(), weekdayOf(a.dates[d]))
		require.Equal(t, a.dates[d], dayOf(date))
	})
}

func TestACalendarThatCannotBeReadSaysWhereAndWhatWouldBeRight(t *testing.T) {
	for _, c := range []struct{ key, text, says string }{
		{"calendar.days", "workdays", "Shop book, Working days “workdays” names no days of the week; give days such as Monday to Friday"},
		{"calendar.pour_days", "", "Shop book, The shop pours on names no days of the week"},
		{"calendar.pour_days", "Sunday", "Shop book, The shop pours on “Sunday” is no working day; give at least one of the working days"},
		{"calendar.holidays", "25 December", "“25 December” has a holiday that is no date; give dates such as 2026-12-24"},
		{"calendar.holidays", "2027-01-02 to 2026-12-24", "has a holiday that is no date"},
	} {
		err := CheckCalendar(bookWith(t, c.key, c.text))
		assert.ErrorContains(t, err, c.says)
		assert.Equal(t, "book."+c.key, fault.All(err)[0].Where)
	}
}

func TestASecondPourDayIsTheFarthestInTheWeek(t *testing.T) {
	for pours, want := range map[string]time.Weekday{"Thursday": time.Monday, "Monday": time.Thursday, "Monday, Thursday": time.Tuesday} {
		c, err := readCalendar(bookWith(t, "calendar.pour_days", pours))
		require.NoError(t, err)
		d, ok := c.anotherPour()
		assert.True(t, ok)
		assert.EqualValues(t, want, d, pours)
	}
	c, _ := readCalendar(bookWith(t, "calendar.pour_days", "Monday to Friday"))
	_, ok := c.anotherPour()
	assert.False(t, ok)
}
