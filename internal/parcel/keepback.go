package parcel

import (
	"fmt"
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// kept gathers what is kept back from a quote on its way out.
type kept struct {
	price   []string // labels of the price's inputs
	rates   []string // labels of rates and sums
	unknown []string // inputs that no stage knows, and so nobody can say what they tell
	remarks int      // inputs that are remarks
	lines   int      // own lines without their rates
	dropped int      // own lines of the price
}

// keepBack gives the commission without what tells of the sender's prices: the
// inputs of the price stage, and every rate and sum. The second result says what
// was left out, a sentence each.
func keepBack(c estimate.Commission) (estimate.Commission, []string) {
	c = c.Clone()
	var k kept
	c.Inputs = k.pass(c.Inputs, false)
	for i := range c.Pieces {
		c.Pieces[i].Inputs = k.pass(c.Pieces[i].Inputs, true)
	}
	for i := range c.Options {
		o := &c.Options[i]
		o.Inputs = k.pass(o.Inputs, false)
		for j := range o.Pieces {
			o.Pieces[j] = k.pass(o.Pieces[j], true)
		}
	}
	c.Extras = k.ownLines(c.Extras)
	return c, k.sentences()
}

// withoutPaths gives the commission without the names of scan files on the disk
// it comes from, and how many there were. They say how the sender's folders are
// called, and on another computer would name a file of its own.
func withoutPaths(c estimate.Commission) (estimate.Commission, int) {
	n := 0
	c = c.Clone()
	for i := range c.Pieces {
		if c.Pieces[i].ScanFile != nil {
			c.Pieces[i].ScanFile = nil
			n++
		}
	}
	return c, n
}

// pass lets through what no stage calls a price. What no stage knows stays back.
func (k *kept) pass(inputs map[string]string, perPiece bool) map[string]string {
	if inputs == nil {
		return nil
	}
	out := map[string]string{}
	for path, text := range inputs {
		f, known := estimate.FieldByPath(path, perPiece)
		switch {
		case strings.HasPrefix(path, "//"):
			k.remarks++
		case !known:
			k.unknown = append(k.unknown, path)
		case f.Stage == "price":
			k.price = append(k.price, f.Label)
		case f.Sort == field.Rate || f.Sort == field.Money:
			k.rates = append(k.rates, f.Label)
		default:
			out[path] = text
		}
	}
	return out
}

// ownLines are the sender's own lines without their rates. A rate of one means
// that the quantity is a sum of money.
func (k *kept) ownLines(lines []estimate.Extra) []estimate.Extra {
	var out []estimate.Extra
	for _, x := range lines {
		if x.Stage == "price" {
			k.dropped++
			continue
		}
		if one, err := money.ParseDecimal(x.Rate); err == nil && one.Equal(money.Round(1, 0)) {
			x.Quantity = ""
		}
		if x.Rate != "" {
			k.lines++
		}
		x.Rate = ""
		out = append(out, x)
	}
	return out
}

func (k *kept) sentences() []string {
	var out []string
	add := func(n int, format string, args ...any) {
		if n > 0 {
			out = append(out, fmt.Sprintf(format, args...))
		}
	}
	add(len(k.price), "Inputs of the price: %s.", some(k.price))
	add(len(k.rates), "Rates and sums: %s.", some(k.rates))
	add(k.lines, "The rates of own lines (%d): give your own.", k.lines)
	add(k.dropped, "Own lines of the price (%d).", k.dropped)
	add(len(k.unknown), "Inputs that no stage knows: %s.", some(k.unknown))
	add(k.remarks, "Remarks beside inputs (%d).", k.remarks)
	return out
}

// some lists words, each once and in order, so many as a sentence takes.
func some(words []string) string {
	const most = 30
	slices.Sort(words)
	words = slices.Compact(words)
	for i, w := range words {
		if r := []rune(w); len(r) > 60 {
			words[i] = string(r[:60]) + "…"
		}
	}
	if more := len(words) - most; more > 0 {
		return fmt.Sprintf("%s and %d more", strings.Join(words[:most], "; "), more)
	}
	return strings.Join(words, "; ")
}

// priceless is the shop book without its settings of the price. Settings that
// this version does not know stay back too.
func priceless(b shop.Book) (shop.Book, []string) {
	b = b.Clone()
	group := map[string]string{}
	for _, d := range shop.Settings() {
		group[d.Key] = d.Group
	}
	gone := 0
	for key := range b.Settings {
		if group[key] == "Price" || group[key] == "" {
			delete(b.Settings, key)
			gone++
		}
	}
	if gone == 0 {
		return b, nil
	}
	return b, []string{"The shop book's own overhead, contingency, margin and what else makes its price; the program's starting values stand in their place."}
}
