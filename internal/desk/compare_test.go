package desk_test

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// sinceA issues the demo, changes it, and tells what the draft has otherwise.
func sinceA(t *testing.T, change func(d *desk.Desk, s *desk.Sheet)) desk.Comparison {
	t.Helper()
	ctx := context.Background()
	d, s := issuingDesk(t)
	_, err := s.Issue(ctx)
	require.NoError(t, err)
	same, err := s.Compare(ctx, "A", "")
	require.NoError(t, err)
	assert.True(t, same.Alike(), "as it was issued")
	change(d, s)
	s.Reckon()
	c, err := s.Compare(ctx, "A", "")
	require.NoError(t, err)
	assert.False(t, c.Alike())
	return c
}

// typed is sinceA for what a commission has.
func typed(t *testing.T, change func(c *estimate.Commission)) []desk.Changed {
	t.Helper()
	return sinceA(t, func(_ *desk.Desk, s *desk.Sheet) { s.Change("", change) }).Inputs
}

func TestAnOptionAddedToAnIssuedQuoteIsTold(t *testing.T) {
	got := typed(t, func(c *estimate.Commission) {
		c.Options = []estimate.Option{{Name: "Large", Height: "3 m", Recommended: true, Why: "It is seen from the bridge."}}
	})
	assert.Equal(t, []desk.Changed{
		{Where: "option added", After: "Large, 3 m, recommended"},
		{Where: "option Large, why it is recommended", After: "It is seen from the bridge."},
	}, got)
}

func TestWhatAnOptionHasOtherwiseIsTold(t *testing.T) {
	ctx := context.Background()
	_, s := issuingDesk(t)
	s.Change("", func(c *estimate.Commission) {
		c.Options = []estimate.Option{{Name: "Small", Height: "1 m"}, {Name: "Large", Height: "3 m"}}
	})
	_, err := s.Issue(ctx)
	require.NoError(t, err)
	s.RemoveOption(0)
	s.SetOptionHeight(0, "3.2 m")
	s.SetOption(0, 0, "form.wall", "8 mm")
	s.Recommend(0, true)
	c, err := s.Compare(ctx, "A", "")
	require.NoError(t, err)
	assert.Equal(t, []desk.Changed{
		{Where: "option Large, height", Before: "3 m", After: "3.2 m"},
		{Where: "option Large, recommended", Before: "no", After: "yes"},
		{Where: "option Large, Weir keeper, Wall thickness", After: "8 mm"},
		{Where: "option removed", Before: "Small, 1 m"},
	}, c.Inputs)
}

func TestPiecesAddedRemovedAndMovedAreTold(t *testing.T) {
	added := typed(t, func(c *estimate.Commission) {
		c.Pieces = append([]estimate.Piece{{Name: "Heron", Inputs: map[string]string{"form.area": "1 m²"}}}, c.Pieces...)
	})
	assert.Equal(t, []desk.Changed{
		{Where: "piece added", After: "Heron"},
		{Where: "Heron: form.area", After: "1 m²"},
	}, added, "those behind it are no others")
	renamed := typed(t, func(c *estimate.Commission) { c.Pieces[0].Name = "Lock keeper" })
	assert.Equal(t, []desk.Changed{{Where: "piece", Before: "Weir keeper", After: "Lock keeper"}}, renamed)
}

func TestRangesSolidsScansAndOwnLinesAreTold(t *testing.T) {
	got := typed(t, func(c *estimate.Commission) {
		c.Units = "inch-pound"
		c.Ranges = map[string]string{"hours.wax": "0.9 / 1 / 2", "metal": "1"}
		c.Pieces[0].Ranges = map[string]string{"wall": "0.9 / 1 / 1.2"}
		c.Pieces[0].Solids = []map[string]string{{"shape": "sphere", "diameter": "0.4 m", "count": "2"}}
		c.Pieces[0].ScanFile = &estimate.ScanFile{Path: "keeper.stl"}
		c.Extras = append(c.Extras, estimate.Extra{Stage: "wax", Item: "Dental wax", Quantity: "2", Unit: "kg", Rate: "30"})
	})
	for _, want := range []desk.Changed{
		{Where: "how sure: hours, Wax", After: "0.9 / 1 / 2"},
		{Where: "how sure: price of ingot", After: "1"},
		{Where: "Weir keeper, how sure: wall as cast", After: "0.9 / 1 / 1.2"},
		{Where: "Weir keeper, solid added", After: "2 × sphere 0.4 m"},
		{Where: "Weir keeper, scan", After: "keeper.stl, yet to be opened"},
		{Where: "own line added", After: "Dental wax, 2 kg × 30, in Wax"},
	} {
		assert.Contains(t, got, want)
	}
	assert.Equal(t, [2]string{"units", "inch-pound"}, [2]string{got[0].Where, got[0].After})
}

