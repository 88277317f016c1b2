package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"meltwright/internal/desk"
	"meltwright/internal/ui/kit"
)

// cardScreen is a client or a call being changed: it keeps itself, and every
// change can be undone.
type cardScreen[T interface{ Stamped(by T) T }] struct {
	w     *Window
	card  *desk.Card[T]
	kept  *keeping
	bar   *kit.TopBar
	grid  *kit.FieldGrid
	body  *page
	frame *kit.Sheet
	list  int // of cards that it is on
	title func(T) string
	store func(context.Context, T) (T, error)
	fill  func() // shows the card in its fields
	// lookUp reads it as the store has it; false where it was removed.
	lookUp func(context.Context, *desk.Desk) (T, bool, error)
}

// begin makes the frame around a card's page.
func (c *cardScreen[T]) begin(w *Window, is T, parts ...fyne.CanvasObject) {
	c.w, c.card, c.bar, c.body = w, desk.NewCard(is), kit.NewTopBar(), newPage(parts...)
	c.bar.SetBack(w.guarded(func() { w.show(newCardsScreen(w, c.list)) }))
	c.frame = kit.NewSheet(c.bar, nil, c.body.scroll, nil)
	c.kept = w.keep(c)
}

func (c *cardScreen[T]) content() fyne.CanvasObject { return c.frame }
func (c *cardScreen[T]) leave()                     { c.kept.now() }
func (c *cardScreen[T]) arrive() {
	c.show()
	c.w.focusFirst(c.grid)
}

func (c *cardScreen[T]) offers() offers {
	return offers{
		undo: func() { c.step(c.card.Undo, "There is nothing to undo.") },
		redo: func() { c.step(c.card.Redo, "There is nothing to redo.") },
	}
}

func (c *cardScreen[T]) step(way func() bool, none string) {
	if !way() {
		c.w.say(none)
		return
	}
	c.show()
	c.kept.changed()
}

// edit changes the card, shows what comes of it and keeps it.
func (c *cardScreen[T]) edit(name string, f func(*T)) {
	c.card.Change(name, f)
	c.show()
	c.kept.changed()
}

// show shows the card as it stands.
func (c *cardScreen[T]) show() {
	c.fill()
	c.body.relay()
}

// typed makes a field of text.
func (c *cardScreen[T]) typed(spec kit.FieldSpec, of func(*T) *string) *kit.Field {
	name := spec.ID
	spec.OnChanged = c.w.guardedText(func(text string) { c.edit(name, func(x *T) { *of(x) = text }) })
	return kit.NewField(spec)
}

// The card is what its keeping keeps.

func (c *cardScreen[T]) name() string  { return "“" + c.title(c.card.Is()) + "”" }
func (c *cardScreen[T]) unsaved() bool { return c.card.Unsaved() }
func (c *cardScreen[T]) notKept()      { c.card.NotKept() }

func (c *cardScreen[T]) copy() func(context.Context) (func(), error) {
	copied := c.card.Copy()
	return func(ctx context.Context) (func(), error) {
		kept, err := c.store(ctx, copied)
		return func() {
			c.card.Kept(kept)
			c.w.readPeople(nil)
		}, err
	}
}

// whenKept keeps the card and then does something, where it could be kept.
func (c *cardScreen[T]) whenKept(do func()) {
	c.kept.now()
	c.w.do(func() func() {
		return func() {
			if c.card.Unsaved() || c.kept.err != nil {
				c.w.tell("Not yet", "It could not be kept first. See what the bar above says.")
				return
			}
			do()
		}
	})
}
