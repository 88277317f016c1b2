package desk_test

import (
	"bytes"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// shopTitles writes of the shop's papers, too, which they are.
type shopTitles struct{ titles }

func (shopTitles) OrderList(w io.Writer, p desk.Paper) error  { return title(w, "order list", p) }
func (shopTitles) OrderSheet(w io.Writer, p desk.Paper) error { return title(w, "order sheet", p) }
func (shopTitles) Traveller(w io.Writer, p desk.Paper) error  { return title(w, "traveller", p) }
func (shopTitles) Lines(w io.Writer, p desk.Paper) error      { return title(w, "lines", p) }

// sheetWith is a sheet of a work called Heron, whose papers are given.
func sheetWith(t *testing.T, papers desk.Papers) *desk.Sheet {
	t.Helper()
	d, err := desk.New(t.Context(), &shelf{book: shop.Start()}, papers, time.Now)
	require.NoError(t, err)
	s := d.PutNew()
	s.Change("", func(c *estimate.Commission) { c.Title = "Heron" })
	return s
}

// shopWriters are the papers of the shop by their names.
func shopWriters(s *desk.Sheet) map[string]func(io.Writer) error {
	return map[string]func(io.Writer) error{"order list": s.WriteOrderList, "order sheet": s.WriteOrderSheet, "traveller": s.WriteTraveller, "lines": s.WriteLines}
}

func TestThePapersOfTheShopAreOfTheSheet(t *testing.T) {
	for name, write := range shopWriters(sheetWith(t, shopTitles{})) {
		var b bytes.Buffer
		require.NoError(t, write(&b))
		assert.Equal(t, name+" of Heron", b.String())
	}
}

func TestWithoutPapersForTheShopThatIsSaid(t *testing.T) {
	for _, papers := range []desk.Papers{titles{}, nil} {
		for _, write := range shopWriters(sheetWith(t, papers)) {
			assert.ErrorContains(t, write(io.Discard), "without papers for the shop")
		}
	}
}

func TestASheetWithFaultsHasNoPapersForTheShop(t *testing.T) {
	s := sheetWith(t, shopTitles{})
	s.Set(0, "form.wall", "no")
	for _, write := range shopWriters(s) {
		assert.ErrorContains(t, write(io.Discard), "Wall thickness")
	}
}

func TestEveryPaperOfTheShopIsReadyAtTheMomentItIsAskedFor(t *testing.T) {
	d, err := desk.New(t.Context(), &shelf{book: shop.Start()}, titles{}, time.Now)
	require.NoError(t, err)
	s := d.PutNew()
	_, err = s.Ready(desk.Traveller)
	assert.ErrorContains(t, err, "without papers for the shop")

	d, err = desk.New(t.Context(), &shelf{book: shop.Start()}, shopTitles{}, time.Now)
	require.NoError(t, err)
	s = d.PutNew()
	for which, says := range map[desk.Print]string{desk.OrderList: "order list", desk.OrderSheet: "order sheet", desk.Traveller: "traveller", desk.Lines: "lines"} {
		put, err := s.Ready(which)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, put(&b))
		assert.Equal(t, says+" of ", b.String())
	}
}
