package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
)

// start brings a fresh machine to a first quote: in the window where there is
// a display, on paper where there is none.
func start(h house, _ []string) error {
	if can, why := findDisplay(); !can {
		h.say("No window here: %s.", why)
		return h.startOnPaper()
	}
	return h.startWindow()
}

// startWindow sees to what the window is built from, and opens it.
func (h house) startWindow() error {
	if err := h.provide(windowParts(runtime.GOOS)); err != nil {
		return err
	}
	return h.openWindow()
}

// openWindow builds the window and shows it on the demo quote until it is closed.
func (h house) openWindow() error {
	h.say("Building the window. The first time takes a few minutes.")
	if err := h.buildWindow(); err != nil {
		return err
	}
	h.say("Opening the window on a demo quote. Close it to come back here.")
	if err := h.show(nil, h.built("meltwright"), "--demo"); err != nil {
		return fmt.Errorf("the window ended with an error; the lines above say which (%w)", err)
	}
	return nil
}

// startOnPaper does the demo quote's job without a window: the commission,
// its price, and the proposal as a PDF in out/.
func (h house) startOnPaper() error {
	h.say("Doing the same job without a window. The first time takes a minute or two to build.\n")
	if err := h.buildCLI(); err != nil {
		return err
	}
	cli := h.built("meltwright-cli")
	quote, proposal := filepath.Join("out", "demo.json"), filepath.Join("out", "demo-proposal.pdf")
	if err := h.keep(quote, cli, "example"); err != nil {
		return err
	}
	if err := h.show(nil, cli, "estimate", quote); err != nil {
		return err
	}
	if _, err := h.read(nil, cli, "proposal", quote, proposal); err != nil {
		return err
	}
	h.say("\nThe commission:  %s", filepath.Join(h.root, quote))
	h.say("The proposal:    %s", filepath.Join(h.root, proposal))
	h.say("To see the window, say the same command in a terminal of a desktop.")
	return nil
}

// keep runs a program and puts what it prints into a file of the checkout.
func (h house) keep(file, name string, args ...string) error {
	printed, err := h.read(nil, name, args...)
	if err != nil {
		return err
	}
	path := filepath.Join(h.root, file)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, []byte(printed), 0o644)
}
