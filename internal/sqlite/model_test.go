package sqlite

import (
	"fmt"
	"maps"
	"slices"

	"pgregory.net/rapid"

	"meltwright/internal/quote"
)

// model keeps quotes in a map, as simply as can be.
type model struct {
	quotes map[quote.ID]quote.Quote
	last   map[int]int
}

func (m model) number(year int) string { return fmt.Sprintf("%d-%03d", year, m.last[year]) }

// any gives one of the quotes; a step that needs one waits until there is one.
func (m model) any(t *rapid.T) quote.Quote {
	if len(m.quotes) == 0 {
		t.SkipNow()
	}
	return m.quotes[rapid.SampledFrom(slices.Sorted(maps.Keys(m.quotes))).Draw(t, "quote")]
}

func (m model) empty() (n int) {
	for id, q := range m.quotes {
		if !q.Deleted.IsZero() {
			delete(m.quotes, id)
			n++
		}
	}
	return n
}

func (m model) count(bin bool) (n int) {
	for _, q := range m.quotes {
		if q.Deleted.IsZero() != bin {
			n++
		}
	}
	return n
}
