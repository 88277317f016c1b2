package ui

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/lead"
	"meltwright/internal/proposal"
	"meltwright/internal/quote"
)

func TestAScheduleBeginsOnTheDateThatIsTyped(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(soonID)
	assert.Contains(t, b.said(), "Being drawn up …")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "weeks after 14 March 2026", "today, where nothing is typed")

	b.fill("soon.start", "2 March 2026")
	assert.Contains(t, b.said(), "= Monday 2 March 2026")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "weeks after 2 March 2026")
	assert.Contains(t, b.said(), "eight in ten by")
	assert.NotContains(t, b.said(), "The required date")
	b.clock.pass(time.Second)
	assert.Equal(t, "2 March 2026", b.kept().Words["start"], "the date is kept with the quote")
}

func TestARequiredDateThatIsNotMetSaysWhatWouldHaveToGive(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(soonID)
	b.fill("soon.start", "2 March 2026")
	b.fill("soon.required", "1 June 2026")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "The required date, 1 June 2026, is not met: it would have had to begin on")
	assert.Contains(t, b.said(), "What would bring it nearer")
	assert.Contains(t, b.said(), "overtime")

	b.fill("soon.required", "1 June 2028")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "The required date, 1 June 2028, is met. It may begin on")
	assert.NotContains(t, b.said(), "What would bring it nearer")
}

func TestADateThatIsNoneIsToldBesideIt(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(soonID)
	b.fill("soon.start", "3/2/26")
	assert.Contains(t, b.field("soon.start").Fault(), "is not a date; give day, month and year")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "There is no schedule. Start “3/2/26” is not a date")
	b.menu("Undo")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Ready on")
}

func TestTheScheduleIsSavedAsACalendar(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	b := sit(t, withDemo)
	b.quote().choose(soonID)
	assert.NotContains(t, b.said(), "Save as calendar …", "not before there is one")
	b.clock.pass(time.Second)
	b.tap("Save as calendar …")
	b.press(fyne.KeyReturn)
	path := filepath.Join(os.Getenv("HOME"), b.quote().sheet.FileName("schedule", "ics"))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Contains(t, string(text), "BEGIN:VEVENT\r\n")
	assert.Contains(t, b.said(), "The calendar lies in")
}

func TestTabGoesThroughTheDates(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(soonID)
	b.clock.pass(time.Second)
	assert.Equal(t, []string{"soon.start", "soon.required", "rows", "[Save as calendar …]", "rows"}, b.around()[6:])
}

// accept has a quote that is kept issued and accepted, its work to begin on a day.
func (b *bench) accept(q quote.Quote, start string) {
	b.Helper()
	ctx := context.Background()
	s, err := b.w.desk.Take(ctx, q)
	require.NoError(b, err)
	s.SetWords(desk.Start, start)
	_, err = s.Issue(ctx)
	require.NoError(b, err)
	require.NoError(b, s.SetState(ctx, quote.Accepted))
}

func TestANewQuoteIsScheduledAfterThoseThatAreAccepted(t *testing.T) {
	b := sit(t, withDemo, func(o *Options) { o.Papers = proposal.Maker{} })
	b.quote().choose(soonID)
	b.fill("soon.start", "2 March 2026")
	b.clock.pass(time.Second)
	alone, ok := b.quote().soon.now()
	require.True(t, ok)
	assert.NotContains(t, b.said(), "accepted quote")

	b.accept(desk.Demo()[1], "2 March 2026")
	b.fill("soon.start", "2026-03-02")
	b.clock.pass(time.Second)
	after, ok := b.quote().soon.now()
	require.True(t, ok)
	assert.True(t, after.Schedule.Ready.After(alone.Schedule.Ready))
	assert.Contains(t, b.said(), "After 1 accepted quote; the first pour day free is "+day(after.Schedule.FirstPour)+". Ready ")
}

func TestThePaymentsStandOnTheirDays(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(soonID)
	b.fill("soon.start", "2 March 2026")
	b.clock.pass(time.Second)
	s, ok := b.quote().soon.now()
	require.True(t, ok)
	e, _ := b.quote().sheet.Estimate()
	require.Len(t, s.Schedule.Milestones, len(e.Payments))
	assert.Contains(t, b.said(), "Payments, and the day each falls due")
	lines := dueLines(s.Schedule)
	for i, m := range s.Schedule.Milestones {
		assert.Equal(t, e.Payments[i].When, lines[i].Name)
		assert.Equal(t, shortDay(m.Date), lines[i].Rate)
		assert.Equal(t, amount(e.Currency, e.Payments[i].Amount), lines[i].Cost)
	}
}

func TestLongWorkIsMarkedByQuartersAndYears(t *testing.T) {
	start := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	for weeks, want := range map[int]string{20: "Apr May Jun Jul", 90: "Apr Jul Oct Jan 2027 Apr Jul Oct", 260: "Jan 2027 Jan 2028 Jan 2029 Jan 2030 Jan 2031"} {
		var got []string
		for _, tick := range months(lead.Schedule{Start: start, Ready: start.AddDate(0, 0, 7*weeks), Weeks: float64(weeks)}) {
			got = append(got, tick.Label)
		}
		assert.Equal(t, want, strings.Join(got, " "), "%d weeks", weeks)
	}
}

func TestACalendarThatCannotBeReadIsToldBesideItInTheShopBook(t *testing.T) {
	b := sit(t, withDemo)
	b.tap("Shop book")
	b.book().choose("Calendar")
	b.fill("calendar.pour_days", "whenever")
	assert.Contains(t, b.field("calendar.pour_days").Fault(), "names no days of the week; give days such as Monday to Friday")
	b.fill("calendar.pour_days", "Sunday")
	assert.Contains(t, b.field("calendar.pour_days").Fault(), "is no working day")
	b.fill("calendar.pour_days", "Tuesday")
	assert.Empty(t, b.field("calendar.pour_days").Fault())
}
