package ui

import (
	"errors"
	"fmt"
	"log"
	"runtime/debug"
	"strings"

	"meltwright/internal/fault"
)

// guarded is f, except that a panic in it is told in a sentence, with what was
// typed kept, and the window goes on. Everything that a widget calls goes
// through it.
func (w *Window) guarded(f func()) func() {
	return func() { w.try(f) }
}

// guardedText is guarded for what takes a text.
func (w *Window) guardedText(f func(string)) func(string) {
	return func(s string) { w.try(func() { f(s) }) }
}

// guardedNumber is guarded for what takes a number.
func (w *Window) guardedNumber(f func(int)) func(int) {
	return func(n int) { w.try(func() { f(n) }) }
}

func (w *Window) try(f func()) {
	defer w.rescue()
	f()
}

// rescue catches a panic of the function that deferred it.
func (w *Window) rescue() {
	broken := recover()
	if broken == nil {
		return
	}
	log.Printf("meltwright: %v\n%s", broken, debug.Stack())
	w.keepEverything()
	w.tell("That did not work", fmt.Sprintf("Something in the program is broken (%v). What you typed is being kept. You can go on; if it happens again, close the window and open it anew.", broken))
}

// do hands a job to Work; what it gives back to be applied is guarded.
func (w *Window) do(job func() func()) {
	w.work.Do(func() func() {
		apply := job()
		if apply == nil {
			return nil
		}
		return w.guarded(apply)
	})
}

// sentence says an error in words: its faults, or its own text.
func sentence(err error) string {
	var list fault.List
	if errors.As(err, &list) && len(list) > 1 {
		return fmt.Sprintf("%s, and %d more.", capital(list[0].Error()), len(list)-1)
	}
	s := capital(fault.All(err)[0].Error())
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}

// capital begins a sentence.
func capital(s string) string {
	for _, r := range s {
		first := string(r)
		return strings.ToUpper(first) + s[len(first):]
	}
	return s
}
