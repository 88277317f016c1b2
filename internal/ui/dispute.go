package ui

import (
	"context"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// A quote that was changed elsewhere can be kept as a copy beside the other, or
// opened again as the other left it.

func (q *quoteScreen) mine() wayOn {
	return wayOn{"Keep as a copy", func() {
		q.part()
		q.kept.settled()
	}}
}

func (q *quoteScreen) theirs() wayOn {
	return wayOn{"Open again", func() {
		q.w.ask(&kit.Ask{
			Title: "Open it as it was kept in the other window?",
			Text:  "What you changed here since it was opened is in no file. It can become a quote of its own first.",
			Choices: []kit.Choice{
				{Text: "Stay", Safe: true},
				{Text: "Open without mine", Style: kit.Danger, Do: q.openAgain},
				{Text: "Keep mine as a copy, then open", Style: kit.Primary, Do: q.copyAndOpen},
			},
		})
	}}
}

// openAgain opens the quote as the store has it; what was typed here goes.
func (q *quoteScreen) openAgain() {
	id := q.sheet.Quote().ID
	q.kept.forget()
	q.w.openQuote(id, (*desk.Desk).Put)
}

// copyAndOpen keeps what was typed here as a quote of its own, and opens the other.
func (q *quoteScreen) copyAndOpen() {
	id := q.sheet.Quote().ID
	q.part()
	q.kept.settled()
	q.whenKept("The copy was not kept", func() { q.w.openQuote(id, (*desk.Desk).Put) })
}

// The shop book that was changed elsewhere: the one here becomes its next version,
// or the other's is taken, and undo brings back what was typed.

func (b *bookScreen) mine() wayOn {
	return wayOn{"Keep what is here", func() { b.reread(func(theirs func()) { b.kept.settled() }) }}
}

func (b *bookScreen) theirs() wayOn {
	return wayOn{"Take the other's", func() {
		b.reread(func(theirs func()) {
			theirs()
			b.show()
			b.kept.settled()
		})
	}}
}

// reread reads the book as the store has it; theirs puts it on the desk.
func (b *bookScreen) reread(then func(theirs func())) {
	d := b.w.desk
	b.w.do(func() func() {
		book, err := d.Reread(context.Background())
		return func() {
			if err != nil {
				b.w.tell("The shop book cannot be read", sentence(err))
				return
			}
			then(func() { b.ledger.Take(book) })
		}
	})
}

// A client's card, and a call's.

func (c *clientScreen) find(ctx context.Context, d *desk.Desk) (quote.Client, bool, error) {
	all, err := d.Clients(ctx, "", false)
	x := desk.ClientOf(all, c.card.Is().ID)
	return x, x.ID != 0, err
}

func (c *callScreen) find(ctx context.Context, d *desk.Desk) (quote.Call, bool, error) {
	all, err := d.Calls(ctx, "", false)
	x := people{calls: all}.call(c.card.Is().ID)
	return x, x.ID != 0, err
}

func (c *cardScreen[T]) mine() wayOn {
	return wayOn{"Keep what is here", func() {
		c.refind(func(theirs T) {
			c.card.Kept(theirs)
			c.kept.settled()
		})
	}}
}

func (c *cardScreen[T]) theirs() wayOn {
	return wayOn{"Take the other's", func() {
		c.refind(func(theirs T) {
			c.card.Change("", func(x *T) { *x = theirs })
			c.show()
			c.kept.settled()
		})
	}}
}

// refind reads the card as the store has it.
func (c *cardScreen[T]) refind(then func(theirs T)) {
	d, find := c.w.desk, c.lookUp
	c.w.do(func() func() {
		theirs, ok, err := find(context.Background(), d)
		return func() {
			switch {
			case err != nil:
				c.w.tell("It cannot be read", sentence(err))
			case !ok:
				c.w.tell("It was removed", "It was removed from the list in the other window. Bring it back there first.")
			default:
				then(theirs)
			}
		}
	})
}

// settled tries to keep again what was refused because of a change elsewhere.
func (k *keeping) settled() {
	k.err = nil
	k.now()
	k.w.settleKeepings()
}

// forget gives up what is not kept: the user said so.
func (k *keeping) forget() {
	k.stop()
	k.err, k.given = nil, true
	k.w.settleKeepings()
}
