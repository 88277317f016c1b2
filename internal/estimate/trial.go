package estimate

import (
	"sync"

	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// Model is a commission read once, to be estimated many times with its uncertain
// inputs varied. It may be tried from several goroutines at a time.
type Model struct {
	first *run
	spent sync.Pool // runs of trials, to be used again
}

// NewModel reads a commission for trials. A commission with faults has none.
func NewModel(c Commission, s *shop.Shop) (*Model, error) {
	r := read(c, s)
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return &Model{first: r}, nil
}

// Variation says how one trial differs from the estimate. Factors multiply; a
// zero Variation, made by Still, changes nothing.
type Variation struct {
	Area    []float64 // surface, by piece
	Wall    []float64 // weight of the wall as cast, by piece
	Recasts []int     // castings that failed, by piece; below 0 takes the expected number
	// Fail, where it is not nil, gives the number of castings of a piece that
	// failed until so many were good, in the place of Recasts. It is called once
	// for each piece, in their order.
	Fail     func(piece, sections int) int
	Hours    []float64 // by stage, in the order of Stages
	Material float64   // prices of what is bought by weight, area or length
	Metal    float64   // price of ingot
	Freight  float64   // crates, freight and travel
	Site     float64   // crane, crew, lodging, footing
}

// Still is a Variation of a commission of so many pieces that changes nothing.
func Still(pieces int) Variation {
	v := Variation{Material: 1, Metal: 1, Freight: 1, Site: 1, Area: ones(pieces), Wall: ones(pieces), Hours: ones(len(Stages)), Recasts: make([]int, pieces)}
	for i := range v.Recasts {
		v.Recasts[i] = -1
	}
	return v
}

func ones(n int) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = 1
	}
	return s
}

// Outcome is what a trial came to.
type Outcome struct {
	Direct  money.Amount // all lines
	Cost    money.Amount // direct cost and overhead
	Price   money.Amount // what would have to be asked
	Total   money.Amount // with tax
	Hours   float64
	Heats   int
	Days    int
	Recasts float64
	Kg      float64 // finished bronze, one cast of each piece
}

// Pieces is the number of pieces; Sections is how many sections the casts of
// each need, and Yield the share of castings that are good.
func (m *Model) Pieces() int { return len(m.first.pieces) }

// Known tells how well the surface of a piece is known: scanned, typed, or by a
// formula from other inputs.
func (m *Model) Known(piece int) field.From {
	switch m.first.pieces[piece].in.word(wayField) {
	case wayFigure, wayAnimal:
		return field.Proposed
	}
	return m.first.pieces[piece].known()
}

// Yield is the share of castings that are good.
func (m *Model) Yield() float64 { return m.first.whole.num(yieldField) }

// Try estimates the commission once, varied, with all its steps: heats, pour
// days, cranes. It keeps no workings.
func (m *Model) Try(v *Variation) Outcome {
	r, ok := m.spent.Get().(*run)
	if ok {
		m.renew(r)
	} else {
		r = m.fresh()
	}
	r.vary = v
	o := m.outcome(r)
	r.vary = nil
	m.spent.Put(r)
	return o
}

// renew makes a spent run fresh again, in the memory it has.
func (m *Model) renew(r *run) {
	f, e := m.first, r.est
	*e = Estimate{Currency: f.currency, System: f.system, Lines: e.Lines[:0], Heats: e.Heats[:0], PriceLines: e.PriceLines[:0], Taxes: e.Taxes[:0]}
	pieces := r.pieces
	*r = run{job: f.job, est: e, whole: f.whole, exchange: f.exchange, pieces: pieces}
	r.bare = true
	for i, p := range f.pieces {
		*pieces[i] = piece{index: p.index, name: p.name, in: p.in, casts: p.casts, solids: p.solids, scan: p.scan}
	}
}

// outcome estimates a run and tells what it came to.
func (m *Model) outcome(r *run) Outcome {
	r.estimate()
	o := Outcome{Direct: r.est.Direct, Price: r.est.Price, Total: r.est.Total, Heats: len(r.est.Heats), Days: r.est.PourDays, Recasts: r.est.Recasts}
	for _, l := range r.est.Lines {
		if l.Class == Labour {
			o.Hours += l.Hours
		}
	}
	for _, p := range r.pieces {
		o.Kg += p.finished.v
	}
	o.Cost = m.CostOf(r.est)
	return o
}

