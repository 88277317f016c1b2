package estimate

import (
	"math"
	"strings"

	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Class is what a line is for: overhead may fall on labour alone.
type Class int

// The classes of line.
const (
	Material Class = iota
	Labour
	Bought // bought-in work
	Recast // castings expected to fail, and their way back through a stage
)

// String names the class.
func (c Class) String() string {
	return [...]string{"material", "labour", "bought in", "recasts"}[c]
}

// Line is one line of the estimate. Amount is Quantity × Rate as printed,
// rounded half away from zero to the smallest unit of the currency.
type Line struct {
	Stage    string
	Piece    int    // Whole for a line of the whole commission
	Item     string // "Stucco, coarse"
	Quantity money.Decimal
	Places   int32  // decimals that the quantity is printed with
	Unit     string // of the quantity: "kg", "sections"
	Rate     money.Decimal
	Per      string // what the rate is for: "kg", "section"
	Amount   money.Amount
	Class    Class
	Hours    float64 // as printed, of a Labour line
	Once     bool    // paid once, however many casts
	RateFrom field.Origin
	node     int32
	exact    float64        // the quantity before it was rounded
	unit     *quantity.Unit // what exact is in
	book     *field.Value   // the rate before its unit and its money were changed; nil where they were not
	traded   bool           // its money was
}

// printedIn is the unit that a line is printed in, where its formula works in u,
// and the decimals of its quantity.
func (r *run) printedIn(u *quantity.Unit) (to quantity.Unit, places int32) {
	to, places = *u, 2
	switch u {
	case cubicMetre:
		places = 3
	case kilometre, kilowattHour:
		places = 1
	}
	if r.system == quantity.InchPound {
		if k, ok := inchPound[u.Symbol]; ok {
			to = k
		}
	}
	return to, places
}

// priceRate gives a rate per metric unit u in the unit its line is printed in:
// as it was typed where the units agree, else converted to four decimals.
func (r *run) priceRate(rate field.Value, u *quantity.Unit) (money.Decimal, quantity.Unit) {
	to, _ := r.printedIn(u)
	dec := rate.Dec
	if rate.Unit.Size != 0 && rate.Unit.Symbol != to.Symbol {
		dec = money.Round(dec.InexactFloat64()*to.Size/rate.Unit.Size, 4)
	}
	if r.exchange.Sign() != 0 {
		dec = dec.Mul(r.exchange).Round(4)
	}
	return dec, to
}

var oneDecimal = money.Round(1, 0)

// QuantityText is the quantity as printed, without its unit: "148.00".
func (l Line) QuantityText() string { return l.Quantity.StringFixed(l.Places) }

// RateText is the rate as printed, with two decimals or as many as it has.
func (l Line) RateText(digits int32) string {
	text := l.Rate.StringFixed(max(digits, -l.Rate.Exponent()))
	for spare := -l.Rate.Exponent() - digits; spare > 0 && strings.HasSuffix(text, "0"); spare-- {
		text = text[:len(text)-1]
	}
	return strings.TrimSuffix(text, ".")
}

// item is a line about to be written.
type item struct {
	piece *piece
	name  string
	class Class
	q     expr           // quantity in metric unit
	unit  *quantity.Unit // the metric unit of q; nil for things counted
	rate  field.Value
	from  field.Origin
	word  string // the unit in words, for things counted: "section", "heat"
}

// write puts a line into the estimate. A line of nothing is left out.
func (r *run) write(st *Stage, it item) {
	if !(it.q.v > 0) {
		return
	}
	if it.unit == nil {
		it.unit = none
	}
	if it.from.From == field.Typed && r.exchange.Sign() != 0 {
		// What is typed for a quote is in the quote's money; the shop book's is
		// exchanged.
		r.writeExact(st, it)
		return
	}
	if r.vary != nil {
		r.line = it
		r.tally(st, &r.line)
		return
	}
	rate, unit := r.priceRate(it.rate, it.unit)
	_, places := r.printedIn(it.unit)
	q := money.Round(it.q.v*it.unit.Size/unit.Size, places)
	per := unit.Symbol
	if it.unit.Symbol == "" {
		per, unit.Symbol = it.word, it.word
		if q.IsInteger() {
			q, places = q.Truncate(0), 0
		}
		if it.word != "" && !q.Equal(oneDecimal) {
			unit.Symbol += "s"
		}
	}
	l := Line{
		Stage: st.ID, Piece: Whole, Item: it.name, Quantity: q, Places: places, Unit: unit.Symbol, Rate: rate, Per: per,
		Amount: r.currency.Times(q, rate), Class: it.class, Once: st.Once, RateFrom: it.from, node: it.q.at,
	}
	if it.piece != nil {
		l.Piece = it.piece.index
	}
	if it.class == Labour {
		l.Hours = it.q.v
		if !r.bare {
			l.Hours = q.InexactFloat64()
		}
	}
	l.exact, l.unit = it.q.v, it.unit
	if !r.bare && !rate.Equal(it.rate.Dec) {
		was := it.rate
		l.book, l.traded = &was, r.exchange.Sign() != 0
	}
	r.est.Lines = append(r.est.Lines, l)
}

// result is what the working of the line comes to: in the formula's unit and,
// where the line is printed in another, in that.
func (l Line) result() string {
	printed := l.QuantityText()
	if l.Unit != "" {
		printed += " " + l.Unit
	}
	if l.unit == nil || l.unit.Symbol == "" || l.unit.Symbol == l.Unit {
		return printed
	}
	return quantity.Significant(l.exact, 6) + " " + l.unit.Symbol + " = " + printed
}

// labour writes a line of hours, with the difficulty of the piece, the number of
// casts and what repeating saves.
func (r *run) labour(st *Stage, p *piece, name string, hours expr, rate *Field) {
	if p != nil {
		if !p.in.same(difficultyField, 1) {
			hours = r.mul(hours, r.input(&p.in, difficultyField, none))
		}
		hours = r.perCast(st, p, hours)
		if !st.Once && p.casts > 1 && p.repeat < 1 {
			hours = r.mul(hours, r.fact("hours of a cast in this run, of the first's", p.repeat, none, field.Origin{From: field.Proposed, Source: "curve of repeats"}))
		}
	}
	r.write(st, item{piece: p, name: name, class: Labour, q: hours, unit: hour, rate: r.whole.value(rate), from: r.whole.origin(rate)})
}

// material writes a line of something bought by weight, area or length.
func (r *run) material(st *Stage, p *piece, name string, q expr, u *quantity.Unit, rate *Field) {
	if p != nil {
		q = r.perCast(st, p, q)
	}
	r.write(st, item{piece: p, name: name, q: q, unit: u, rate: r.whole.value(rate), from: r.whole.origin(rate)})
}

// counted writes a line of things: sections, anchors, heats.
func (r *run) counted(st *Stage, p *piece, name, word string, class Class, q expr, rate *Field) {
	if p != nil {
		q = r.perCast(st, p, q)
	}
	r.write(st, item{piece: p, name: name, class: class, q: q, rate: r.whole.value(rate), from: r.whole.origin(rate), word: word})
}

// bought writes a line of a sum the user typed, in the commission's own money.
func (r *run) bought(st *Stage, f *Field, name string) {
	v := r.whole.value(f)
	if v.Num > 0 {
		r.writeExact(st, item{name: name, class: Bought, q: r.fact("lump sum", 1, none, r.whole.origin(f)), rate: field.Value{Dec: v.Dec, Num: v.Num, Unit: quantity.None}, from: r.whole.origin(f)})
	}
}

// perCast multiplies by the number of casts in the stages that every cast goes
// through.
func (r *run) perCast(st *Stage, p *piece, q expr) expr {
	if st.Once || p.casts == 1 {
		return q
	}
	return r.mul(q, r.input(&p.in, castsField, none))
}

// same tells whether a field has just that value.
func (in *inputs) same(f *Field, v float64) bool { return in.num(f) == v }

// recast writes what failed castings cost in a stage they go through again: the
// expected number of sections at what this stage costs a section.
func (r *run) recast(st *Stage, p *piece, from int) {
	if !(p.recasts.v > 0) {
		return
	}
	total := money.Amount(0)
	for _, l := range r.est.Lines[from:] {
		if l.Stage == st.ID && l.Piece == p.index {
			total += l.Amount
		}
	}
	each := r.shareOf(total, p.sections.v*float64(p.casts))
	r.writeRecast(st, p, p.recasts, each)
}

// shareOf is total ÷ n, rounded to the currency's smallest unit.
func (r *run) shareOf(total money.Amount, n float64) money.Decimal {
	if k := money.Amount(math.Round(n)); r.vary != nil && total >= 0 && total < money.Most && k > 0 && k < 1e6 {
		return r.currency.Decimal((2*total + k) / (2 * k))
	}
	return r.currency.Decimal(total).DivRound(money.Round(n, 0), r.currency.Digits)
}

func (r *run) writeRecast(st *Stage, p *piece, sections expr, each money.Decimal) {
	r.writeExact(st, item{
		piece: p, name: "Expected recasts", class: Recast, q: sections, word: "section",
		rate: field.Value{Dec: each, Num: each.InexactFloat64()},
		from: field.Origin{From: field.Proposed, Source: "this stage's lines ÷ sections"},
	})
}

// writeExact writes a line whose rate is in the commission's currency already.
func (r *run) writeExact(st *Stage, it item) {
	kept := r.exchange
	r.exchange = money.Decimal{}
	r.write(st, it)
	r.exchange = kept
}
