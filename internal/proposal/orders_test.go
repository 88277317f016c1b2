package proposal

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// soldAs is a paper in whose shop materials are sold as the rows say.
func soldAs(t testing.TB, q quote.Quote, rows ...shop.Row) quote.Paper {
	t.Helper()
	s, err := shop.Read(shop.Start().WithHouse("Alder Quay Foundry", "12 Slipway Lane", "CAD", "metric", "").WithTable(shop.PackTable, rows, "2026-01-05"))
	require.NoError(t, err)
	e, err := estimate.Of(q.Commission, s)
	require.NoError(t, err)
	return quote.Paper{Quote: q, Estimate: e, Shop: s, Date: "2026-03-14", Until: "2026-05-13"}
}

// wantOf is one material of the orders.
func wantOf(t testing.TB, orders []order, name string) (string, want) {
	t.Helper()
	for _, o := range orders {
		for _, w := range o.wants {
			if w.name == name {
				return o.supplier, w
			}
		}
	}
	require.Fail(t, "nobody orders "+name)
	return "", want{}
}

func TestAnOrderSumsTheMaterialOfAllPieces(t *testing.T) {
	for name, q := range stories() {
		p := paperOf(t, q)
		left := map[string]money.Decimal{}
		for _, l := range p.Estimate.Lines {
			if l.Class == estimate.Material {
				left[l.Unit] = left[l.Unit].Add(l.Quantity)
			}
		}
		for _, o := range ordersOf(p) {
			cost := money.Amount(0)
			for _, w := range o.wants {
				left[w.unit] = left[w.unit].Sub(w.need)
				cost += w.cost
			}
			assert.Equal(t, cost, o.cost, name)
		}
		for unit, rest := range left {
			assert.True(t, rest.IsZero(), "%s: %s %s are not ordered", name, rest, unit)
		}
	}
}

func TestPacksAreRoundedUpAndNeverOneTooMany(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		need := money.Round(float64(rapid.IntRange(1, 5_000_000).Draw(rt, "need"))/100, 2)
		holds := money.Round(float64(rapid.IntRange(1, 100_000).Draw(rt, "holds"))/100, 2)
		w := want{need: need, unit: "kg", pack: shop.Pack{Holds: holds, Unit: quantity.Kilogram}, packed: true}
		w.fill(quote.Paper{Estimate: &estimate.Estimate{Currency: money.Currency{Code: "CAD", Digits: 2}}}, money.Round(1, 0))
		if w.ordered.LessThan(need) {
			rt.Fatalf("%s ordered for %s", w.ordered, need)
		}
		if fewer := w.ordered.Sub(holds); fewer.GreaterThanOrEqual(need) {
			rt.Fatalf("%d packs of %s for %s", w.packs, holds, need)
		}
	})
}

func TestMaterialsOfOneProductAreOrderedTogether(t *testing.T) {
	p := paperOf(t, waterfront())
	sum := money.Decimal{}
	for _, l := range p.Estimate.Lines {
		if l.Item == "Wax lost after reclaim" || l.Item == "Gating wax lost after reclaim" {
			sum = sum.Add(l.Quantity)
		}
	}
	_, wax := wantOf(t, ordersOf(p), "Casting wax")
	assert.True(t, sum.Equal(wax.need))
	assert.Equal(t, []string{"Wax", "Gating"}, wax.stages)
	assert.Equal(t, 1, wax.packs)
}

func TestEachSupplierHasAListAndWhatHasNoneComesLast(t *testing.T) {
	p := soldAs(t, waterfront(),
		shop.Row{"item": "Stucco", "supplier": "Kiln & Sand", "holds": "25 kg", "price": "71.25"},
		shop.Row{"item": "Bronze used up", "product": "Silicon bronze ingot", "supplier": "Ingots Ltd", "holds": "9 kg", "price": "0"},
	)
	orders := ordersOf(p)
	var names []string
	for _, o := range orders {
		names = append(names, o.supplier)
	}
	assert.Equal(t, []string{"Kiln & Sand", "Ingots Ltd", ""}, names)
	_, fine := wantOf(t, orders, "Stucco, fine")
	assert.Equal(t, money.Amount(7125), fine.each, "the supplier's price")
	assert.Equal(t, money.Amount(7125*fine.packs), fine.cost)
	_, ingot := wantOf(t, orders, "Silicon bronze ingot")
	assert.Equal(t, money.Amount(9*1780), ingot.each, "without a price, by the rate of the line")
	text := flat(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) }), "-layout"))
	for _, words := range []string{"Kiln & Sand", "Ingots Ltd", "Of no supplier in the shop book", "Silicon bronze ingot"} {
		assert.Contains(t, text, words)
	}
}