func TestAScanIsToldByItsFileHeightAndSurface(t *testing.T) {
	scan := &mesh.Scan{File: "keeper.stl", Area: 1.9}
	got := typed(t, func(c *estimate.Commission) { c.Pieces[0].Scan = scan })
	assert.Contains(t, got, desk.Changed{Where: "Weir keeper, scan", After: "keeper.stl, 0.000 m high, 1.900 m²"})
}

func TestASentenceChangedIsTold(t *testing.T) {
	c := sinceA(t, func(_ *desk.Desk, s *desk.Sheet) {
		s.SetWords("care", "Wax it in May.")
		s.Change("", func(c *estimate.Commission) { c.Place = "the upper lock" })
	})
	assert.Contains(t, c.Words, desk.Changed{Where: desk.OfWords + "care", After: "Wax it in May."})
	assert.Equal(t, "place", c.Words[0].Where)
	assert.Equal(t, "the upper lock", c.Words[0].After)
	assert.Empty(t, c.Lines, "and no line of the price")
}

func TestPicturesAddedAndCaptionsChangedAreTold(t *testing.T) {
	ctx := context.Background()
	d, s := issuingDesk(t)
	p, err := d.TakePicture(ctx, "keeper.png", []byte("a picture"))
	require.NoError(t, err)
	p.Caption = "The keeper"
	s.AddPicture(p)
	_, err = s.Issue(ctx)
	require.NoError(t, err)
	s.SetCaption(0, "The keeper at dusk")
	s.AddPicture(quote.Shown{Picture: p.Picture, Caption: "From the bridge"})
	c, err := s.Compare(ctx, "A", "")
	require.NoError(t, err)
	assert.Equal(t, []desk.Changed{
		{Where: "caption of a picture", Before: "The keeper", After: "The keeper at dusk"},
		{Where: "picture added", After: "From the bridge"},
	}, c.Words)
	s.RemovePicture(1)
	s.RemovePicture(0)
	c, err = s.Compare(ctx, "A", "")
	require.NoError(t, err)
	assert.Equal(t, []desk.Changed{{Where: "picture removed", Before: "The keeper"}}, c.Words)
}

// booked is sinceA for what the shop book has.
func booked(t *testing.T, change func(b shop.Book) shop.Book) []desk.Changed {
	t.Helper()
	return sinceA(t, func(d *desk.Desk, _ *desk.Sheet) {
		require.NoError(t, d.SetBook(context.Background(), change(d.Book())))
	}).Book
}

func TestAnAlloysPriceChangedIsTold(t *testing.T) {
	got := booked(t, func(b shop.Book) shop.Book {
		b = b.Clone()
		b.Tables[shop.AlloyTable][0]["price"] = "37.80 / kg"
		return b
	})
	assert.Equal(t, []desk.Changed{{Where: "Alloys, C87300 silicon bronze 95-1-4, Ingot", Before: "17.80 / kg", After: "37.80 / kg"}}, got)
}

func TestRowsOfTheBookAddedAndRemovedAreTold(t *testing.T) {
	got := booked(t, func(b shop.Book) shop.Book {
		rows := b.Clone().Tables[shop.StoneTable]
		rows = append(slices.Delete(rows, 1, 2), shop.Row{"name": "Slate", "density": "2800 kg/m³", "price": "3 / kg"})
		return b.WithTable(shop.StoneTable, rows, "2026-03-15")
	})
	assert.Equal(t, []desk.Changed{
		{Where: "Stones and bases, row added", After: "Slate, 2800 kg/m³, 3 / kg"},
		{Where: "Stones and bases, row removed", Before: "Basalt, 3011 kg/m³, 2.90 / kg, published density table"},
	}, got)
}

func TestTheShopsNameAndUnitsAreTold(t *testing.T) {
	got := booked(t, func(b shop.Book) shop.Book {
		return b.WithHouse("Lockside Foundry", b.Address, b.Currency, "inch-pound", "2026-03-15")
	})
	assert.Contains(t, got, desk.Changed{Where: "units of the shop book", Before: "metric", After: "inch-pound"})
	assert.Equal(t, "Lockside Foundry", got[0].After)
}
