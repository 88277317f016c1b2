package kit

import (
	"fyne.io/fyne/v2"

	"meltwright/internal/ui/look"
)

// The quote that the tests show: an invented figure for an invented town.

func demoRows() []RailRow {
	row := func(id, name, detail, amount string, share float64) RailRow {
		return RailRow{ID: id, Name: name, Detail: detail, Amount: amount, Share: share, Colour: look.StageColour(id)}
	}
	rows := []RailRow{
		row("form", "Form", "2.79 m² · 2.15 m tall", "", 0),
		row("original", "Original in clay", "184 h", "18,420", 18420),
		row("mould", "Mould", "62 h", "6,310", 6310),
		row("wax", "Wax", "74 h", "5,940", 5940),
		row("gating", "Gating", "18 h", "1,390", 1390),
		row("shell", "Shell", "32 h", "2,918", 2918),
		row("pour", "Pour", "21 h", "4,120", 4120),
		row("metalwork", "Metalwork", "148 h", "11,840", 11840),
		row("patina", "Patina", "26 h", "2,260", 2260),
		row("base", "Base", "granite, 1.1 t", "7,900", 7900),
		row("delivery", "Delivery and install", "3 days", "6,450", 6450),
		row("price", "Fees, margin and tax", "", "60,852", 60852),
	}
	for i := range rows {
		rows[i].Share /= 128400
	}
	return rows
}

func demoLines() []Line {
	return []Line{
		{ID: "slurry", Name: "Slurry, fine and backup", Quantity: "96.4", Unit: "kg", Rate: "6.20", Per: "/ kg", Cost: "597.68"},
		{ID: "stucco", Name: "Stucco, fused silica", Quantity: "148.0", Unit: "kg", Rate: "2.35", Per: "/ kg", Cost: "347.80"},
		{ID: "dipping", Name: "Dipping and sanding", Quantity: "31.5", Unit: "h", Rate: "58.00", Per: "/ h", Cost: "1,827.00"},
		{ID: "recasts", Name: "Expected recasts, 5 %", Quantity: "0.6", Unit: "sections", Rate: "243.17", Per: "each", Cost: "145.90"},
		{ID: "sum", Kind: LineSubtotal, Name: "Shell", Quantity: "32", Unit: "h", Cost: "2,918.38"},
	}
}

func demoFields() *FieldGrid {
	echo := func(unit string) func(string) (string, string) {
		return func(s string) (string, string) {
			if s == "minus" {
				return "", "is not a number of " + unit + "; give one such as 6"
			}
			return "= " + s + " " + unit, ""
		}
	}
	typed := NewField(FieldSpec{ID: "dry", Label: "Drying between coats", Unit: "h", Default: "6", Origin: "shop book, 14 March", Understand: echo("hours")})
	typed.SetText("8")
	wrong := NewField(FieldSpec{ID: "slurry", Label: "Slurry per coat", Unit: "kg/m²", Default: "1.30", Origin: "shop book", Understand: echo("kg/m²")})
	wrong.SetText("minus")
	return NewFieldGrid(
		NewField(FieldSpec{ID: "fine", Label: "Fine coats", Unit: "coats", Default: "2", Origin: "shop book, 14 March", Hint: "the first two carry the surface"}),
		NewField(FieldSpec{ID: "medium", Label: "Medium coats", Unit: "coats", Default: "2", Origin: "shop book, 14 March"}),
		NewField(FieldSpec{ID: "coarse", Label: "Coarse coats", Unit: "coats", Default: "8", Origin: "proposed for sections of 41 kg"}),
		typed, wrong,
		NewField(FieldSpec{ID: "stucco", Kind: ChoiceField, Label: "Stucco", Default: "Fused silica", Origin: "shop book", Options: []string{"Fused silica", "Zircon", "Alumino-silicate"}}),
		NewField(FieldSpec{ID: "seal", Kind: CheckField, Label: "Seal coat", Default: Yes, Origin: "shop book", Caption: "dip once more at the end"}),
	)
}

func demoReckoning() Reckoning {
	return Reckoning{
		Name: "Stucco, fused silica", Formula: "6.17 m² × 12 coats × 2.00 kg/m² = 148.0 kg",
		Inputs: []ReckoningInput{
			{"shelled area", "6.17 m²", "outside 2.79 + inside 2.66 + gates 0.72"},
			{"coats", "12", "2 fine, 2 medium, 8 coarse"},
			{"use per coat", "2.00 kg/m²", "shop book, 14 March"},
		},
	}
}

func demoPrice() Price {
	return Price{
		Caption: "Price before tax", Amount: "$128,400",
		Range: &PriceRange{Least: 100000, Most: 160000, Low: 112900, High: 147200, At: 128400, LowText: "8 in 10: $112,900", HighText: "$147,200"},
		Facts: []Fact{
			{"Finished bronze", "168 kg"},
			{"Metal poured", "231 kg"},
			{"Sections", "11"},
			{"Heats · pour days", "7 · 2"},
			{"Foundry hours", "612 h"},
			{"Ready to install", "27 weeks"},
		},
		Cautions: []Caution{
			{CautionNote, "43 in 100 chance that at least one section must be recast: two weeks are held for it."},
			{CautionWarn, "Over 45 kg: lift with rated gear. Anchors and frame need a licensed engineer."},
		},
	}
}

// quoteScreen is a whole screen made of the parts.
type quoteScreen struct {
	bar     *TopBar
	rail    *Rail
	grid    *FieldGrid
	table   *LineTable
	working *Working
	price   *PricePanel
	middle  *FocusScroll
	sheet   *Sheet
}

func newQuoteScreen() *quoteScreen {
	q := &quoteScreen{bar: NewTopBar(), rail: NewRail(), grid: demoFields(), table: NewLineTable(), working: NewWorking(), price: NewPricePanel()}
	q.bar.SetTitle("The Ferry Pilot", "Town of Alder Reach · 1¼ life size · draft, revision B")
	q.bar.SetBack(func() {})
	q.bar.SetActions(Action{Text: "Scale options"}, Action{Text: "Cost sheet"}, Action{Text: "Make proposal", Primary: true})
	q.rail.SetRows(demoRows())
	q.rail.Select("shell")
	q.table.SetLines(demoLines())
	q.table.Select("stucco")
	q.working.Set(demoReckoning())
	q.price.Set(demoPrice())
	q.middle = NewPage(NewHeading("Shell", "Slurry and stucco over the gated waxes, inside and out"), q.grid, q.table, q.working)
	q.sheet = NewSheet(q.bar, q.rail, q.middle, q.price)
	return q
}

var _ fyne.Widget = (*Sheet)(nil)
