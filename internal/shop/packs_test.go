package shop_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// packed is the starting shop with its packs replaced.
func packed(t *testing.T, rows ...shop.Row) (*shop.Shop, error) {
	t.Helper()
	return shop.Read(shop.Start().WithTable(shop.PackTable, rows, ""))
}

func TestStartingPacksAreCommonPracticeAndNobodys(t *testing.T) {
	for _, p := range start(t).Packs {
		assert.Equal(t, field.NoSource, p.Source, p.Item)
		assert.Empty(t, p.Supplier, p.Item)
		assert.True(t, p.Price.Dec.IsZero(), "%s: by the rate of the line", p.Item)
		assert.Positive(t, p.Holds.Sign(), p.Item)
	}
}

func TestALineIsSoldByItsWholeNameElseByTheLongestBeginningOfIt(t *testing.T) {
	s, err := packed(t,
		shop.Row{"item": "Rubber", "holds": "20 kg", "price": "0"}, shop.Row{"item": "Rubber, silicone, tin-cured", "holds": "5 kg", "price": "180"},
		shop.Row{"item": "Stucco", "holds": "50 lb", "price": "61.50", "supplier": "Quarry"},
	)
	require.NoError(t, err)
	for item, want := range map[string]string{"Rubber, urethane, brush-on": "20 kg", "Rubber, silicone, tin-cured": "5 kg", "Stucco, fine": "50 lb", "Stuccowork": "", "Glass mat": ""} {
		p, ok := s.PackOf(item)
		assert.Equal(t, want != "", ok, item)
		if ok {
			assert.Equal(t, want, p.HoldsText(), item)
		}
	}
}

func TestAPackHoldsANumberOfAUnitOrOfThings(t *testing.T) {
	for text, want := range map[string]string{"20 kg": "20 kg", "50lb": "50 lb", " 2.5 m² ": "2.5 m²", "12": "12"} {
		s, err := packed(t, shop.Row{"item": "Thing", "holds": text, "price": "1"})
		require.NoError(t, err, text)
		assert.Equal(t, want, s.Packs[0].HoldsText())
	}
	for _, text := range []string{"", "kg", "0 kg", "-3 kg", "3 buckets", "1e9 kg", "9999999", "1.2.3 kg", "NaN"} {
		s, err := packed(t, shop.Row{"item": "Thing", "holds": text, "price": "1"})
		require.Error(t, err, text)
		assert.Empty(t, s.Packs, text)
		f, ok := fault.All(err).At("book.packs.0.holds")
		require.True(t, ok, text)
		assert.NotEmpty(t, f.Remedy)
	}
}

func TestAnOlderBookHasTheStartingPacks(t *testing.T) {
	b, err := shop.Decode([]byte(`{"currency":"CAD"}`))
	require.NoError(t, err)
	assert.Equal(t, shop.Start().Tables[shop.PackTable], b.Tables[shop.PackTable])
}
