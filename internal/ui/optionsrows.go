package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/look"
)

// optionCell is what the table says of one thing in one option.
type optionCell struct {
	lines []string
	tone  fyne.ThemeColorName // "" is that of ink
	bold  bool
}

// optionRow is one thing that the table says of every option.
type optionRow struct {
	label string
	words bool // and not numbers
	cells []optionCell
}

// optionRows is the whole table: the first row is its head.
type optionTexts struct {
	heads       []optionCell
	recommended []bool
	rows        []optionRow
}

// optionRows says everything of every option.
func optionRows(list []desk.Option, w desk.Weighing) optionTexts {
	rule := w.Rule()
	var s optionTexts
	for i, o := range list {
		s.heads = append(s.heads, headCell(o, i))
		s.recommended = append(s.recommended, o.Recommended)
	}
	for _, r := range saidOfOptions {
		row, some := optionRow{label: r.label, words: r.words}, false
		if r.even != nil {
			r.say = r.inStep(list, rule)
		}
		for _, o := range list {
			c := optionCell{lines: []string{"—"}, tone: look.Muted}
			if len(o.Faults) == 0 || r.always && o.Height > 0 {
				c = r.say(o, rule)
			}
			some = some || len(c.lines) > 0 && c.lines[0] != "—"
			row.cells = append(row.cells, c)
		}
		if some {
			s.rows = append(s.rows, row)
		}
	}
	return s
}

// headCell is the name of an option and what it is among the others.
func headCell(o desk.Option, i int) optionCell {
	name := o.Name
	if name == "" {
		name = fmt.Sprintf("Option %d", i+1)
	}
	c := optionCell{lines: []string{name}, bold: true}
	switch {
	case len(o.Faults) > 0:
		c.lines, c.tone = append(c.lines, "cannot be made so"), look.Bad
	case o.IsQuote:
		c.lines = append(c.lines, "the quote")
	}
	return c
}

// optionSaid is one row of the table.
type optionSaid struct {
	label  string
	always bool // said of options with faults too
	words  bool // and not numbers
	say    func(o desk.Option, rule estimate.Rule) optionCell
	// even is a number, 0 for none, that is printed with the same decimals of the
	// same unit in all options; it takes the place of say.
	even func(o desk.Option) float64
	as   func(most float64, rule estimate.Rule) (unit quantity.Unit, places int)
}

// inStep says the numbers of a row with decimals in step.
func (r optionSaid) inStep(list []desk.Option, rule estimate.Rule) func(desk.Option, estimate.Rule) optionCell {
	most := 0.0
	for _, o := range list {
		if len(o.Faults) == 0 || r.always {
			most = max(most, r.even(o))
		}
	}
	unit, places := r.as(most, rule)
	return func(o desk.Option, _ estimate.Rule) optionCell {
		v := r.even(o)
		if v == 0 {
			return plainCell("—")
		}
		return plainCell(strings.TrimSpace(fixed(unit.In(v), places) + " " + unit.Symbol))
	}
}

// fixed prints a number with so many decimals.
func fixed(v float64, places int) string {
	s := quantity.Number(v, places)
	whole, part, _ := strings.Cut(s, ".")
	if places == 0 {
		return whole
	}
	return whole + "." + part + strings.Repeat("0", places-len(part))
}

// inKilograms prints masses as finely as the largest of them has four digits.
func inKilograms(most float64, rule estimate.Rule) (quantity.Unit, int) {
	u := quantity.KindMass.Unit(rule.System)
	places := 3
	for v := u.In(most); v >= 10 && places > 0; v /= 10 {
		places--
	}
	return u, places
}

func plainCell(lines ...string) optionCell { return optionCell{lines: lines} }

