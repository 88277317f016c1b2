package ui

import (
	"context"
	"errors"
	"path/filepath"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// Start opens the store, away from the window's goroutine, and shows what is in
// it; where it cannot be opened it says why and offers ways on.
func (w *Window) Start() { w.open(w.options.Path, false) }

func (w *Window) open(path string, readOnly bool) {
	w.list.wait("Opening " + filepath.Base(path) + " …")
	o := w.options
	w.do(func() func() {
		ctx := context.Background()
		d, first, err := sitDown(ctx, o, path, readOnly)
		if err != nil {
			return func() { w.cannotOpen(path, err) }
		}
		return func() { w.opened(d, path, readOnly, first) }
	})
}

// sitDown opens the store and the desk at it. For a demo it fills an empty
// store, and gives the quote to open first.
func sitDown(ctx context.Context, o Options, path string, readOnly bool) (*desk.Desk, *quote.Quote, error) {
	store, err := o.Open(ctx, path, readOnly)
	if err != nil {
		return nil, nil, err
	}
	d, err := desk.New(ctx, store, o.Papers, o.Now)
	if err == nil && o.Demo {
		var first *quote.Quote
		if first, err = fillDemo(ctx, d, readOnly); err == nil {
			return d, first, nil
		}
	}
	if err != nil {
		_ = store.Close() // the first error is the one to tell
		return nil, nil, err
	}
	return d, nil, nil
}

// fillDemo puts the demo business into an empty store, and gives the quote that
// was changed last.
func fillDemo(ctx context.Context, d *desk.Desk, readOnly bool) (*quote.Quote, error) {
	rows, _, err := d.List(ctx, quote.Filter{Limit: 1})
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 && !readOnly {
		for _, q := range desk.Demo() {
			if _, err := d.Take(ctx, q); err != nil {
				return nil, err
			}
		}
		rows, _, err = d.List(ctx, quote.Filter{Limit: 1})
	}
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	q, err := d.Fetch(ctx, rows[0].ID)
	return &q, err
}

func (w *Window) opened(d *desk.Desk, path string, readOnly bool, first *quote.Quote) {
	w.desk, w.readOnly = d, readOnly
	w.alarm.show(nil)
	w.list.opened(path, readOnly)
	w.keepBackup()
	if first != nil {
		w.show(newQuoteScreen(w, d.Put(*first)))
		return
	}
	w.list.reload()
}

// cannotOpen says why the store cannot be opened, and offers ways on.
func (w *Window) cannotOpen(path string, err error) {
	w.list.wait("")
	ways := []kit.Choice{{Text: "Quit", Do: w.win.Close}, {Text: "Choose another file …", Do: func() { w.chooseStore(path) }}}
	if !errors.Is(err, quote.ErrNewer) && !errors.Is(err, quote.ErrNotOurs) { // those cannot be read either
		ways = append(ways, kit.Choice{Text: "Open to read only", Do: func() { w.open(path, true) }})
	}
	ways = append(ways, kit.Choice{Text: "Try again", Style: kit.Primary, Safe: true, Do: func() { w.open(path, false) }})
	w.ask(&kit.Ask{
		Title:   "Your quotes cannot be opened",
		Text:    sentence(err) + "\n\nThe file is " + path + ". It has not been changed.",
		Choices: w.withBackups(path, err, ways),
	})
}

// chooseStore asks for another file to open, or to begin.
func (w *Window) chooseStore(path string) {
	w.askPath(pathQuestion{
		title: "Which file?", text: "A file of quotes that there is, or the name of a new one.",
		path: path, do: "Open", existing: true,
		take:   func(chosen string) { w.open(chosen, false) },
		cancel: func() { w.open(path, false) },
	})
}
