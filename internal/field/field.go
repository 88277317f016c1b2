// Package field says what an input is: its label, what sort of thing belongs in
// it, its bounds and choices; and reads typed text into a value. The shop book
// and the stages of the estimate describe all their inputs with it, so that the
// window, the files and the checks walk one table.
package field

import (
	"strings"
	"unicode"

	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Sort is what kind of thing belongs in a field.
type Sort int

// The sorts of field.
const (
	Quantity Sort = iota // a number of Def.Kind
	Money                // an amount of the commission's currency
	Rate                 // money per Def.Per: "6.20 / kg", "58/h", "12" for each
	Choice               // one of Def.Choices
	Text                 // any words
)

// Def describes a field.
type Def struct {
	Key     string // "wall"; with its stage, "form.wall", it names the input in files
	Label   string // "Wall thickness"
	Hint    string // a few words beside the field
	Sort    Sort
	Kind    quantity.Kind // of a Quantity
	Per     quantity.Unit // of a Rate: what it is per, in the metric system
	Choices []string      // of a Choice; where they come from the shop book, empty here
	Bounds  Bounds
	Bare    [2]string // the unit of a bare number, by system, where it is not the kind's: "mm" of a wall
}

// Bounds limit a Quantity, in canonical units, or a Money or Rate.
type Bounds struct {
	Min, Max float64 // Max 0 means none
	Over     bool    // Min itself is too little
	Under    bool    // Max itself is too much
}

// The bounds that most fields have.
var (
	AboveZero = Bounds{Over: true, Max: 1e9}
	ZeroUp    = Bounds{Max: 1e9}
	AtLeast1  = Bounds{Min: 1, Max: 1e6}
	PartOf1   = Bounds{Max: 1, Under: true} // a share below 100 %
	YieldOf1  = Bounds{Over: true, Max: 1}  // a share above 0, up to 100 %
	AnyShare  = Bounds{Max: 10}             // a surcharge up to 1,000 %
	Unbounded = Bounds{Min: -1e12, Max: 1e12}
)

// Value is what a text was read as.
type Value struct {
	Num  float64       // a Quantity, in canonical units
	Dec  money.Decimal // a Money (whole units), a Rate, or a share, exactly as typed
	Unit quantity.Unit // of a Rate: the unit it was stated per
	Text string        // a Choice or Text
}

// Context is what reading depends on besides the text.
type Context struct {
	System   quantity.System
	Currency money.Currency
}

// Read reads text for the field, checks its bounds, and gives a fault.Fault with
// the field's label when it will not do.
func (d Def) Read(text string, ctx Context) (Value, error) {
	v, err := d.parse(strings.TrimSpace(text), ctx)
	if err == nil {
		err = d.check(text, v, ctx.System)
	}
	if err != nil {
		f := fault.All(err)[0]
		f.Field = d.Label
		return Value{}, f
	}
	return v, nil
}

func (d Def) parse(text string, ctx Context) (Value, error) {
	switch d.Sort {
	case Text:
		return Value{Text: text}, nil
	case Choice:
		return d.choose(text)
	case Money:
		a, err := ctx.Currency.Parse(text)
		dec := ctx.Currency.Decimal(a)
		return Value{Num: dec.InexactFloat64(), Dec: dec}, err
	case Rate:
		return d.parseRate(text, ctx)
	}
	n, err := quantity.Parse(d.Kind, d.withUnit(text, ctx.System), ctx.System)
	return Value{Num: n, Dec: exactShare(d.Kind, n)}, err
}

// withUnit adds the field's own unit to a bare number: a wall of "5" is five
// millimetres, a distance of "120" is kilometres.
func (d Def) withUnit(text string, sys quantity.System) string {
	if bare := d.Bare[sys]; bare != "" && !strings.ContainsFunc(text, func(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("\"'′″’”%°#", r) }) {
		return text + " " + bare
	}
	return text
}

// exactShare keeps shares as decimals of six places, so that 9.975 % is exact.
func exactShare(k quantity.Kind, n float64) money.Decimal {
	if k != quantity.KindShare {
		return money.Decimal{}
	}
	return money.Round(n, 8)
}

func (d Def) choose(text string) (Value, error) {
	if len(d.Choices) == 0 {
		return Value{Text: text}, nil
	}
	for _, c := range d.Choices {
		if strings.EqualFold(c, text) {
			return Value{Text: c}, nil
		}
	}
	return Value{}, fault.Fault{Value: text, Problem: "is not one of the choices", Remedy: "choose " + either(d.Choices)}
}

func either(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// parseRate reads "6.20 / kg", "2.81/lb", "58 per hour", "140".
func (d Def) parseRate(text string, ctx Context) (Value, error) {
	amount, per, stated := strings.Cut(strings.ReplaceAll(text, " per ", "/"), "/")
	dec, err := ctx.Currency.ParseRate(amount)
	if err != nil {
		f := fault.Fault{Value: text, Problem: "is not a rate", Remedy: "give money for each unit, such as " + d.example()}
		if ctx.Currency.Foreign(amount) {
			f.Problem = "is in another currency than " + ctx.Currency.Code
		}
		return Value{}, f
	}
	v := Value{Num: dec.InexactFloat64(), Dec: dec, Unit: d.Per}
	if !stated {
		return v, nil
	}
	u, ok := quantity.ParseUnit(per)
	if !ok || !u.SameSort(d.Per) {
		return Value{}, fault.Fault{Value: text, Problem: "is stated for something else", Remedy: "give money for each unit, such as " + d.example()}
	}
	v.Unit = u
	return v, nil
}

func (d Def) example() string {
	if d.Per.Symbol == "" {
		return "12.50"
	}
	return "12.50 / " + d.Per.Symbol
}

func (d Def) check(text string, v Value, sys quantity.System) error {
	if d.Sort == Text || d.Sort == Choice {
		return nil
	}
	b := d.Bounds
	low := v.Num < b.Min || b.Over && v.Num == b.Min
	high := b.Max != 0 && (v.Num > b.Max || b.Under && v.Num == b.Max)
	if !low && !high {
		return nil
	}
	f := fault.Fault{Value: strings.TrimSpace(text)}
	switch {
	case low && v.Num < 0 && b.Min == 0:
		f.Problem = "is below zero"
	case low:
		f.Problem = "is too little"
	default:
		f.Problem = "is too much"
	}
	f.Remedy = "give " + b.words(d, sys, high)
	return f
}

// words says what the bounds allow. An upper bound that only keeps numbers
// within reckoning is told of where it was passed.
func (b Bounds) words(d Def, sys quantity.System, passed bool) string {
	show := func(v float64) string {
		if d.Sort == Money || d.Sort == Rate {
			return quantity.Number(v, 2)
		}
		return quantity.Print(d.Kind, v, sys)
	}
	from, to := "from "+show(b.Min), "up to "+show(b.Max)
	if b.Over {
		from = "more than " + show(b.Min)
	}
	if b.Under {
		to = "less than " + show(b.Max)
	}
	if b.Max == 0 || b.Max >= 1e6 && !passed {
		return strings.TrimPrefix(from, "from ") + map[bool]string{true: "", false: " or more"}[b.Over]
	}
	return from + ", " + to
}

// Print gives a value back as text that Read understands, in sys.
func (d Def) Print(v Value, sys quantity.System) string {
	switch d.Sort {
	case Text, Choice:
		return v.Text
	case Money:
		return v.Dec.String()
	case Rate:
		if v.Unit.Symbol == "" {
			return v.Dec.String()
		}
		return v.Dec.String() + " / " + v.Unit.Symbol
	}
	return quantity.Print(d.Kind, v.Num, sys)
}
