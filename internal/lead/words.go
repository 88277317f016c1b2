package lead

import (
	"fmt"

	"meltwright/internal/quantity"
)

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