// CostOf is what an estimate of this commission costs the shop: direct cost and
// overhead.
func (m *Model) CostOf(e *Estimate) money.Amount {
	cost := e.Direct
	for _, l := range e.PriceLines {
		if l.Name == overheadName {
			cost += l.Amount
		}
	}
	return cost
}

// CostRoom is what the price of an estimate leaves for direct cost and overhead:
// all of it but the shares of the price and the artist's fee.
func (m *Model) CostRoom(e *Estimate) money.Amount {
	room := e.Price
	for _, l := range e.PriceLines {
		if l.Of == "price" || l.Name == feeName {
			room -= l.Amount
		}
	}
	return room
}

// Value is what an input was read as, of a piece or, with Whole, of the whole
// commission, by its path: "shell.coats_a_day". A path that no stage has gives
// nothing.
func (m *Model) Value(piece int, path string) field.Value {
	f, ok := FieldByPath(path, piece != Whole)
	switch {
	case !ok:
		return field.Value{}
	case piece == Whole:
		return m.first.whole.value(f)
	}
	return m.first.pieces[piece].in.value(f)
}

// Name is the name of a piece.
func (m *Model) Name(piece int) string { return m.first.pieces[piece].name }

// HasHours tells whether a stage has work in it that may take longer: not where
// others do it.
func (m *Model) HasHours(st *Stage) bool {
	if st.lines == nil && st.wholeLines == nil {
		return false
	}
	return !m.first.allByOthers(st)
}

// Sections gives the number of sections of all casts of each piece in a trial,
// before any failed.
func (m *Model) Sections(v *Variation) []int {
	r := m.fresh()
	r.vary = v
	r.takeCrucible()
	out := make([]int, len(r.pieces))
	for i, p := range r.pieces {
		r.takeForm(p)
		r.takeBronze(p)
		out[i] = int(p.sections.v) * p.casts
	}
	return out
}

// fresh is a run with the model's inputs and nothing worked out.
func (m *Model) fresh() *run {
	f := m.first
	r := &run{job: f.job, est: &Estimate{Currency: f.currency, System: f.system, Lines: make([]Line, 0, 128)}, whole: f.whole, exchange: f.exchange}
	r.bare = true
	held := make([]piece, len(f.pieces))
	r.pieces = make([]*piece, len(f.pieces))
	for i, p := range f.pieces {
		held[i] = piece{index: p.index, name: p.name, in: p.in, casts: p.casts, solids: p.solids, scan: p.scan}
		r.pieces[i] = &held[i]
	}
	return r
}

// variedArea multiplies a trial's surface. The form's own metal follows it.
func (r *run) variedArea(p *piece, area expr) expr {
	if r.vary == nil || r.vary.Area[p.index] == 1 {
		return area
	}
	return r.mul(area, r.number(r.vary.Area[p.index]))
}

func (r *run) variedWall(p *piece, cast expr) expr {
	if r.vary == nil {
		return cast
	}
	f := r.vary.Wall[p.index]
	if p.body.Body.Exact() {
		// The wall was not taken from area × thickness: it follows the area here.
		f *= r.vary.Area[p.index]
	}
	return r.mul(cast, r.number(f))
}

func (r *run) drawnRecasts(p *piece, expected expr, sections int) expr {
	switch {
	case r.vary == nil:
		return expected
	case r.vary.Fail != nil:
		return r.number(float64(r.vary.Fail(p.index, sections)))
	case r.vary.Recasts[p.index] < 0:
		return expected
	}
	return r.number(float64(r.vary.Recasts[p.index]))
}

// varied multiplies the hours of a line in a trial, and gives the factor on its
// rate.
func (r *run) varied(st *Stage, it *item) float64 {
	if it.class == Recast {
		return 1
	}
	if it.class == Labour {
		it.q.v *= r.vary.Hours[st.index]
	}
	switch {
	case st.swing != nil:
		return st.swing(r.vary, it)
	case it.class == Labour:
		return 1
	}
	return r.vary.Material
}
