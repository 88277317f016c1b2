package shop

import (
	"fmt"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// PackTable is the table of how materials are sold.
const PackTable = "packs"

// Pack is how one material is sold.
type Pack struct {
	// Item is the estimate's line that it serves, "Glass mat", or what the names
	// of several lines begin with: "Rubber" serves "Rubber, urethane, brush-on".
	Item     string
	Product  string // as the supplier calls it; lines of one product are ordered together
	Supplier string
	Holds    money.Decimal // of Unit
	Unit     quantity.Unit // None for things counted
	Price    field.Value   // of a pack; 0 is by the rate of the line
	Source   string
}

// HoldsText is what the pack holds, as it is printed: "20 kg".
func (p Pack) HoldsText() string { return strings.TrimSpace(p.Holds.String() + " " + p.Unit.Symbol) }

// PackOf finds how the material of a line is sold: by its whole name, else by the
// longest beginning of it.
func (s *Shop) PackOf(item string) (found Pack, ok bool) {
	for _, p := range s.Packs {
		serves := p.Item == item || strings.HasPrefix(item, p.Item+", ")
		if serves && (!ok || len(p.Item) > len(found.Item)) {
			found, ok = p, true
		}
	}
	return found, ok
}

// packTable defines the table of packs.
func packTable() Table {
	row := func(item, product, holds string) []string {
		return []string{item, product, "", holds, "0", field.NoSource}
	}
	return Table{
		PackTable, "Packs and suppliers", "How materials are sold, for the order list, which rounds up to whole packs. A price of 0 is reckoned by the rate of the line.",
		[]Column{
			text("item", "Line of the estimate", false),
			text("product", "Ordered as", true),
			text("supplier", "Supplier", true),
			text("holds", "A pack holds", false),
			price("price", "Price of a pack", quantity.None),
			text("source", "Source", true),
		},
		[][]string{
			row("Rubber", "", "20 kg"),
			row("Glass mat", "", "30 kg"),
			row("Resin", "", "25 kg"),
			row("Catalyst", "", "1 kg"),
			row("Wax lost after reclaim", "Casting wax", "25 kg"),
			row("Gating wax lost after reclaim", "Casting wax", "25 kg"),
			row("Cups, vents and pins", "", "10"),
			row("Binder, colloidal silica", "", "25 kg"),
			row("Flour, fused silica", "", "25 kg"),
			row("Stucco, fine", "", "25 kg"),
			row("Stucco, medium", "", "25 kg"),
			row("Stucco, coarse", "", "25 kg"),
			row("Bronze used up", "", "10 kg"),
			row("Welding rod", "", "5 kg"),
			row("Anchors", "", "4"),
		},
	}
}

// readHolds reads what a pack holds: a number with a unit, or a bare number of
// things.
func readHolds(text string) (n money.Decimal, u quantity.Unit, ok bool) {
	text = strings.TrimSpace(text)
	end := strings.IndexFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	number, unit := text, ""
	if end >= 0 {
		number, unit = text[:end], strings.TrimSpace(text[end:])
	}
	n, err := money.ParseDecimal(number)
	u, ok = quantity.None, true
	if unit != "" {
		u, ok = quantity.ParseUnit(unit)
	}
	const most = 1e6
	return n, u, err == nil && ok && n.Sign() > 0 && n.InexactFloat64() <= most
}

// packFault says that what a pack holds cannot be read.
func packFault(row int, text string) fault.Fault {
	return fault.Fault{
		Where: fmt.Sprintf("book.%s.%d.holds", PackTable, row), Field: fmt.Sprintf("Shop book, Packs and suppliers, row %d, A pack holds", row+1), Value: text,
		Problem: "is not an amount", Remedy: "give a number with its unit, such as 20 kg, 50 lb or 2 m², or a bare number of things",
	}
}
