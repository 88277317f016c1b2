package ui

import (
	"context"
	"errors"
	"slices"
	"time"

	"meltwright/internal/quote"
)

// How long after the last keystroke a draft is kept, and how long after a
// failure it is tried again at first and at most.
const (
	pause      = 600 * time.Millisecond
	firstRetry = 2 * time.Second
	lastRetry  = 30 * time.Second
)

// subject is what keeps itself while somebody works on it: a quote, the shop book.
type subject interface {
	// name is what a sentence calls it: "“The Weir Keeper”".
	name() string
	// unsaved tells whether there is anything to keep.
	unsaved() bool
	// copy takes a copy and gives back what keeps it, away from the window's
	// goroutine; kept is then called on it.
	copy() (keep func(context.Context) (kept func(), err error))
	// notKept says that the copy could not be kept.
	notKept()
}

// keeping keeps one subject: a moment after it was last changed, at once when it
// is left, and again and again for as long as that fails. It never gives up, and
// what was typed stays where it is.
type keeping struct {
	w       *Window
	subject subject
	cancel  func() // of the timer that is running; nil for none
	busy    bool   // a copy is on its way
	again   bool   // and another must follow it
	wait    time.Duration
	err     error // of the last try; nil once it is kept
	given   bool  // up: what is not kept is to go

	rescue string // the file that what was typed lies in meanwhile; empty for none
}

func (w *Window) keep(s subject) *keeping { return &keeping{w: w, subject: s} }

// enlist has the window wait for the subject when it closes, and tell of it when
// it cannot be kept.
func (k *keeping) enlist() {
	if !slices.Contains(k.w.keepings, k) {
		k.w.keepings = append(k.w.keepings, k)
	}
}

// changed keeps the subject soon.
func (k *keeping) changed() {
	if k.w.readOnly {
		k.in(pause)
		return
	}
	k.enlist()
	if k.err == nil {
		k.in(pause)
	}
}

// now keeps the subject at once, if there is anything to keep.
func (k *keeping) now() {
	k.stop()
	if k.w.readOnly {
		if k.subject.unsaved() {
			k.w.shelter(k)
			k.w.alarm.show(k)
		}
		return
	}
	if k.busy {
		k.again = true
		return
	}
	if k.subject.unsaved() && !k.given {
		k.send()
	}
}

func (k *keeping) stop() {
	if k.cancel != nil {
		k.cancel()
		k.cancel = nil
	}
}

func (k *keeping) in(d time.Duration) {
	k.stop()
	k.cancel = k.w.after(d, k.w.guarded(func() {
		k.cancel = nil
		k.now()
	}))
}

func (k *keeping) send() {
	keep := k.subject.copy()
	k.busy = true
	k.enlist()
	k.w.do(func() func() {
		kept, err := keep(context.Background())
		return func() { k.sent(kept, err) }
	})
}

// sent takes in how keeping a copy went.
func (k *keeping) sent(kept func(), err error) {
	k.busy = false
	k.err = err
	if err != nil {
		k.subject.notKept()
		k.w.shelter(k)
		k.wait = min(max(2*k.wait, firstRetry), lastRetry)
		if k.retries() {
			k.in(k.wait)
		}
	} else {
		k.wait = 0
		k.w.unshelter(k)
		kept()
		if k.again || k.subject.unsaved() && k.cancel == nil {
			k.again = false
			k.now()
		}
	}
	k.again = false
	k.w.settleKeepings()
}

// retries tells whether trying again may help: not where the quote was changed
// elsewhere, which is for the user to settle.
func (k *keeping) retries() bool { return !errors.Is(k.err, quote.ErrOutdated) }

// idle tells that nothing is left to keep.
func (k *keeping) idle() bool { return k.given || !k.busy && k.cancel == nil && !k.subject.unsaved() }

// keepEverything keeps all that is not kept yet.
func (w *Window) keepEverything() {
	for _, k := range w.keepings {
		k.now()
	}
}

// settleKeepings forgets what is kept and no longer on a screen, tells what
// cannot be kept, and goes on with what waits for all being kept.
func (w *Window) settleKeepings() {
	left := w.keepings[:0:0]
	var failed *keeping
	for _, k := range w.keepings {
		if k.err != nil && failed == nil {
			failed = k
		}
		if !k.idle() {
			left = append(left, k)
		}
	}
	w.keepings = left
	w.alarm.show(failed)
	w.settleClosing()
}

// allKept tells that nothing is left to keep.
func (w *Window) allKept() bool {
	for _, k := range w.keepings {
		if !k.idle() {
			return false
		}
	}
	return true
}
