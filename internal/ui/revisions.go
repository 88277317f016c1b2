package ui

import (
	"context"
	"fmt"
	"strings"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// draftName is what the draft is called beside letters.
const draftName = "the draft"

// issuedRows are the revisions of the quote that were issued, as last read.
type issuedRows struct {
	q    *quoteScreen
	id   quote.ID
	next string      // the quote's letter when they were read
	read quote.State // and its state, as it was kept
	busy bool
	rows []quote.Revision

	steps []quote.Step // what became of the quote
	err   error
}

// follow reads the revisions again, if there may be others.
func (r *issuedRows) follow() {
	is := r.q.sheet.Quote()
	if is.ID == 0 || r.busy || r.q.sheet.Unsaved() && r.id == is.ID || r.id == is.ID && r.next == is.Letter && r.read == is.State {
		return
	}
	r.busy = true
	d := r.q.w.desk
	r.q.w.do(func() func() {
		var steps []quote.Step
		rows, err := d.Revisions(context.Background(), is.ID)
		if err == nil {
			steps, err = d.Steps(context.Background(), is.ID)
		}
		return func() {
			r.busy, r.id, r.next, r.read, r.rows, r.steps, r.err = false, is.ID, is.Letter, is.State, rows, steps, err
			r.q.rail.SetRows(r.q.railRows())
			r.q.refreshPage(revisionsID)
		}
	})
}

// last is the letter that was issued last, "" for none.
func (r *issuedRows) last() string {
	if len(r.rows) == 0 {
		return ""
	}
	return r.rows[len(r.rows)-1].Letter
}

// choices are what can be compared: letters, and the draft.
func (r *issuedRows) choices() (names []string) {
	for _, x := range r.rows {
		names = append(names, x.Letter)
	}
	return append(names, draftName)
}

// lines are the revisions, the last first.
func (r *issuedRows) lines(c money.Currency) (lines []kit.Line) {
	for i := len(r.rows) - 1; i >= 0; i-- {
		x := r.rows[i]
		name := x.Letter + ", " + day(x.IssuedAt)
		if i == len(r.rows)-1 {
			name += " – " + r.q.howLast()
		}
		price := x.Price
		if a, err := c.Parse(x.Price); err == nil {
			price = amount(c, a)
		}
		lines = append(lines, kit.Line{ID: x.Letter, Name: name, Rate: day(x.ValidUntil), Cost: price})
	}
	return lines
}

// history are the steps of the quote's life, the last first: what, who, when.
func (r *issuedRows) history() (lines []kit.Line) {
	for i := len(r.steps) - 1; i >= 0; i-- {
		x := r.steps[i]
		line := kit.Line{ID: fmt.Sprint(i), Name: stepWords(x, i == 0), Rate: x.By, Cost: x.At.Local().Format("2 Jan 2006, 15:04")}
		lines = append(lines, line)
	}
	return lines
}

// stepWords say what a step was.
func stepWords(x quote.Step, first bool) string {
	switch {
	case first:
		return "Begun, as " + string(x.State) + " " + x.Letter
	case x.State == quote.Issued:
		return "Issued: " + x.Letter
	case x.State == quote.Draft:
		return "Changed: a draft again"
	case x.State == quote.Lapsed && x.By == "":
		return "Lapsed by its date"
	}
	return capital(string(x.State))
}

// howLast is how the last issued revision stands.
func (q *quoteScreen) howLast() string {
	if is := q.sheet.Quote(); is.State != quote.Draft {
		return string(is.State)
	}
	return "being revised"
}

// revisionsDetail is what the rail says of the revisions.
func revisionsDetail(q *quoteScreen) string {
	is := q.sheet.Quote()
	if last := q.issued.last(); last != "" && is.State != quote.Draft {
		return last + " " + string(is.State)
	} else if last != "" {
		return last + " issued, " + is.Letter + " in work"
	}
	return "nothing issued yet"
}

// newComparing follows the quote with the comparison that its page asks for.
func newComparing(q *quoteScreen, between func() (before, after string)) *follower[desk.Comparison] {
	letter := func(name string) string {
		if name == draftName {
			return ""
		}
		return name
	}
	return &follower[desk.Comparison]{
		q: q,
		ready: func() (func(context.Context) (desk.Comparison, error), error) {
			compare := q.sheet.Comparing()
			before, after := between()
			return func(ctx context.Context) (desk.Comparison, error) {
				return compare(ctx, letter(before), letter(after))
			}, nil
		},
		told: func() { q.refreshPage(revisionsID) },
	}
}

// differenceLines are lines that differ, below the stages they are of, with what
// they rose by.
func differenceLines(c desk.Comparison, list []desk.Difference) (lines []kit.Line) {
	stage := ""
	for i, d := range list {
		if d.Stage != stage && d.Stage != "price" {
			lines = append(lines, kit.Line{ID: "of " + d.Stage, Kind: kit.LineHead, Name: stageName(d.Stage)})
		}
		stage = d.Stage
		name := d.Item
		if d.Piece != "" {
			name = d.Piece + ": " + name
		}
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Name: name + " – " + turned(d.Before, d.After), Cost: change(c.Currency, d.Change())})
	}
	return lines
}

func stageName(id string) string {
	if st, ok := estimate.StageByID(id); ok {
		return st.Name
	}
	return capital(id)
}

// turned says what was and what is.
func turned(before, after string) string {
	switch {
	case before == "" && after == "":
		return "changed"
	case before == "":
		return "new, " + after
	case after == "":
		return "was " + before + ", is gone"
	case before == after:
		return before
	}
	return before + " → " + after
}

// change prints how much something rose, exactly.
func change(c money.Currency, a money.Amount) string {
	switch {
	case a < 0:
		return "−" + amount(c, -a)
	case a > 0:
		return "+" + amount(c, a)
	}
	return amount(c, a)
}

// changedLines are inputs, words or settings that differ.
func changedLines(list []desk.Changed) (lines []kit.Line) {
	for i, x := range list {
		before, after := excerpts(partText(x.Where, x.Before), partText(x.Where, x.After))
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Name: inputName(x.Where), Rate: before, Cost: after})
	}
	return lines
}

func said(text string) string {
	if strings.TrimSpace(text) == "" {
		return "–"
	}
	return strings.ReplaceAll(text, "\n", "; ")
}

// inputName says an input by its stage and label, where it is known by its path,
// and a part of the words by what it is called.
func inputName(where string) string {
	if part, ok := strings.CutPrefix(where, desk.OfWords); ok {
		return partName(part)
	}
	piece, path, of := strings.Cut(where, ": ")
	if !of {
		piece, path = "", where
	}
	f, ok := estimate.FieldByPath(path, of)
	if !ok {
		return capital(where)
	}
	name := f.Label
	if id, _, found := strings.Cut(path, "."); found {
		name = stageName(id) + ": " + name
	}
	if piece != "" {
		name = piece + ", " + name
	}
	return name
}

// isoDay prints a date given as ISO.
func isoDay(iso string) string {
	if t, err := time.Parse(time.DateOnly, iso); err == nil {
		return day(t)
	}
	return iso
}
