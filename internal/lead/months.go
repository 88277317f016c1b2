package lead

import "time"

// Months are the beginnings of the months that a schedule runs through; where it
// is long, those of quarters or of years.
func (s Schedule) Months() (first []time.Time) {
	every := time.Month(1)
	switch {
	case s.Weeks > 200:
		every = 12
	case s.Weeks > 60:
		every = 3
	}
	for t := time.Date(s.Start.Year(), s.Start.Month()+1, 1, 0, 0, 0, 0, time.UTC); t.Before(s.Ready); t = t.AddDate(0, 1, 0) {
		if (t.Month()-1)%every == 0 {
			first = append(first, t)
		}
	}
	return first
}
