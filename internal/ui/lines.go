package ui

import (
	"strconv"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// stageLines shows the lines of a stage with the working of the chosen one.
type stageLines struct {
	q       *quoteScreen
	st      *estimate.Stage
	table   *kit.LineTable
	working *kit.Working
	byID    map[string]estimate.Line
	byPiece bool // the inputs of one piece stand above
}

func newStageLines(q *quoteScreen, st *estimate.Stage) *stageLines {
	l := &stageLines{q: q, st: st, table: kit.NewLineTable(), working: kit.NewWorking()}
	l.table.OnSelect = q.w.guardedText(func(id string) {
		q.lines[st.ID] = id
		l.showWorking()
		q.pageOf(st.ID).page().relay()
	})
	return l
}

// show shows the lines of the last estimate without faults.
func (l *stageLines) show() {
	e, _ := l.q.sheet.Estimate()
	l.byID = map[string]estimate.Line{}
	if e == nil {
		l.table.SetLines(nil)
		l.table.Hide()
		l.working.Set(kit.Reckoning{})
		return
	}
	lines := l.lines(e)
	l.table.SetLines(lines)
	show(l.table, len(lines) > 0)
	l.choose(lines)
	l.showWorking()
}

// lines are the stage's: those of the piece whose inputs stand above them and of
// the whole commission, with what every other piece comes to in one row, so that
// the working stays in sight; without such inputs, all, below their pieces' names.
func (l *stageLines) lines(e *estimate.Estimate) []kit.Line {
	var out []kit.Line
	total, hours := money.Amount(0), quantity.Time(0)
	shut := map[int]int{} // where the row of a piece that is not opened stands
	sums := map[int]money.Amount{}
	last := -2
	for n, x := range e.Lines {
		if x.Stage != l.st.ID {
			continue
		}
		total += x.Amount
		hours += quantity.Time(x.Hours)
		if l.shut(x.Piece) {
			if _, ok := shut[x.Piece]; !ok {
				shut[x.Piece] = len(out)
				out = append(out, kit.Line{ID: "of " + strconv.Itoa(x.Piece), Kind: kit.LineSubtotal, Name: pieceName(e, x.Piece)})
			}
			sums[x.Piece] += x.Amount
			continue
		}
		if x.Piece != last && len(e.Pieces) > 1 {
			out = append(out, kit.Line{ID: "of " + strconv.Itoa(x.Piece), Kind: kit.LineHead, Name: pieceName(e, x.Piece)})
		}
		last = x.Piece
		line := lineOf(e, x)
		line.ID = lineID(e, n)
		l.byID[line.ID] = x
		out = append(out, line)
	}
	for piece, at := range shut {
		out[at].Cost = amount(e.Currency, sums[piece])
	}
	return l.withTotal(e, out, total, hours)
}

// shut tells whether only the sum of a piece's lines is shown.
func (l *stageLines) shut(piece int) bool {
	return l.byPiece && piece != estimate.Whole && piece != l.q.piece
}

func (l *stageLines) withTotal(e *estimate.Estimate, out []kit.Line, total money.Amount, hours quantity.Time) []kit.Line {
	if len(out) == 0 {
		return nil
	}
	sum := kit.Line{ID: "sum", Kind: kit.LineTotal, Name: l.st.Name, Cost: amount(e.Currency, total)}
	if hours > 0 {
		sum.Quantity, sum.Unit = quantity.Number(float64(hours), 2), "h"
	}
	return append(out, sum)
}

// lineID tells a line apart from one estimate to the next: by piece and item,
// and by its turn among those of the same name.
func lineID(e *estimate.Estimate, n int) string {
	x, turn := e.Lines[n], 0
	for _, y := range e.Lines[:n] {
		if y.Stage == x.Stage && y.Piece == x.Piece && y.Item == x.Item {
			turn++
		}
	}
	return strconv.Itoa(x.Piece) + " " + x.Item + " " + strconv.Itoa(turn)
}

func pieceName(e *estimate.Estimate, i int) string {
	if i == estimate.Whole {
		return "The whole commission"
	}
	return e.Pieces[i].Name
}

func lineOf(e *estimate.Estimate, x estimate.Line) kit.Line {
	line := kit.Line{
		Name: x.Item, Quantity: x.QuantityText(), Unit: x.Unit,
		Rate: x.RateText(e.Currency.Digits), Cost: amount(e.Currency, x.Amount),
	}
	if x.Per != "" {
		line.Per = "/ " + x.Per
	}
	return line
}

// choose keeps the chosen line, or chooses the dearest.
func (l *stageLines) choose(lines []kit.Line) {
	id := l.q.lines[l.st.ID]
	if _, ok := l.byID[id]; !ok {
		id = ""
		for _, line := range lines {
			x, ok := l.byID[line.ID]
			if ok && (id == "" || x.Amount > l.byID[id].Amount) {
				id = line.ID
			}
		}
	}
	l.table.Select(id)
}

func (l *stageLines) showWorking() {
	e, _ := l.q.sheet.Estimate()
	x, ok := l.byID[l.table.Selected()]
	if !ok || e == nil {
		l.working.Set(kit.Reckoning{})
		return
	}
	l.working.Set(reckoning(e.Working(x)))
}

// reckoning puts a working into words and figures.
func reckoning(w estimate.Working) kit.Reckoning {
	r := kit.Reckoning{Name: w.Item, Formula: w.Numbers}
	if w.Formula != "" {
		r.Formula = w.Formula + "\n= " + w.Numbers
	}
	for _, p := range w.Parts {
		in := kit.ReckoningInput{Name: p.Name, Value: p.Value, Origin: p.Origin.String()}
		if p.Numbers != "" {
			in.Origin = p.Numbers
		}
		if p.Local != "" {
			in.Origin = p.Local + "; " + in.Origin
		}
		r.Inputs = append(r.Inputs, in)
	}
	return r
}
