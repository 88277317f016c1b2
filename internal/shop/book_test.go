package shop_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

func start(t testing.TB) *shop.Shop {
	t.Helper()
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	return s
}

func TestEverySettingOfTheStartingBookReadsAndSaysWhereItIsFrom(t *testing.T) {
	s, seen := start(t), map[string]bool{}
	for i, d := range shop.Settings() {
		k := shop.Key(i)
		assert.Equal(t, d.Key, k.Def().Key)
		assert.False(t, seen[d.Key], "%s is there twice", d.Key)
		seen[d.Key] = true
		assert.NotEmpty(t, d.Group, d.Key)
		assert.NotEmpty(t, d.Label, d.Key)
		assert.NotEmpty(t, d.Source, d.Key)
		o := s.Origin(k)
		assert.Equal(t, field.ShopBook, o.From, d.Key)
		assert.Equal(t, d.Source, o.Source, d.Key)
		assert.Empty(t, o.Dated, "nobody has set %s yet", d.Key)
		v, err := d.Read(d.Start, field.Context{System: s.System, Currency: s.Currency})
		require.NoError(t, err, d.Key)
		assert.Equal(t, v, s.Value(k), d.Key)
		assert.InDelta(t, v.Num, s.Num(k), 0, d.Key)
	}
	assert.Equal(t, "CAD", s.Currency.Code)
	assert.Equal(t, quantity.Metric, s.System)
}

// What a group's settings are called must tell them apart.
func TestLabelsTellSettingsOfAGroupApart(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range shop.Settings() {
		assert.False(t, seen[d.Group+d.Label], d.Label)
		seen[d.Group+d.Label] = true
	}
}

// The starting texts are typed as a person would: in either system they are the
// same quantity.
func TestStartingValuesDoNotHangOnTheSystemOfUnits(t *testing.T) {
	metric := start(t)
	b := shop.Start()
	pounds, err := shop.Read(b.WithHouse(b.Shop, b.Address, b.Currency, "inch-pound", ""))
	require.NoError(t, err)
	for i, d := range shop.Settings() {
		assert.Equal(t, metric.Value(shop.Key(i)), pounds.Value(shop.Key(i)), d.Key)
	}
	assert.Equal(t, metric.Alloys, pounds.Alloys)
	assert.Equal(t, metric.Cranes, pounds.Cranes)
}

func TestEveryTableOfTheStartingBookReads(t *testing.T) {
	s := start(t)
	got := map[string]int{
		shop.AlloyTable: len(s.Alloys), shop.CrucibleTable: len(s.Crucibles), shop.RubberTable: len(s.Rubbers), shop.StoneTable: len(s.Stones),
		shop.AnimalTable: len(s.Animals), shop.CraneTable: len(s.Cranes), shop.TaxTable: len(s.Taxes), shop.PackTable: len(s.Packs),
	}
	for _, table := range shop.Tables() {
		assert.Len(t, table.Start, got[table.Key], table.Key)
		assert.NotEmpty(t, table.Start, table.Key)
		assert.NotEmpty(t, table.About, table.Key)
		for i, row := range table.Start {
			require.Len(t, row, len(table.Columns), "%s, row %d", table.Key, i+1)
			for c, column := range table.Columns {
				if column.Key == "source" {
					assert.NotEmpty(t, row[c], "%s, row %d has no source", table.Key, i+1)
				}
			}
		}
	}
}

// CDA-format data sheet 2006, Conex data sheet and CDA, in part from memory.
func TestAlloysAreAsHeavyAsTheirDataSheetsSay(t *testing.T) {
	want := map[string]struct{ density, shrinkage float64 }{
		"C87300": {8.36, 1.0 / 48}, "C87200": {8.36, 1.0 / 48}, "C87600": {8.30, 1.0 / 48}, "C83600": {8.80, 11.0 / 64 / 12},
		"C90300": {8.80, 0.0156}, "C90500": {8.72, 0.0156}, "C92200": {8.64, 0.0156},
	}
	alloys := start(t).Alloys
	assert.Len(t, alloys, len(want))
	for _, a := range alloys {
		w := want[strings.Fields(a.Name)[0]]
		assert.InDelta(t, w.density, float64(a.Density)/1000, 0.005, a.Name)
		assert.InDelta(t, w.shrinkage, a.Shrinkage, 0.0001, a.Name)
		assert.Greater(t, a.Liquidus, a.Solidus, a.Name)
		assert.InDelta(t, 950, float64(a.Liquidus), 80, "%s, °C", a.Name)
		assert.Equal(t, strings.Contains(a.Name, "leaded") || strings.Contains(a.Name, "Navy M"), a.Caution != "", a.Name)
	}
}

