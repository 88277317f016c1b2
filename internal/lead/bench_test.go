package lead

import (
	"testing"
)

// year is thirty accepted quotes, one begun about every twelve days.
func year(t must) []Order {
	s := bookWith(t)
	var out []Order
	for i := range 30 {
		c := group()
		switch i % 3 {
		case 1:
			c = head()
		case 2:
			c = edition()
		}
		out = append(out, estimated(t, c, s, monday.AddDate(0, 0, 12*i)))
	}
	return out
}

// A year of thirty accepted quotes, each in what those before have left.
func BenchmarkYearOfThirtyQuotes(b *testing.B) {
	s, orders := bookWith(b), year(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Fit(orders, s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOneQuote(b *testing.B) {
	s := bookWith(b)
	o := estimated(b, group(), s, monday)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Plan(o.Commission, o.Estimate, s, o.Start, nil); err != nil {
			b.Fatal(err)
		}
	}
}
