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
	d := dayOf(s.Ready) - dayOf(s.Unbooked)
	if d <= 0 {
		return text + ". It fits in beside them without delay."
	}
	text += ". Ready " + inDays(d) + " later than in an empty shop"
	if skill, from := s.heldUp(); skill != "" {
		text += "; waited for longest: " + skill + ", free from " + day(from)
	}
	return text + "."
}

// heldUp is whom, or what, a task waits for longest, where that is more than a
// week, and when they first have time for this work.
func (s Schedule) heldUp() (skill string, from time.Time) {
	most := 7 * 24 * time.Hour
	for _, t := range s.Tasks {
		ready := s.Start
		for _, a := range t.After {
			if end := s.Tasks[a].End; end.After(ready) {
				ready = end
			}
		}
		tank := time.Duration(t.tank * float64(7*24*time.Hour))
		if wait := t.Start.Sub(ready) - tank; !t.Wait && wait > most {
			skill, most = t.Skill, wait
		}
		if tank > most {
			skill, most = Tank, tank
		}
	}
	for _, t := range s.Tasks {
		if (t.Skill == skill || skill == Tank && t.Stage == "shell") && !t.Wait && (from.IsZero() || t.Start.Before(from)) {
			from = t.Start
		}
	}
	return skill, from
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
