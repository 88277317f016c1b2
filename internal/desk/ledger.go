package desk

import (
	"context"
	"slices"

	"meltwright/internal/fault"
	"meltwright/internal/lead"
	"meltwright/internal/shop"
)

// Ledger is the shop book while somebody changes it: every change counts at
// once, can be undone, and is kept as typed even where it has faults.
type Ledger struct {
	desk       *Desk
	undo, redo []shop.Book
	faults     fault.List
	last       string
	unsaved    bool
}

// Ledger opens the shop book.
func (d *Desk) Ledger() *Ledger {
	l := &Ledger{desk: d}
	s, err := shop.Read(d.book)
	l.faults = faultsOf(s, err)
	return l
}

// Book is the shop book as typed.
func (l *Ledger) Book() shop.Book { return l.desk.book }

// Faults lists what is wrong with it.
func (l *Ledger) Faults() fault.List { return l.faults }

// change makes one step of undo; steps of the same non-empty name, as in typing,
// are one.
func (l *Ledger) change(name string, to shop.Book) {
	if name == "" || name != l.last {
		l.undo = append(l.undo, l.desk.book)
	}
	l.last, l.redo = name, nil
	l.take(to)
}

func (l *Ledger) take(b shop.Book) {
	l.desk.book, l.unsaved = b, true
	s, err := shop.Read(b)
	l.desk.shop, l.faults = s, faultsOf(s, err)
}

// faultsOf are those of a shop book as read, with what its calendar cannot be
// read as.
func faultsOf(s *shop.Shop, err error) fault.List {
	return append(fault.All(err), fault.All(lead.CheckCalendar(s))...)
}

// Set types text into a setting, and dates it. Empty text, or that of the
// starting book, gives the setting its starting value and source again.
func (l *Ledger) Set(key, text string) {
	start, ok := startOf(key)
	if ok && (text == "" || text == start.Text) {
		b := l.desk.book.Clone()
		b.Settings[key], b.Dated = start, l.desk.Today()
		l.change("set."+key, b)
		return
	}
	l.change("set."+key, l.desk.book.With(key, text, l.desk.Today()))
}

func startOf(key string) (shop.Setting, bool) {
	for _, d := range shop.Settings() {
		if d.Key == key {
			return shop.Setting{Text: d.Start, Source: d.Source}, true
		}
	}
	return shop.Setting{}, false
}

// House is the shop's own particulars.
type House struct{ Name, Address, Currency, Units string }

// House gives the shop's particulars.
func (l *Ledger) House() House {
	b := l.desk.book
	return House{b.Shop, b.Address, b.Currency, b.Units}
}

// SetHouse changes the shop's particulars; part names which, so that typing on
// in it is one step of undo.
func (l *Ledger) SetHouse(part string, h House) {
	l.change("house."+part, l.desk.book.WithHouse(h.Name, h.Address, h.Currency, h.Units, l.desk.Today()))
}

// Rows gives the rows of a table.
func (l *Ledger) Rows(table string) []shop.Row { return l.desk.book.Tables[table] }

// SetCell types into one cell of a table.
func (l *Ledger) SetCell(table string, row int, column, text string) {
	l.rows("cell."+table+"."+column, table, func(rows []shop.Row) []shop.Row {
		rows[row][column] = text
		return rows
	})
}

// AddRow adds an empty row at the end of a table and gives its number.
func (l *Ledger) AddRow(table string) int {
	n := len(l.Rows(table))
	l.rows("", table, func(rows []shop.Row) []shop.Row { return append(rows, shop.Row{}) })
	return n
}

// RemoveRow takes a row out of a table.
func (l *Ledger) RemoveRow(table string, row int) {
	l.rows("", table, func(rows []shop.Row) []shop.Row { return slices.Delete(rows, row, row+1) })
}

// MoveRow moves a row by so many places, as far as there are, and gives its new
// number.
func (l *Ledger) MoveRow(table string, row, by int) int {
	to := max(0, min(row+by, len(l.Rows(table))-1))
	if to != row {
		l.rows("", table, func(rows []shop.Row) []shop.Row {
			move(rows, row, to)
			return rows
		})
	}
	return to
}

// rows changes the rows of a table, on a copy of the book.
func (l *Ledger) rows(name, table string, f func([]shop.Row) []shop.Row) {
	b := l.desk.book.Clone()
	l.change(name, b.WithTable(table, f(b.Tables[table]), l.desk.Today()))
}

// EndTyping ends a step of undo: what is typed next is another.
func (l *Ledger) EndTyping() { l.last = "" }

// Undo goes one step back, and tells whether there was one.
func (l *Ledger) Undo() bool { return l.step(&l.undo, &l.redo) }

// Redo goes forward again.
func (l *Ledger) Redo() bool { return l.step(&l.redo, &l.undo) }

func (l *Ledger) step(from, to *[]shop.Book) bool {
	if len(*from) == 0 {
		return false
	}
	*to = append(*to, l.desk.book)
	back := (*from)[len(*from)-1]
	*from = (*from)[:len(*from)-1]
	l.last = ""
	l.take(back)
	return true
}

// Unsaved tells whether there are changes that have not been kept.
func (l *Ledger) Unsaved() bool { return l.unsaved }

// Copy gives the book as it stands, for KeepBook; it counts as kept from here
// on, until it is changed or told that it was NotKept.
func (l *Ledger) Copy() shop.Book {
	l.unsaved = false
	return l.desk.book
}

// NotKept tells the ledger that its last copy could not be kept.
func (l *Ledger) NotKept() { l.unsaved = true }

// KeepBook keeps a shop book. It touches the store alone, so that any goroutine
// may call it.
func (d *Desk) KeepBook(ctx context.Context, b shop.Book) error {
	return d.store.SaveBook(ctx, b, d.now())
}

// Reread takes the shop book from the store again, after another window has
// changed it. Keeping here then counts as knowing of that change. The error is
// the store's.
func (d *Desk) Reread(ctx context.Context) (shop.Book, error) { return d.store.Book(ctx) }

// Take takes a shop book in the place of the one on the desk, in one step of undo.
func (l *Ledger) Take(b shop.Book) { l.change("", b) }
