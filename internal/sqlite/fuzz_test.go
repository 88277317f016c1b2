package sqlite

import (
	"testing"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// Whatever stands in a file where a commission, words or pictures belong is read,
// or told as damage.
func FuzzKeptQuote(f *testing.F) {
	text, err := encode(harbour())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add(`{"idea": "She waits"}`)
	f.Add(`[{"picture": "ab", "name": "cover"}]`)
	f.Add(`{"pieces": [null, {"inputs": {"a": 1}}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		if c, err := decode[estimate.Commission](text, "a quote"); err == nil {
			if _, err := encode(c.Clone()); err != nil {
				t.Fatal(err)
			}
		} else if kindOf(err, "") != quote.ErrDamaged {
			t.Fatal(err)
		}
		if _, err := decodeWords(text, "a quote"); err != nil && kindOf(err, "") != quote.ErrDamaged {
			t.Fatal(err)
		}
		if _, err := decodeList[quote.Shown](text, "a quote"); err != nil && kindOf(err, "") != quote.ErrDamaged {
			t.Fatal(err)
		}
	})
}

// Whatever is typed into a search is a search.
func FuzzSearch(f *testing.F) {
	for _, s := range []string{"owl", `"`, "NEAR(", "a AND -b*", "\x00", "é\u0301", "()"} {
		f.Add(s)
	}
	s := newStore(f)
	saved(f, s, "Owl", march)
	f.Fuzz(func(t *testing.T, words string) {
		for _, order := range quote.Orders() {
			if _, _, err := s.List(t.Context(), quote.Filter{Words: words, Order: order, Today: march}); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := s.Clients(t.Context(), words, false); err != nil {
			t.Fatal(err)
		}
	})
}
