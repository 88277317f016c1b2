package ui

import (
	"fmt"
	"sync"
	"time"

	"fyne.io/fyne/v2"
)

// Work does what would hold the window up: reading and writing the store and
// the papers. Jobs are done one after the other, in order, so that a list that
// is asked for after a save shows what was saved.
type Work interface {
	// Do runs job away from the window's goroutine, and on it what job gives
	// back. Either may be nil.
	Do(job func() (apply func()))
	// Close waits for the jobs that were handed in, for so long at most, and
	// tells whether all were done.
	Close(within time.Duration) bool
}

// After calls f on the window's goroutine when d has passed, unless it is
// cancelled before.
type After func(d time.Duration, f func()) (cancel func())

// Later is the After of the clock on the wall.
func Later(d time.Duration, f func()) func() {
	t := time.AfterFunc(d, func() { fyne.Do(f) })
	return func() { t.Stop() }
}

// queue is the Work of the program: one goroutine and a list of jobs.
type queue struct {
	mu     sync.Mutex
	jobs   []func() func()
	wake   chan struct{}
	closed bool
	done   chan struct{}
}

// NewWork starts a goroutine that does jobs.
func NewWork() Work {
	q := &queue{wake: make(chan struct{}, 1), done: make(chan struct{})}
	go q.run()
	return q
}

// Do implements Work.
func (q *queue) Do(job func() func()) {
	q.mu.Lock()
	q.jobs = append(q.jobs, job)
	q.mu.Unlock()
	q.rouse()
}

func (q *queue) rouse() {
	select {
	case q.wake <- struct{}{}:
	default:
	}
}

// Close implements Work.
func (q *queue) Close(within time.Duration) bool {
	q.mu.Lock()
	q.closed = true
	q.mu.Unlock()
	q.rouse()
	select {
	case <-q.done:
		return true
	case <-time.After(within):
		return false
	}
}

func (q *queue) run() {
	defer close(q.done)
	for {
		job, more := q.next()
		if !more {
			return
		}
		if job == nil {
			<-q.wake
			continue
		}
		if apply := sound(job); apply != nil {
			fyne.Do(apply)
		}
	}
}

// next takes the first job; there are no more when the queue is closed and empty.
func (q *queue) next() (job func() func(), more bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if len(q.jobs) == 0 {
		return nil, !q.closed
	}
	job = q.jobs[0]
	q.jobs = q.jobs[1:]
	return job, true
}

// sound runs a job; a panic in it becomes one on the window's goroutine, where
// it is caught, told and survived.
func sound(job func() func()) (apply func()) {
	defer func() {
		if broken := recover(); broken != nil {
			apply = func() { panic(fmt.Sprint(broken)) }
		}
	}()
	return job()
}