// MIFCO's crucible table: no. 16 holds 48 lb of bronze, three times its number.
func TestABilgeNumberIsThreeTimesItsPoundsInBronze(t *testing.T) {
	for _, c := range start(t).Crucibles {
		var n float64
		require.NoError(t, json.Unmarshal([]byte(c.Name[strings.LastIndexByte(c.Name, ' ')+1:]), &n))
		assert.InDelta(t, 3*n, float64(c.Holds)/0.45359237, 1e-9, c.Name)
	}
}

// Canada.ca, GST/HST tables: NS 14 from 1 April 2025; UK from memory.
func TestTaxesAreThoseOfTheirPlaces(t *testing.T) {
	want := map[string]string{
		"Alberta GST": "0.05", "British Columbia GST": "0.05", "British Columbia PST": "0.07", "New Brunswick HST": "0.15",
		"Newfoundland and Labrador HST": "0.15", "Nova Scotia HST": "0.14", "Ontario HST": "0.13", "Prince Edward Island HST": "0.15",
		"Québec GST": "0.05", "Québec QST": "0.09975", "United Kingdom VAT": "0.2",
	}
	got := map[string]string{}
	for _, x := range start(t).Taxes {
		got[x.Place+" "+x.Name] = x.Rate.String()
		if x.Place == "Nova Scotia" {
			assert.Equal(t, "2025-04-01", x.Dated)
		}
	}
	assert.Equal(t, want, got)
}

func TestABookIsTheSameAfterAFile(t *testing.T) {
	b := shop.Start().With(shop.Wall.Def().Key, "5 mm", "2026-03-14").WithHouse("Tidewrack", "1 Quay", "USD", "inch-pound", "2026-03-15")
	data, err := b.Encode()
	require.NoError(t, err)
	again, err := shop.Decode(data)
	require.NoError(t, err)
	assert.Equal(t, b, again)
	_, err = shop.Decode([]byte(`{"settings": 3}`))
	assert.Error(t, err)
}

func TestALetterheadIsKeptAndAnOlderBookHasNone(t *testing.T) {
	l := shop.Letterhead{Phone: "902 555 0100", Email: "quay@example.org", Web: "example.org", Registration: "BN 12345 6789"}
	b := shop.Start().WithLetterhead(l, "2026-03-14")
	data, err := b.Encode()
	require.NoError(t, err)
	assert.Contains(t, string(data), `"phone": "902 555 0100"`, "among the book's own fields")
	again, err := shop.Decode(data)
	require.NoError(t, err)
	assert.Equal(t, b, again)
	assert.Equal(t, l, again.With("form.wall", "5 mm", "").Letterhead)
	old, err := shop.Decode([]byte(`{"shop":"Old","currency":"CAD"}`))
	require.NoError(t, err)
	assert.Zero(t, old.Letterhead)
	plain, err := shop.Start().Encode()
	require.NoError(t, err)
	assert.NotContains(t, string(plain), "phone", "a book without one is written as it always was")
}

func TestAnOlderBookIsFilledWithStartingValuesAndKeepsItsOwn(t *testing.T) {
	b, err := shop.Decode([]byte(`{"shop":"Old","currency":"GBP","units":"metric","settings":{"form.wall":{"text":"6 mm","source":"set by the shop","dated":"2020-01-01"}},"tables":{"stones":[]}}`))
	require.NoError(t, err)
	s, err := shop.Read(b)
	require.NoError(t, err)
	assert.InDelta(t, 0.006, s.Num(shop.Wall), 1e-12)
	assert.Equal(t, "2020-01-01", s.Origin(shop.Wall).Dated)
	assert.InDelta(t, 0.95, s.Num(shop.Yield), 1e-12)
	assert.Empty(t, s.Stones, "a table that the shop emptied stays empty")
	assert.Len(t, s.Alloys, 7)
	empty, err := shop.Decode([]byte(`{"currency":"CAD"}`))
	require.NoError(t, err)
	assert.Equal(t, shop.Start().Settings, empty.Settings)
	assert.Equal(t, shop.Start().Tables, empty.Tables)
}

// A book that nothing was filled into still reads: every setting has a start.
func TestAnEmptyBookReadsAsTheStartingBook(t *testing.T) {
	s, err := shop.Read(shop.Book{Currency: "CAD"})
	require.NoError(t, err)
	assert.InDelta(t, start(t).Num(shop.WeeklyPour), s.Num(shop.WeeklyPour), 0)
	assert.Equal(t, shop.WeeklyPour.Def().Source, s.Origin(shop.WeeklyPour).Source)
}