// saidOfOptions are the rows of the table, from top to bottom. A row that has
// nothing to say of any option is left out.
var saidOfOptions = []optionSaid{
	{label: "Height", always: true, say: heightCell},
	{label: "Scale", always: true, say: func(o desk.Option, r estimate.Rule) optionCell {
		if o.Scale == 0 {
			return plainCell("—")
		}
		return plainCell("× " + fixed(o.Scale, 2))
	}},
	{label: "Price before tax", say: func(o desk.Option, r estimate.Rule) optionCell {
		return optionCell{lines: []string{headline(o.Estimate)}, bold: true}
	}},
	{label: "With tax", say: func(o desk.Option, _ estimate.Rule) optionCell {
		if len(o.Estimate.Taxes) == 0 {
			return plainCell("—")
		}
		return plainCell(o.Estimate.Currency.Print(o.Estimate.Total, locale))
	}},
	{label: "8 in 10 within", say: rangeCell},
	{label: "Against the budget", say: againstBudget},
	{label: "Finished bronze", as: inKilograms, even: func(o desk.Option) float64 { finished, _, _ := optionWeights(o.Estimate); return finished }},
	{label: "Metal poured", as: inKilograms, even: func(o desk.Option) float64 { _, poured, _ := optionWeights(o.Estimate); return poured }},
	{label: "Sections", say: func(o desk.Option, _ estimate.Rule) optionCell {
		return plainCell(quantity.Number(float64(o.Estimate.Sections), 0))
	}},
	{label: "Heats", say: func(o desk.Option, _ estimate.Rule) optionCell {
		return plainCell(quantity.Number(float64(len(o.Estimate.Heats)), 0))
	}},
	{label: "Pour days", say: func(o desk.Option, _ estimate.Rule) optionCell {
		return plainCell(quantity.Number(float64(o.Estimate.PourDays), 0))
	}},
	{
		label: "From start to ready", even: func(o desk.Option) float64 { return o.Weeks },
		as: func(float64, estimate.Rule) (quantity.Unit, int) { return quantity.Unit{Size: 1, Symbol: "weeks"}, 1 },
	},
	{label: "Heaviest lift", words: true, say: liftCell},
	{label: "Crate", words: true, say: crateCell},
	{label: "Base", as: inKilograms, even: func(o desk.Option) float64 { _, _, base := optionWeights(o.Estimate); return base }},
}

// heightCell says the height: to the millimetre, or in feet and inches.
func heightCell(o desk.Option, r estimate.Rule) optionCell {
	if r.System == quantity.InchPound {
		return plainCell(quantity.Print(quantity.KindLength, float64(o.Height), r.System))
	}
	return plainCell(fixed(float64(o.Height), 3) + " m")
}

// rangeCell says between which prices eight in ten come to lie.
func rangeCell(o desk.Option, r estimate.Rule) optionCell {
	if o.Range == nil {
		return optionCell{lines: []string{"being drawn …"}, tone: look.Muted}
	}
	if o.Range.Trials == 0 {
		return plainCell("—") // it could not be drawn
	}
	p := o.Range.Price
	return plainCell(r.Currency.Whole(p.P10, locale) + " – " + wholePlain(r.Currency, p.P90))
}

// againstBudget says how much is left, or lacking, in words and in colour.
func againstBudget(o desk.Option, r estimate.Rule) optionCell {
	switch {
	case !o.Budgeted:
		return plainCell("—")
	case o.Left < 0:
		return optionCell{lines: []string{r.Currency.Whole(-o.Left, locale) + " over"}, tone: look.Bad}
	}
	return optionCell{lines: []string{r.Currency.Whole(o.Left, locale) + " left"}, tone: look.Good}
}

// liftCell says what lifts the heaviest part, by its weight and the reach.
func liftCell(o desk.Option, r estimate.Rule) optionCell {
	l := o.Estimate.Lift
	mass := quantity.Print(quantity.KindMass, l.Kg, r.System)
	switch l.By {
	case "":
		return plainCell("—")
	case "hands":
		return plainCell("by hand", mass+", "+liftedBy(l.People))
	case "hoist":
		return plainCell("hoist", mass)
	}
	return plainCell(l.By, mass+" at "+quantity.Print(quantity.KindLength, l.Reach, r.System))
}

func liftedBy(n int) string {
	if n == 1 {
		return "1 person"
	}
	return quantity.Number(float64(n), 0) + " people"
}

// crateCell says how large the largest crate is, and how many more there are.
func crateCell(o desk.Option, r estimate.Rule) optionCell {
	var largest estimate.PieceResult
	n := 0
	for _, p := range o.Estimate.Pieces {
		n += p.Casts
		if p.CrateHeight > largest.CrateHeight {
			largest = p
		}
	}
	if largest.CrateHeight == 0 {
		return plainCell("—")
	}
	c := plainCell(crateSize(largest, r.System))
	if n > 1 {
		c.lines = append(c.lines, "and "+quantity.Number(float64(n-1), 0)+" more")
	}
	return c
}

// crateSize is the sides of a crate in one unit: metres, or inches.
func crateSize(p estimate.PieceResult, sys quantity.System) string {
	unit, places := quantity.Metre, 2
	if sys == quantity.InchPound {
		unit, places = quantity.Inch, 0
	}
	var sides []string
	for _, l := range []quantity.Length{p.CrateWidth, p.CrateDepth, p.CrateHeight} {
		sides = append(sides, quantity.Number(unit.In(float64(l)), places))
	}
	return strings.Join(sides, " × ") + " " + unit.Symbol
}

// optionWeights are those of all casts: bronze, metal poured, and what they stand on.
func optionWeights(e *estimate.Estimate) (finished, poured, base float64) {
	for _, p := range e.Pieces {
		n := float64(p.Casts)
		finished, poured, base = finished+n*float64(p.Finished), poured+n*float64(p.Poured), base+n*float64(p.Plinth)
	}
	return finished, poured, base
}
