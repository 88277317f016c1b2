package ui

import (
	"context"

	"fyne.io/fyne/v2"
)

// apart does a job that takes seconds and touches no store away from the window's
// goroutine, and keeps no other job waiting meanwhile.
func (w *Window) apart(job func() (apply func())) {
	work := w.besides()
	if _, ok := work.(*queue); ok {
		work = NewWork()
		defer work.Close(0) // it ends by itself when the job is done
	}
	work.Do(func() func() {
		apply := job()
		if apply == nil {
			return nil
		}
		return w.guarded(apply)
	})
}

// errand is a job of which only the last one begun counts: those before are
// called off, and what they would have shown is dropped.
type errand struct{ cancel context.CancelFunc }

// stop calls off what is on its way.
func (e *errand) stop() {
	if e.cancel != nil {
		e.cancel()
		e.cancel = nil
	}
}

// begin calls off the last job and begins another. What the job gives back is
// applied on the window's goroutine, unless it was called off.
func (e *errand) begin(w *Window, job func(ctx context.Context) (apply func())) {
	e.stop()
	ctx, cancel := context.WithCancel(context.Background())
	e.cancel = cancel
	w.apart(func() func() {
		if ctx.Err() != nil {
			return nil
		}
		apply := job(ctx)
		return func() {
			if ctx.Err() == nil && apply != nil {
				apply()
			}
		}
	})
}

// aloud runs f on the window's goroutine while a job goes on, unless the job was
// called off before.
func (w *Window) aloud(ctx context.Context, f func()) {
	fyne.Do(w.guarded(func() {
		if ctx.Err() == nil {
			f()
		}
	}))
}

// telling gives what a job tells its progress to: each per cent once.
func (w *Window) telling(ctx context.Context, show func(share float64)) func(share float64) {
	last := -1
	return func(share float64) {
		if now := int(100 * share); now > last {
			last = now
			w.aloud(ctx, func() { show(share) })
		}
	}
}