func TestAPackInPoundsServesKilogramsAndOneOfAnotherSortServesNothing(t *testing.T) {
	p := soldAs(t, waterfront(), shop.Row{"item": "Glass mat", "holds": "10 lb", "price": "0"}, shop.Row{"item": "Resin", "holds": "5 m²", "price": "0"}, shop.Row{"item": "Cups, vents and pins", "holds": "5 kg", "price": "0"})
	orders := ordersOf(p)
	_, glass := wantOf(t, orders, "Glass mat")
	assert.Equal(t, 4, glass.packs, "16.59 kg are 36.57 lb")
	_, resin := wantOf(t, orders, "Resin")
	assert.False(t, resin.packed)
	_, cups := wantOf(t, orders, "Cups, vents and pins")
	assert.False(t, cups.packed)
}

func TestPricesOfPacksAreInTheCommissionsMoney(t *testing.T) {
	p := soldAs(t, inMoney("EUR", "0.62", "10"), shop.Row{"item": "Glass mat", "holds": "30 kg", "price": "210"})
	_, glass := wantOf(t, ordersOf(p), "Glass mat")
	assert.Equal(t, money.Amount(13020), glass.each, "210 CAD at 0.62")
}

// readBack reads comma-separated values as RFC 4180 has them.
func readBack(t testing.TB, data []byte) [][]string {
	t.Helper()
	text, ok := strings.CutPrefix(string(data), "\ufeff")
	require.True(t, ok)
	assert.Equal(t, strings.Count(text, "\n"), strings.Count(text, "\r\n"))
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll() // each as long as the first
	require.NoError(t, err)
	return rows
}

func TestEveryLineIsInTheTableWithItsAmount(t *testing.T) {
	for name, q := range stories() {
		p := paperOf(t, q)
		rows := readBack(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Lines(b, p) }))
		require.Len(t, rows, len(p.Estimate.Lines)+1, name)
		sum := money.Amount(0)
		for i, r := range rows[1:] {
			a, err := p.Estimate.Currency.Parse(r[8])
			require.NoError(t, err)
			assert.Equal(t, p.Estimate.Lines[i].Amount, a)
			sum += a
		}
		assert.Equal(t, p.Estimate.Direct, sum, name)
	}
}

func TestNoCellOfATableIsAFormula(t *testing.T) {
	for cell, want := range map[string]string{"=1+1": "'=1+1", "+1": "'+1", "-2": "'-2", "@SUM(A1)": "'@SUM(A1)", "\tx": "'\tx", "\r=x": "'\r=x", "": "", "a=1": "a=1", "été": "été"} {
		assert.Equal(t, want, harmlessCell(cell))
	}
	p := paperOf(t, nasty())
	for _, write := range []func(*bytes.Buffer) error{func(b *bytes.Buffer) error { return Maker{}.Lines(b, p) }, func(b *bytes.Buffer) error { return Maker{}.OrderSheet(b, p) }} {
		for _, r := range readBack(t, made(t, write)) {
			for _, cell := range r {
				assert.False(t, cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])), cell)
			}
		}
	}
}

func TestTheOrdersTableIsTheOrderList(t *testing.T) {
	p := paperOf(t, waterfront())
	rows := readBack(t, made(t, func(b *bytes.Buffer) error { return Maker{}.OrderSheet(b, p) }))
	text := unspaced(flat(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) }), "-layout")))
	l := languageOf("en", p.Estimate.Currency)
	sum := money.Amount(0)
	for _, r := range rows[1:] {
		a, err := p.Estimate.Currency.Parse(r[7])
		require.NoError(t, err)
		sum += a
		assert.Contains(t, text, unspaced(r[2]+r[3]+r[4]+r[5]))
	}
	assert.Contains(t, text, unspaced("In all "+l.amount(p.Estimate.Currency, sum)))
}
