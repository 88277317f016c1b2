package sqlite

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/quote"
)

func TestTheDigitsOfAPriceSortIt(t *testing.T) {
	for price, want := range map[string]int64{"$128,400": 128400, "CA$9,000": 9000, "€12 000": 12000, "": 0, "no price": 0} {
		assert.Equal(t, want, digitsOf(price), price)
	}
	assert.Positive(t, digitsOf("999999999999999999999999"))
}

// orderOf sorts rows as each order says, in plain Go.
var orderOf = map[quote.Order]func(a, b quote.Summary) int{
	quote.ByChange: func(a, b quote.Summary) int { return b.Changed.Compare(a.Changed) },
	quote.ByNumber: func(a, b quote.Summary) int { return cmp.Compare(b.ID, a.ID) },
	quote.ByClient: func(a, b quote.Summary) int { return cmp.Compare(plain(a.Client), plain(b.Client)) },
	quote.ByPrice:  func(a, b quote.Summary) int { return cmp.Compare(digitsOf(b.Price), digitsOf(a.Price)) },
	quote.ByDeadline: func(a, b quote.Summary) int {
		return cmp.Or(cmp.Compare(place(a.Due), place(b.Due)), a.Due.Compare(b.Due))
	},
}

// place is where a deadline stands: to come, past, none.
func place(due time.Time) int {
	switch {
	case due.IsZero():
		return 2
	case due.Before(dayOf(march)):
		return 1
	}
	return 0
}

func TestAListIsSortedAndFilteredAsAPlainSortOfTheSameRowsIs(t *testing.T) {
	s := newStore(t)
	fillWith(t, s, 300)
	town := keep(t, s, quote.Client{Name: "Émile & Fils"})
	for i := range 20 {
		q := quote.Quote{Commission: harbour(), Client: town.ID}
		q.Commission.Client = ""
		if i%2 == 0 {
			q.Call = called(t, s, quote.Call{Title: "Call", Due: dayOf(march).AddDate(0, 0, i-8)}).ID
		}
		_, err := s.Save(t.Context(), q, []string{"", "$9,000", "$1,128,400"}[i%3], at(i))
		require.NoError(t, err)
	}
	validFor(t, s, "Owl", 7)
	all, n, err := s.List(t.Context(), quote.Filter{Limit: 1000})
	require.NoError(t, err)
	require.Equal(t, 321, n)
	rapid.Check(t, func(rt *rapid.T) {
		f := quote.Filter{
			Limit: 1000, Order: rapid.SampledFrom(quote.Orders()).Draw(rt, "order"), Today: march,
			State: rapid.SampledFrom([]quote.State{"", quote.Draft, quote.Issued, quote.Lapsed}).Draw(rt, "state"),
			Words: rapid.SampledFrom([]string{"", "emile", "fig no", "call"}).Draw(rt, "words"),
		}
		if rapid.Bool().Draw(rt, "client") {
			f.Client = town.ID
		}
		rows, total, err := s.List(t.Context(), f)
		require.NoError(rt, err)
		assert.Len(rt, rows, total)
		assert.True(rt, slices.IsSortedFunc(rows, orderOf[f.Order]), f.Order)
		if f.Words == "" && f.Client == 0 {
			want := slices.DeleteFunc(slices.Clone(all), func(r quote.Summary) bool { return f.State != "" && r.State != f.State })
			assert.ElementsMatch(rt, want, rows)
		}
		if f.Client != 0 && f.Words == "" && f.State != quote.Issued && f.State != quote.Lapsed {
			assert.Equal(rt, 20, total)
		}
	})
}
