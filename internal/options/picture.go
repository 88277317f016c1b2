package options

import (
	"math"
	"strings"
	"unicode"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// Silhouette names the drawing of ours that suits a piece: what its name says it
// is, else a standing figure, an animal of its kind, or a block.
func Silhouette(p estimate.Piece) string {
	kind, hints, animal := "block", thingHints, p.Inputs["form.animal"]
	switch p.Inputs["form.known_by"] {
	case "", "human figure":
		kind, hints, animal = "standing", personHints, ""
	case "animal":
		if f, ok := estimate.FieldByPath("form.animal", true); ok && animal == "" {
			animal = f.Start
		}
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(p.Name+" "+animal), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if hint, ok := hints[w]; ok {
			return hint
		}
	}
	return kind
}

// The words of a piece's name that suggest a drawing, for people and for all else.
var (
	personHints = hinted(map[string]string{
		"striding": "striding walking running walker runner dancer",
		"seated":   "seated sitting reading reader",
		"bust":     "bust portrait",
		"head":     "head mask",
	})
	thingHints = hinted(map[string]string{
		"bust":  "bust torso portrait",
		"head":  "head mask",
		"horse": "horse pony foal mare stallion donkey mule",
		"dog":   "dog hound puppy wolf fox",
		"cat":   "cat kitten",
		"bird":  "bird raven crow rook gull pigeon dove eagle hawk",
		"bench": "bench seat",
	})
)

// hinted turns lists of words for each drawing into the drawing of each word.
func hinted(words map[string]string) map[string]string {
	out := map[string]string{}
	for drawing, list := range words {
		for _, w := range strings.Fields(list) {
			out[w] = drawing
		}
	}
	return out
}

// Ticks are the round amounts from nothing up to most that a price is read off
// against, no more than n besides nothing, in whole units of the currency.
func Ticks(c money.Currency, most money.Amount, n int) []money.Amount {
	top := c.Decimal(max(most, 0)).InexactFloat64()
	step := 1.0
	for k := 0; top/step > float64(max(n, 1)); k++ {
		step = [...]float64{1, 2, 5}[k%3] * math.Pow10(k/3)
	}
	var out []money.Amount
	for v := 0.0; v <= top; v += step {
		out = append(out, c.Of(money.Round(v, 0)))
	}
	return out
}
