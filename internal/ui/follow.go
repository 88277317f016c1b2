package ui

import (
	"context"
	"time"

	"meltwright/internal/estimate"
)

// rest is how long after the last keystroke something slow is reckoned.
const rest = 400 * time.Millisecond

// follower reckons something slow of the quote a moment after it was last
// changed, away from the window's goroutine, and gives up what it is at when the
// quote is changed again.
type follower[T any] struct {
	q *quoteScreen
	// ready takes what the result is made of from the sheet, and gives back what
	// makes it; the error is the sheet's faults.
	ready func() (func(context.Context) (T, error), error)
	// told is called when there is a new result, or none any more.
	told func()

	of     *estimate.Estimate // what was asked of last
	key    string             // and with what besides
	cancel func()             // of the timer or the job; nil for none
	busy   bool
	result T
	is     *estimate.Estimate // what the result is of; nil for none
	err    error
}

// follow asks for a result of the quote as it stands, unless it is there or on
// its way. Key is what it depends on besides the estimate.
func (f *follower[T]) follow(key string) {
	e, good := f.q.sheet.Estimate()
	if !good {
		e = nil
	}
	if e == f.of && key == f.key && f.of != nil {
		return
	}
	f.stop()
	f.key, f.err = key, nil
	if e == nil {
		return
	}
	f.of, f.busy = e, true
	f.cancel = f.q.w.after(rest, f.q.w.guarded(f.start))
}

// stop gives up what is on its way; it is asked for anew by the next follow.
func (f *follower[T]) stop() {
	if f.cancel != nil {
		f.cancel()
	}
	f.cancel = nil
	if f.busy {
		f.of, f.busy = nil, false
	}
}

func (f *follower[T]) start() {
	make, err := f.ready()
	if err != nil {
		f.take(f.of, *new(T), err)
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	f.cancel = cancel
	of, key := f.of, f.key
	f.q.w.aside(func() func() {
		if ctx.Err() != nil {
			return nil
		}
		result, err := make(ctx)
		return func() {
			if ctx.Err() == nil && of == f.of && key == f.key {
				cancel()
				f.take(of, result, err)
			}
		}
	})
}

func (f *follower[T]) take(of *estimate.Estimate, result T, err error) {
	f.cancel, f.busy, f.err = nil, false, err
	if err == nil {
		f.result, f.is = result, of
	}
	f.told()
}

// now gives the result if it is that of the quote as it stands.
func (f *follower[T]) now() (result T, ok bool) {
	e, good := f.q.sheet.Estimate()
	if good && f.is == e && e != nil && !f.busy {
		return f.result, true
	}
	return result, false
}
