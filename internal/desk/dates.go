package desk

import (
	"strings"
	"time"

	"meltwright/internal/fault"
)

// Start and Required are the words of a quote in which its dates stand, as
// typed: when the work may begin, and when it has to be ready.
const (
	Start    = "start"
	Required = "required"
)

// dateForms are the ways that a date may be typed in, day and month never as two
// numbers whose order somebody would have to guess.
var dateForms = []string{
	time.DateOnly, "2006/1/2", "2006-1-2",
	"2 January 2006", "2 Jan 2006", "January 2 2006", "Jan 2 2006", "2 January, 2006", "January 2, 2006", "Jan 2, 2006",
	"Monday 2 January 2006", "Mon 2 Jan 2006",
}

// ReadDate reads a date such as 2026-03-02 or 2 March 2026. The error is a
// fault.
func ReadDate(field, text string) (time.Time, error) {
	text = strings.Join(strings.Fields(text), " ")
	for _, form := range dateForms {
		if t, err := time.Parse(form, text); err == nil && t.Year() >= 1970 && t.Year() <= 2200 {
			return t, nil
		}
	}
	return time.Time{}, fault.Fault{Field: field, Value: text, Problem: "is not a date", Remedy: "give day, month and year, such as 2 March 2026 or 2026-03-02"}
}

// StartDate is when the work begins: what was typed, or today. The error is a
// fault.
func (s *Sheet) StartDate() (time.Time, error) {
	if text := strings.TrimSpace(s.quote.Words[Start]); text != "" {
		return ReadDate("Start", text)
	}
	y, m, d := s.desk.now().Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC), nil
}

// RequiredDate is when the work has to be ready; zero where nobody said. The
// error is a fault.
func (s *Sheet) RequiredDate() (time.Time, error) {
	if text := strings.TrimSpace(s.quote.Words[Required]); text != "" {
		return ReadDate("Required date", text)
	}
	return time.Time{}, nil
}
