package desk

import (
	"context"
	"slices"
	"strings"
	"time"

	"meltwright/internal/quote"
)

// stamped is what a card may be of: a client, a call. Stamped gives it with the
// identity and version of another.
type stamped[T any] interface{ Stamped(by T) T }

// Card is a client or a call while somebody changes it: every change can be
// undone, and is kept as typed.
type Card[T stamped[T]] struct {
	is         T
	undo, redo []T
	last       string
	unsaved    bool
}

// NewCard takes a client or a call onto the desk.
func NewCard[T stamped[T]](is T) *Card[T] { return &Card[T]{is: is} }

// Is gives the card as it stands.
func (c *Card[T]) Is() T { return c.is }

// Change changes the card in one step of undo; changes of the same non-empty name
// one after the other, as in typing, are one. What lists it holds the function
// changes copies of.
func (c *Card[T]) Change(name string, f func(*T)) {
	if name == "" || name != c.last {
		c.undo = append(c.undo, c.is)
	}
	c.last, c.redo, c.unsaved = name, nil, true
	f(&c.is)
}

// Undo goes one step back, and tells whether there was one.
func (c *Card[T]) Undo() bool { return c.step(&c.undo, &c.redo) }

// Redo goes forward again.
func (c *Card[T]) Redo() bool { return c.step(&c.redo, &c.undo) }

func (c *Card[T]) step(from, to *[]T) bool {
	if len(*from) == 0 {
		return false
	}
	*to = append(*to, c.is)
	back := (*from)[len(*from)-1]
	*from = (*from)[:len(*from)-1]
	c.is, c.last, c.unsaved = back.Stamped(c.is), "", true
	return true
}

// EndTyping ends a step of undo: what is typed next is another.
func (c *Card[T]) EndTyping() { c.last = "" }

// Unsaved tells whether there are changes that have not been kept.
func (c *Card[T]) Unsaved() bool { return c.unsaved }

// Copy gives the card as it stands, to be kept; it counts as kept from here on,
// until it is changed or told that it was NotKept.
func (c *Card[T]) Copy() T {
	c.unsaved = false
	return c.is
}

// Kept takes over what the store said of a copy that was kept.
func (c *Card[T]) Kept(by T) { c.is = c.is.Stamped(by) }

// NotKept tells the card that its last copy could not be kept.
func (c *Card[T]) NotKept() { c.unsaved = true }

// Unnamed is what a client or a call is kept as while it has no name.
const Unnamed = "Unnamed"

// KeepClient keeps a client; any goroutine may call it, as all that follow.
func (d *Desk) KeepClient(ctx context.Context, c quote.Client) (quote.Client, error) {
	c.Name = named(c.Name)
	return d.store.SaveClient(ctx, c)
}

// KeepCall keeps a call, with the day that its deadline says.
func (d *Desk) KeepCall(ctx context.Context, c quote.Call) (quote.Call, error) {
	c.Title = named(c.Title)
	c.Due, _ = ReadDate("Deadline", c.Deadline) // one that says none is shown beside it
	return d.store.SaveCall(ctx, c)
}

func named(name string) string {
	if strings.TrimSpace(name) == "" {
		return Unnamed
	}
	return name
}

// Clients lists clients by name, or those that were removed.
func (d *Desk) Clients(ctx context.Context, words string, removed bool) ([]quote.Client, error) {
	return d.store.Clients(ctx, words, removed)
}

// Calls lists calls, the next deadline first, or those that were removed.
func (d *Desk) Calls(ctx context.Context, words string, removed bool) ([]quote.Call, error) {
	return d.store.Calls(ctx, words, removed, d.now())
}

// DeleteClient takes a client off the list; RestoreClient puts it back.
func (d *Desk) DeleteClient(ctx context.Context, id quote.ClientID) error {
	return d.store.DeleteClient(ctx, id, d.now())
}

// RestoreClient puts a client back on the list.
func (d *Desk) RestoreClient(ctx context.Context, id quote.ClientID) error {
	return d.store.RestoreClient(ctx, id)
}

// DeleteCall takes a call off the list; RestoreCall puts it back.
func (d *Desk) DeleteCall(ctx context.Context, id quote.CallID) error {
	return d.store.DeleteCall(ctx, id, d.now())
}

// RestoreCall puts a call back on the list.
func (d *Desk) RestoreCall(ctx context.Context, id quote.CallID) error {
	return d.store.RestoreCall(ctx, id)
}

// remindDays is for how many days ahead the first screen looks.
const remindDays = 14

// Reminders lapses what has lapsed, and lists what falls due within two weeks and
// what lapsed of late.
func (d *Desk) Reminders(ctx context.Context) ([]quote.Reminder, error) {
	now := d.now()
	if _, err := d.store.Lapse(ctx, now); err != nil {
		return nil, err
	}
	return d.store.Reminders(ctx, now, now.AddDate(0, 0, remindDays))
}

// DaysUntil is how many days from today a day is away; below zero it is past.
func (d *Desk) DaysUntil(day time.Time) int {
	return int(dayOf(day).Sub(dayOf(d.now())).Hours() / 24)
}

// ClientOf finds a client among those of a list.
func ClientOf(all []quote.Client, id quote.ClientID) quote.Client {
	if i := slices.IndexFunc(all, func(c quote.Client) bool { return c.ID == id }); i >= 0 {
		return all[i]
	}
	return quote.Client{}
}
