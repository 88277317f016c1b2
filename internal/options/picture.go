package options

import (
	"math"
	"strings"
	"unicode"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// Silhouette names the drawing of ours that stands for the first piece of an
// option: what its name says it is, else a standing figure, an animal of its
// kind, or a block.
func Silhouette(c estimate.Commission) string {
	if len(c.Pieces) == 0 {
		return "block"
	}
	p := c.Pieces[0]
	kind, hints := "block", thingHints
	switch way := p.Inputs["form.known_by"]; way {
	case "", "human figure":
		kind, hints = "standing", personHints
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(p.Name+" "+p.Inputs["form.animal"]), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if hint, ok := hints[w]; ok {
			return hint
		}
	}
	return kind
}

// The words of a piece's name that suggest a drawing, for people and for all else.
var (
	personHints = map[string]string{
		"striding": "striding", "walking": "striding", "running": "striding", "seated": "seated", "sitting": "seated",
		"bust": "bust", "portrait": "bust", "head": "head",
	}
	thingHints = map[string]string{
		"bust": "bust", "torso": "bust", "portrait": "bust", "head": "head", "horse": "horse", "pony": "horse",
		"dog": "dog", "hound": "dog", "cat": "cat", "bird": "bird", "bench": "bench",
	}
)

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
