package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
)

func TestEveryFaultIsSeenOnSomePage(t *testing.T) {
	d, _ := sitDown(t)
	s := d.PutNew()
	s.AddPiece()
	s.AddExtra("wax")
	s.SetExtra(0, "rate", func(x *estimate.Extra) { x.Rate = "much" })
	s.Set(1, "form.known_by", "solids")
	s.Set(0, "shell.fine", "-1")
	s.Set(estimate.Whole, "price.contingency", "lots")
	s.Change("", func(c *estimate.Commission) { c.Currency = "XQQ" })

	type page struct {
		stage string
		piece int
	}
	seen := map[page]bool{}
	for _, f := range s.Faults() {
		stage, piece := s.At(f.Where)
		seen[page{stage, piece}] = true
	}
	for _, want := range []page{
		{"form", 1}, {"shell", 0}, {"wax", estimate.Whole}, {"price", estimate.Whole}, {desk.Head, estimate.Whole},
	} {
		assert.True(t, seen[want], "%v in %v", want, s.Faults())
	}
	require.Len(t, seen, 5)
}

func TestAFileNameHoldsWhatEverySystemAllows(t *testing.T) {
	d, _ := sitDown(t)
	s := d.PutNew()
	s.Change("", func(c *estimate.Commission) { c.Title = `Heron / "Grey": 1½?` + "\x00\n" })
	assert.Equal(t, "Heron - -Grey-- 1½ proposal.pdf", s.FileName("proposal", "pdf"))
	s.Change("", func(c *estimate.Commission) { c.Title = "..." })
	assert.Equal(t, "cost sheet.xlsx", s.FileName("cost sheet", "xlsx"))
	q, err := d.Keep(t.Context(), s.Copy())
	require.NoError(t, err)
	s.Kept(q)
	assert.Equal(t, "2026-007A proposal.pdf", s.FileName("proposal", "pdf"))
}
