package estimate

import (
	"strconv"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// Entry is one input as a page shows it: what was typed, what was understood,
// what holds where nothing was typed, and what is wrong.
type Entry struct {
	Field      *Field
	Piece      int // Whole for an input of the whole commission
	Typed      string
	Start      string // what holds where nothing is typed, printed
	Understood string // what was made of the typed text, printed; empty where wrong
	Choices    []string
	Origin     field.Origin
	Fault      *fault.Fault
}

// Where is the path of the entry's faults: "form.wall", or "0.form.wall" for
// an input of piece 0.
func (e Entry) Where() string { return WhereOf(e.Piece, e.Field.Path()) }

// WhereOf is the Where of faults in a field of a piece, or of the commission.
func WhereOf(piece int, path string) string {
	if piece == Whole {
		return path
	}
	return strconv.Itoa(piece) + "." + path
}

// Entries lists the inputs of one stage that apply, of a piece or, with Whole,
// of the whole commission, in the order of the stage's page. Faults are those of
// the last estimate.
func Entries(c Commission, s *shop.Shop, st *Stage, piece int, faults fault.List) []Entry {
	r := read(Commission{Currency: c.Currency, Units: c.Units, Inputs: c.Inputs, Pieces: onePiece(c, piece)}, s)
	in, texts := &r.whole, c.Inputs
	if piece != Whole {
		in, texts = &r.pieces[0].in, c.Pieces[piece].Inputs
	}
	var out []Entry
	for _, f := range st.Fields(piece != Whole) {
		if !f.applies(in) {
			continue
		}
		e := Entry{Field: f, Piece: piece, Typed: texts[f.Path()], Choices: f.choicesOf(s).Choices, Origin: in.origin(f)}
		e.Start = r.startText(f)
		if in.has(f) {
			e.Understood = f.Print(in.value(f), r.system)
		}
		if x, ok := faults.At(e.Where()); ok {
			e.Fault = &x
		}
		out = append(out, e)
	}
	return out
}

func onePiece(c Commission, piece int) []Piece {
	if piece == Whole {
		return []Piece{{}}
	}
	return c.Pieces[piece : piece+1]
}

// startText prints what a field holds where nothing is typed, or says what will
// be worked out.
func (r *run) startText(f *Field) string {
	if f.Book == shop.Unset && f.Start == "" && f.FromBook == nil {
		return f.Proposes
	}
	if f.Sort == field.Money && f.Start == "0" {
		return ""
	}
	return strings.TrimSpace(f.Print(r.start(f), r.system))
}
