package ui

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
	assert.Equal(t, []string{"soon.start", "soon.required", "[Save as calendar …]", "rows"}, b.around()[6:])
}
