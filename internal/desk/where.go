package desk

import (
	"strconv"
	"strings"

	"meltwright/internal/estimate"
)

// At tells which stage's page a fault is seen on, by its Where, and of which
// piece; Head is the page of the commission as a whole.
func (s *Sheet) At(where string) (stage string, piece int) {
	first, rest, _ := strings.Cut(where, ".")
	if n, err := strconv.Atoi(first); err == nil {
		stage, _, _ = strings.Cut(rest, ".")
		if stage == "solids" {
			stage = "form"
		}
		return stage, n
	}
	if first == "extras" {
		return s.ofExtra(rest), estimate.Whole
	}
	if _, ok := estimate.StageByID(first); ok {
		return first, estimate.Whole
	}
	return Head, estimate.Whole
}

// Head names the page of what belongs to the commission and to no stage: its
// title, client, place, currency and units.
const Head = "commission"

// ofExtra is the stage of an own line, or Head where it names none that is.
func (s *Sheet) ofExtra(number string) string {
	n, err := strconv.Atoi(number)
	if err != nil || n < 0 || n >= len(s.quote.Commission.Extras) {
		return Head
	}
	if st, ok := estimate.StageByID(s.quote.Commission.Extras[n].Stage); ok {
		return st.ID
	}
	return Head
}
