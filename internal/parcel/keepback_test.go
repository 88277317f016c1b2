package parcel

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// typedEverywhere has every input there is, each with a text of its own.
func typedEverywhere() (c estimate.Commission, secret, open []string) {
	n := 0
	fill := func(perPiece bool) map[string]string {
		in := map[string]string{}
		for _, st := range estimate.Stages {
			for _, f := range st.Fields(perPiece) {
				n++
				in[f.Path()] = fmt.Sprintf("typed-%d;", n)
				if st.ID == "price" || f.Sort == field.Rate || f.Sort == field.Money {
					secret = append(secret, in[f.Path()])
				} else {
					open = append(open, in[f.Path()])
				}
			}
		}
		return in
	}
	c.Inputs = fill(false)
	c.Pieces = []estimate.Piece{{Name: "Heron", Inputs: fill(true)}}
	c.Options = []estimate.Option{{Inputs: fill(false), Pieces: []map[string]string{fill(true)}}}
	return c, secret, open
}

// everythingIn is every byte that can be read in a parcel.
func everythingIn(t *testing.T, data []byte) string {
	var b strings.Builder
	for _, e := range entriesOf(t, data) {
		b.WriteString(e.name + "\n")
		b.Write(e.data)
	}
	return b.String()
}

// hides holds that none of the secrets can be read in a parcel.
func hides(t *testing.T, data []byte, secrets ...string) {
	t.Helper()
	text := everythingIn(t, data)
	for _, s := range secrets {
		assert.False(t, strings.Contains(text, s), s)
	}
}

func TestWithoutMarginsNoPriceRateOrSumIsInTheParcel(t *testing.T) {
	c, secret, open := typedEverywhere()
	assert.Greater(t, len(secret), 100)
	assert.Greater(t, len(open), 100)
	text := everythingIn(t, packed(t, Contents{Commission: c}, Options{}))
	hides(t, packed(t, Contents{Commission: c}, Options{}), secret...)
	for _, s := range open {
		assert.True(t, strings.Contains(text, s), s)
	}
	text = everythingIn(t, packed(t, Contents{Commission: c}, Options{WithMargins: true}))
	for _, s := range append(secret, open...) {
		assert.True(t, strings.Contains(text, s), s)
	}
}

func TestWhatWasKeptBackIsSaid(t *testing.T) {
	c := ferryman(t)
	c.Commission.Extras = append(c.Commission.Extras, estimate.Extra{Stage: "price", Item: "Kickback", Quantity: "1", Rate: "500"})
	c.Commission.Inputs["form.hieght"] = "2 m"
	got := unpacked(t, packed(t, c, Options{}))
	assert.Equal(t, []string{
		"Inputs of the price: Artist's fee; Margin or markup.",
		"Rates and sums: Permits; Silicon bronze rod.",
		"The rates of own lines (1): give your own.",
		"Own lines of the price (1).",
		"Inputs that no stage knows: form.hieght.",
		"Remarks beside inputs (1).",
		"The shop book: rates, materials and capacities are your own.",
	}, got.LeftOut)
	hides(t, packed(t, c, Options{}), "27 %", "431.19", "39.90", "182.50", "8123", "never below", "Kickback", "61.75", "4 Tern Street")
	assert.Equal(t, "80 km", got.Commission.Inputs["delivery.distance"])
	assert.Equal(t, estimate.Extra{Stage: "metalwork", Item: "Name plate", Quantity: "2", Unit: "each"}, got.Commission.Extras[0])
}

func TestASumTypedAsAQuantityStaysBack(t *testing.T) {
	c := Contents{Commission: estimate.Commission{Extras: []estimate.Extra{{Stage: "base", Item: "Crane", Quantity: "1840", Unit: "$", Rate: "1.00"}}}}
	hides(t, packed(t, c, Options{}), "1840")
}

func TestAShopBookSentWithoutMarginsHasThoseOfTheStart(t *testing.T) {
	c := ferryman(t)
	b := c.Book.With("price.overhead", "41 %", "2026-02-03").With("price.secret", "of a later version", "")
	c.Book = &b
	data := packed(t, c, Options{WithBook: true})
	hides(t, data, "41 %", `"price.`)
	got := unpacked(t, data)
	assert.Equal(t, "61.75 / h", got.Book.Settings["labour.wax"].Text)
	assert.Equal(t, shop.Start().Settings["price.overhead"], got.Book.Settings["price.overhead"])
	assert.Contains(t, strings.Join(got.LeftOut, "\n"), "The shop book's own overhead")
	assert.Equal(t, "41 %", unpacked(t, packed(t, c, everything)).Book.Settings["price.overhead"].Text)
	assert.Equal(t, "41 %", c.Book.Settings["price.overhead"].Text, "the sender's own stays as it is")
}

func TestALongListOfWhatWasKeptBackIsShort(t *testing.T) {
	in := map[string]string{strings.Repeat("x", 500): "1"}
	for i := range 900 {
		in[fmt.Sprintf("no.stage%d", i)] = "1"
	}
	_, left := keepBack(estimate.Commission{Inputs: in})
	assert.Len(t, left, 1)
	assert.Less(t, len(left[0]), 600)
	assert.Contains(t, left[0], "and 871 more")
}
