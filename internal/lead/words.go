package lead

import (
	"fmt"
	"time"

	"meltwright/internal/quantity"
)

// After says in words what accepted quotes, so many, do to the schedule; nothing
// where none books anything. Day prints a date.
func (s Schedule) After(quotes int, day func(time.Time) string) string {
	if quotes == 0 || s.Unbooked.IsZero() {
		return ""
	}
	text := fmt.Sprintf("After %d accepted quotes", quotes)
	if quotes == 1 {
		text = "After 1 accepted quote"
	}
	if !s.FirstPour.IsZero() {
		text += "; the first pour day free is " + day(s.FirstPour)
	}
	if d := dayOf(s.Ready) - dayOf(s.Unbooked); d > 0 {
		return text + ". That is " + inDays(d) + " later than in an empty shop."
	}
	return text + ". It fits in beside them without delay."
}

// inDays says so many days in days or weeks: "4 days", "3 weeks".
func inDays(d int32) string {
	n, unit := d, "day"
	if d >= 14 {
		n, unit = (d+3)/7, "week"
	}
	if n != 1 {
		unit += "s"
	}
	return fmt.Sprintf("%d %s", n, unit)
}

// inHours says so many hours: "2 hours", "1.5 hours", "1 hour".
func inHours(h float64) string {
	s := quantity.Number(h, 1)
	if s == "1" {
		return "1 hour"
	}
	return s + " hours"
}