func TestChangingACopyLeavesTheBookAsItWas(t *testing.T) {
	before, b := shop.Start(), shop.Start()
	changed := b.With("form.wall", "9 mm", "2026-01-01")
	assert.Equal(t, before, b)
	assert.Equal(t, shop.Setting{Text: "9 mm", Source: "set by the shop", Dated: "2026-01-01"}, changed.Settings["form.wall"])
	assert.Equal(t, "2026-01-01", changed.Dated)

	rows := []shop.Row{{"name": "Slate", "density": "2700 kg/m³", "price": "3 / kg"}}
	stone := b.WithTable(shop.StoneTable, rows, "2026-01-02")
	rows[0]["name"] = "Chalk"
	assert.Equal(t, "Slate", stone.Tables[shop.StoneTable][0]["name"], "the rows are the book's own")
	assert.Equal(t, before, b)

	twin := stone.Clone()
	twin.Tables[shop.StoneTable][0]["name"] = "Marl"
	twin.Settings["form.wall"] = shop.Setting{Text: "1 mm"}
	assert.Equal(t, "Slate", stone.Tables[shop.StoneTable][0]["name"])
	assert.Equal(t, before.Settings, stone.Settings)

	assert.Equal(t, "8 mm", shop.Book{}.With("form.wall", "8 mm", "").Settings["form.wall"].Text, "of a book with nothing in it")

	_ = b.WithHouse("Other", "Elsewhere", "EUR", "metric", "2026-01-03")
	assert.Equal(t, before, b)
}

func TestEveryFaultOfABookIsToldAtOnceWithItsRow(t *testing.T) {
	b := shop.Start().With("form.wall", "thin", "").With("pour.yield", "0 %", "").With("labour.wax", "52 / kg", "").WithHouse("", "", "XXQ", "metric", "")
	b.Tables[shop.AlloyTable][2]["density"] = "heavy"
	b.Tables[shop.TaxTable][9]["rate"] = "900 %"
	b.Tables[shop.StoneTable][1]["name"] = ""
	s, err := shop.Read(b)
	require.Error(t, err)
	faults := fault.All(err)
	assert.Len(t, faults, 7)
	for where, want := range map[string]string{
		"book.currency":         "Shop book, currency “XXQ” is no currency code",
		"book.form.wall":        "Shop book, Wall thickness “thin” is not a length",
		"book.pour.yield":       "Shop book, Good castings “0 %” is too little",
		"book.labour.wax":       "Shop book, Wax worker “52 / kg” is stated for something else",
		"book.alloys.2.density": "Shop book, Alloys, row 3, Density “heavy” is not a density",
		"book.taxes.9.rate":     "Shop book, Taxes, row 10, Rate “900 %” is too much",
		"book.stones.1.name":    "Shop book, Stones and bases, row 2, Stone is empty",
	} {
		f, ok := faults.At(where)
		if assert.True(t, ok, "%s: %v", where, err) {
			assert.Contains(t, f.Error(), want+"; ")
		}
	}
	assert.InDelta(t, start(t).Num(shop.Wall), s.Num(shop.Wall), 0, "the starting value stands in")
	assert.Len(t, s.Alloys, 6, "the row that cannot be read is left out")
	assert.Len(t, s.Taxes, 10)
	assert.Equal(t, "CAD", s.Currency.Code)
}

// Nothing that can be typed into a book makes reading it fail in any other way.
func TestWhateverIsTypedIntoABookReadingTellsOfIt(t *testing.T) {
	texts := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "0", "-1", "1e99", "NaN", "1/0", "12 / kg", "5 mm", "100 %"}))
	rapid.Check(t, func(rt *rapid.T) {
		b := shop.Start()
		for range 6 {
			d := rapid.SampledFrom(shop.Settings()).Draw(rt, "setting")
			b.Settings[d.Key] = shop.Setting{Text: texts.Draw(rt, "text")}
			table := rapid.SampledFrom(shop.Tables()).Draw(rt, "table")
			rows := b.Tables[table.Key]
			rows[rapid.IntRange(0, len(rows)-1).Draw(rt, "row")][rapid.SampledFrom(table.Columns).Draw(rt, "column").Key] = texts.Draw(rt, "cell")
		}
		s, err := shop.Read(b)
		for _, f := range fault.All(err) {
			if f.Where == "" || f.Field == "" || f.Problem == "" || f.Remedy == "" {
				rt.Fatalf("%+v", f)
			}
		}
		for i, d := range shop.Settings() {
			if d.Sort == field.Quantity && !(s.Num(shop.Key(i)) >= d.Bounds.Min) {
				rt.Fatalf("%s is %v", d.Key, s.Num(shop.Key(i)))
			}
		}
	})
}
