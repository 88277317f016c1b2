package ui

import (
	"context"
	"slices"

	"meltwright/internal/desk"
	"meltwright/internal/risk"
)

// optionRanges draws, one option after the other, where the price of each comes
// to lie: a moment after the last change, and away from the window's goroutine.
// Options that stay what they are keep what was drawn for them.
type optionRanges struct {
	o      *optionsScreen
	cancel func() // of the timer or the job; nil for none
}

// stop gives up what is on its way.
func (r *optionRanges) stop() {
	if r.cancel != nil {
		r.cancel()
	}
	r.cancel = nil
}

// follow asks for the ranges of options that have none, once nothing has been
// changed for a while.
func (r *optionRanges) follow() {
	r.stop()
	if r.next() >= 0 {
		r.cancel = r.o.w.after(rest, r.o.w.guarded(r.draw))
	}
}

// next is the first option without a range, the chosen one before others; -1
// where all have theirs.
func (r *optionRanges) next() int {
	open := func(x desk.Option) bool { return len(x.Faults) == 0 && x.Range == nil }
	if open(r.o.now()) {
		return r.o.chosen
	}
	return slices.IndexFunc(r.o.list, open)
}

// draw draws the next range, shows it, and goes on to the one after it.
func (r *optionRanges) draw() {
	r.cancel = nil
	i := r.next()
	if i < 0 {
		return
	}
	x, w := r.o.list[i], r.o.weighing
	ctx, cancel := context.WithCancel(context.Background())
	r.cancel = cancel
	r.o.w.aside(func() func() {
		drawn, err := w.Range(ctx, x, risk.Ask{Trials: r.o.w.options.Trials})
		return func() {
			if ctx.Err() != nil {
				return
			}
			cancel()
			if err != nil {
				drawn = risk.Range{} // its faults are told where the quote is
			}
			r.take(x, drawn)
		}
	})
}

// take shows a range, and goes on.
func (r *optionRanges) take(of desk.Option, drawn risk.Range) {
	at := slices.IndexFunc(r.o.list, func(x desk.Option) bool { return x.Estimate == of.Estimate })
	if at < 0 {
		return
	}
	r.o.list[at].Range = &drawn
	r.o.table.set(optionRows(r.o.list, r.o.weighing), r.o.chosen, r.o.own())
	r.o.body.relay()
	r.draw()
}
