package estimate

import (
	"fmt"
	"slices"
	"strings"
	"sync/atomic"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/form"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// job is a commission read: typed inputs, ready to be estimated.
type job struct {
	shop       *shop.Shop
	commission Commission
	system     quantity.System
	currency   money.Currency
	extras     []extra
}

type extra struct {
	stage, item, unit string
	quantity, rate    money.Decimal
}

// Of estimates a commission with a shop book. The error holds every fault found,
// all at once; the estimate is there all the same, with starting values in the
// place of what could not be read, for whoever wants to show what there is. Its
// amounts are good only where the error is nil.
func Of(c Commission, s *shop.Shop) (*Estimate, error) {
	r := read(c, s)
	r.estimate()
	return r.est, r.faults.Err()
}

// read reads every input of the commission.
func read(c Commission, s *shop.Shop) *run {
	r := &run{job: &job{shop: s, commission: c}, est: &Estimate{Lines: make([]Line, 0, 24+48*len(c.Pieces))}}
	r.list = make([]node, 1, 160+256*len(c.Pieces)) // as many as stages need; both grow where own lines are many
	r.origins = make([]field.Origin, 0, 32+16*len(c.Pieces))
	r.readHead(c)
	r.whole = r.readInputs(wholeFields, c.Inputs, func(f *Field) (string, string) { return f.Path(), f.Label })
	for i, pc := range c.Pieces {
		p := &piece{index: i, name: pc.Name, scan: pc.Scan}
		if p.name == "" {
			p.name = fmt.Sprintf("Piece %d", i+1)
		}
		p.in = r.readInputs(pieceFields, pc.Inputs, func(f *Field) (string, string) { return p.where(f), p.fieldName(f, len(c.Pieces)) })
		p.casts = max(1, int(p.in.num(castsField)))
		if p.in.word(wayField) == waySolids {
			p.solids = r.readSolids(p, pc.Solids, len(c.Pieces))
		}
		r.pieces = append(r.pieces, p)
	}
	r.checkTables(nil)
	for _, p := range r.pieces {
		r.checkTables(p)
	}
	if len(c.Pieces) == 0 {
		r.faults = append(r.faults, fault.Fault{Where: "pieces", Field: "Pieces", Problem: "are none", Remedy: "add at least one"})
	}
	r.readExchange()
	r.readExtras(c.Extras)
	return r
}

func (p *piece) where(f *Field) string { return fmt.Sprintf("%d.%s", p.index, f.Path()) }

// fieldName is the field's label, with the piece's name where there are several.
func (p *piece) fieldName(f *Field, pieces int) string {
	if pieces > 1 {
		return p.name + ", " + lowerFirst(f.Label)
	}
	return f.Label
}

func (r *run) readHead(c Commission) {
	r.system, r.currency = r.shop.System, r.shop.Currency
	if c.Units != "" {
		sys, ok := quantity.ParseSystem(c.Units)
		if !ok {
			r.faults = append(r.faults, fault.Fault{Where: "units", Field: "Units", Value: c.Units, Problem: "are unknown", Remedy: "give metric or inch-pound"})
		}
		r.system = sys
	}
	if c.Currency != "" {
		cur, err := money.NewCurrency(c.Currency)
		if err != nil {
			f := fault.All(err)[0]
			f.Where = "currency"
			r.faults = append(r.faults, f)
		} else {
			r.currency = cur
		}
	}
	r.est.Currency, r.est.System = r.currency, r.system
}

// readExchange takes the rate from the shop book's money to the quote's.
func (r *run) readExchange() {
	same := r.currency.Code == r.shop.Currency.Code
	switch {
	case same: // what is typed for other money is kept, and not read
	case r.whole.has(exchangeField):
		r.exchange = money.Round(r.whole.num(exchangeField), 8)
	case strings.TrimSpace(r.commission.Inputs[exchangeField.path]) == "":
		r.faults = append(r.faults, fault.Fault{
			Where: exchangeField.Path(), Field: exchangeField.Label, Problem: "is missing",
			Remedy: fmt.Sprintf("the shop book is in %s and this quote in %s: give what one %s buys", r.shop.Currency.Code, r.currency.Code, r.shop.Currency.Code),
		})
	}
}

// readInputs reads the texts of all fields of one set; those without text have
// their starting values.
func (r *run) readInputs(fields []*Field, texts map[string]string, name func(*Field) (string, string)) inputs {
	in := inputs{fields: fields, values: slices.Clone(r.starts(fields)), given: make([]bool, len(fields)), texts: make([]string, len(fields)), shop: r.shop, foreign: r.currency.Code != r.shop.Currency.Code}
	known := 0
	for _, f := range fields {
		text, ok := texts[f.path]
		if !ok {
			continue
		}
		known++
		if strings.TrimSpace(text) != "" {
			r.readInput(&in, f, text, name)
		}
	}
	if known < len(texts) {
		r.unknown(fields, texts)
	}
	return in
}

func (r *run) readInput(in *inputs, f *Field, text string, name func(*Field) (string, string)) {
	v, err := f.choicesOf(r.shop).Read(text, field.Context{System: r.system, Currency: r.currency})
	if err != nil {
		x := fault.All(err)[0]
		x.Where, x.Field = name(f)
		if f.applies(in) {
			r.faults = append(r.faults, x)
		}
		return
	}
	in.values[f.id], in.given[f.id], in.texts[f.id] = v, true, text
}

// choicesOf gives the field's definition, with its choices from the shop book.
func (f *Field) choicesOf(s *shop.Shop) field.Def {
	d := f.Def
	if f.FromBook != nil {
		d.Choices = f.FromBook(s)
	}
	return d
}

// starting is the starting values of all fields with one shop book.
type starting struct {
	shop         *shop.Shop
	currency     money.Currency
	piece, whole []field.Value
	empty        []*Field // whose table in the book has no row
}

// lastStarting is that of the shop book used last: a keystroke, a trial and an
// option all reckon with the same one.
var lastStarting atomic.Pointer[starting]

// starts gives the values that fields have when nothing is typed.
func (r *run) starts(fields []*Field) []field.Value {
	if fields[0].PerPiece {
		return r.starting().piece
	}
	return r.starting().whole
}

func (r *run) starting() *starting {
	s := lastStarting.Load()
	if s != nil && s.shop == r.shop && s.currency == r.currency {
		return s
	}
	s = &starting{shop: r.shop, currency: r.currency}
	for _, f := range pieceFields {
		s.piece = append(s.piece, r.start(f))
	}
	for _, f := range wholeFields {
		s.whole = append(s.whole, r.start(f))
	}
	for _, f := range slices.Concat(pieceFields, wholeFields) {
		if f.FromBook != nil && len(f.FromBook(r.shop)) == 0 {
			s.empty = append(s.empty, f)
		}
	}
	lastStarting.Store(s)
	return s
}

// checkTables tells of choices for which the shop book has no row at all: of the
// piece, or of the whole commission where p is nil.
func (r *run) checkTables(p *piece) {
	in := &r.whole
	if p != nil {
		in = &p.in
	}
	for _, f := range r.starting().empty {
		if f.PerPiece != (p != nil) {
			continue
		}
		needed := f.applies(in) && (f != crucibleField || !in.has(holdsField)) && (f != rubberField || !mouldStage.byOthers(p))
		if needed {
			r.fault(p, f, "has nothing to choose from", "put a row into that table of the shop book")
		}
	}
}

// start is the value a field has when nothing is typed.
func (r *run) start(f *Field) field.Value {
	switch {
	case f.Book != shop.Unset:
		return r.shop.Value(f.Book)
	case f.FromBook != nil:
		names := f.FromBook(r.shop)
		if slices.Contains(names, f.Start) || len(names) == 0 {
			return field.Value{Text: f.Start}
		}
		return field.Value{Text: names[0]}
	case f.Start == "":
		return field.Value{}
	}
	v, _ := f.Read(f.Start, field.Context{Currency: r.currency})
	return v
}

// unknown tells of inputs that no stage has, but for comments, which begin with
// two strokes.
func (r *run) unknown(fields []*Field, texts map[string]string) {
	var names []string
	for path := range texts {
		if !strings.HasPrefix(path, "//") && !slices.ContainsFunc(fields, func(f *Field) bool { return f.Path() == path }) {
			names = append(names, path)
		}
	}
	slices.Sort(names)
	for _, n := range names {
		r.faults = append(r.faults, fault.Fault{Where: n, Field: "Input", Value: n, Problem: "is no input here", Remedy: instead(n, fields)})
	}
}

// readExtras reads the lines of the user's own.
func (r *run) readExtras(list []Extra) {
	for i, x := range list {
		where := fmt.Sprintf("extras.%d", i)
		q, err1 := money.ParseDecimal(x.Quantity)
		rate, err2 := r.currency.ParseRate(x.Rate)
		before := len(r.faults)
		bad := func(what, value, problem, remedy string) {
			r.faults = append(r.faults, fault.Fault{Where: where, Field: "Own line “" + x.Item + "”, " + what, Value: value, Problem: problem, Remedy: remedy})
		}
		if strings.TrimSpace(x.Item) == "" {
			bad("name", "", "is empty", "say what it is, such as Bronze plaque")
		}
		if err1 != nil || q.Sign() < 0 {
			bad("quantity", x.Quantity, "is not a quantity", "give a number from 0 up")
		}
		if err2 != nil || rate.Sign() < 0 {
			bad("rate", x.Rate, "is not a rate", "give an amount from 0 up, such as 12.50")
		}
		if _, ok := StageByID(x.Stage); !ok {
			bad("stage", x.Stage, "is no stage", "give one such as metalwork")
		}
		if len(r.faults) > before {
			continue
		}
		r.extras = append(r.extras, extra{x.Stage, x.Item, x.Unit, q, rate})
	}
}

// extraLines writes the user's own lines of a stage.
func (r *run) extraLines(st *Stage) {
	for _, x := range r.extras {
		if x.stage != st.ID {
			continue
		}
		o := field.Origin{From: field.Typed, Source: "own line"}
		n := r.fact("quantity", x.quantity.InexactFloat64(), none, o)
		r.est.Lines = append(r.est.Lines, Line{
			Stage: st.ID, Piece: Whole, Item: x.item, Quantity: x.quantity, Unit: x.unit, Rate: x.rate,
			Places: max(0, -x.quantity.Exponent()), Per: x.unit,
			Amount: r.currency.Times(x.quantity, x.rate), Class: Bought, RateFrom: o, node: n.at, exact: n.v,
		})
	}
}

// readSolids reads the list of solids of a piece.
func (r *run) readSolids(p *piece, rows []map[string]string, pieces int) form.Solids {
	where := func(i int, key string) string { return fmt.Sprintf("%d.solids.%d.%s", p.index, i, key) }
	var out form.Solids
	for i, row := range rows {
		s, faults := form.ReadSolid(row, r.system)
		for _, f := range faults {
			f.Where = where(i, f.Where)
			f.Field = fmt.Sprintf("Solid %d, %s", i+1, f.Field)
			if pieces > 1 {
				f.Field = p.name + ", s" + f.Field[1:]
			}
			r.faults = append(r.faults, f)
		}
		if len(faults) == 0 {
			out = append(out, s)
		}
	}
	if len(rows) == 0 {
		r.faults = append(r.faults, fault.Fault{Where: where(0, "shape"), Field: "Solids of " + p.name, Problem: "are none", Remedy: "add at least one, such as a sphere of 0.5 m"})
	}
	return out
}
