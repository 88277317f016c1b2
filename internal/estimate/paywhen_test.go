package estimate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// payments are what falls due, in their order, for a commission of pieces that
// begin with what is said, delivered as is said.
func payments(t *testing.T, s *shop.Shop, delivery string, starts ...string) (names []string) {
	t.Helper()
	c := estimate.Commission{Inputs: map[string]string{"delivery.by": delivery}}
	for _, start := range starts {
		c.Pieces = append(c.Pieces, estimate.Piece{Name: "Otter", Inputs: map[string]string{"form.start": start}})
	}
	e, err := estimate.Of(c, s)
	require.NoError(t, err)
	for _, p := range e.Payments {
		names = append(names, p.When)
	}
	return names
}

func TestPaymentsFollowWhatIsByOthers(t *testing.T) {
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	ours, installed := "nothing: we make the original", "delivered and installed"
	for _, want := range []struct {
		delivery string
		starts   []string
		second   string
		last     string
	}{
		{installed, []string{ours}, "Original approved", "Installed and accepted"},
		{installed, []string{"their original"}, "Original received", "Installed and accepted"},
		{"delivered", []string{"their mould"}, "Mould received", "Delivered and accepted"},
		{"by others", []string{"their wax"}, "Waxes received", "Finished and accepted"},
		{"by others", []string{"their mould", "their wax"}, "Artist's work received", "Finished and accepted"},
		{"by others", []string{"their mould", ours}, "Original approved", "Finished and accepted"},
	} {
		got := payments(t, s, want.delivery, want.starts...)
		assert.Equal(t, []string{"Agreement signed", want.second, "Bronze cast", want.last}, got)
	}
}

func TestAShopsOwnPlanFollowsTooAndATypedOneStands(t *testing.T) {
	plan := "Deposit 20; Clay approved 20; Mould made 20; Patinated 20; Delivered 20"
	s, err := shop.Read(shop.Start().With("price.payments", plan, "2026-03-14"))
	require.NoError(t, err)
	assert.Equal(t, []string{"Deposit", "Mould received", "Mould received", "Patinated", "Finished and accepted"}, payments(t, s, "by others", "their mould"))
	c := estimate.Commission{
		Inputs: map[string]string{"price.payments": plan},
		Pieces: []estimate.Piece{{Name: "Otter", Inputs: map[string]string{"form.start": "their mould"}}},
	}
	e, err := estimate.Of(c, s)
	require.NoError(t, err)
	assert.Equal(t, "Clay approved", e.Payments[1].When, "as it was typed for this commission")
}
