package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// The build tags of the window. The first says that every call from another
// goroutine goes through fyne.Do, and takes the toolkit's own check of it out.
const (
	threadTag = "migrated_fynedo"
	plainTags = "no_emoji,no_metadata"
	tags      = threadTag + "," + plainTags
)

// house is the checkout that a task works in, and where it tells of its work.
type house struct {
	root string
	out  io.Writer
}

// findHouse looks for the checkout from the working folder upwards.
func findHouse(out io.Writer) (house, error) {
	from, err := os.Getwd()
	if err != nil {
		return house{}, err
	}
	for dir := from; ; dir = filepath.Dir(dir) {
		text, err := os.ReadFile(filepath.Join(dir, "go.mod"))
		if err == nil && bytes.HasPrefix(text, []byte("module meltwright\n")) {
			return house{root: dir, out: out}, nil
		}
		if dir == filepath.Dir(dir) {
			return house{}, fmt.Errorf("%s is not inside Meltwright's source; change to the folder that has its go.mod", from)
		}
	}
}

// say prints one line.
func (h house) say(format string, args ...any) {
	fmt.Fprintf(h.out, format+"\n", args...)
}

// command prepares a program to run in the checkout, with extra settings
// ("NAME=value") laid over the environment. Nothing is ever read from stdin.
func (h house) command(extra []string, name string, args ...string) *exec.Cmd {
	c := exec.Command(name, args...)
	c.Dir = h.root
	c.Env = append(os.Environ(), extra...)
	return c
}

// show runs a program with its output on ours.
func (h house) show(extra []string, name string, args ...string) error {
	c := h.command(extra, name, args...)
	c.Stdout, c.Stderr = h.out, h.out
	return named(name, c.Run())
}

// read runs a program and gives what it prints; what it complains of is in the error.
func (h house) read(extra []string, name string, args ...string) (string, error) {
	var complaint bytes.Buffer
	c := h.command(extra, name, args...)
	c.Stderr = &complaint
	printed, err := c.Output()
	if err != nil && complaint.Len() > 0 {
		return string(printed), fmt.Errorf("%s: %w\n%s", name, err, strings.TrimSpace(complaint.String()))
	}
	return string(printed), named(name, err)
}

// named puts the program's name before its error.
func named(name string, err error) error {
	if err == nil || errors.Is(err, exec.ErrNotFound) {
		return err
	}
	return fmt.Errorf("%s: %w", filepath.Base(name), err)
}

// built is where a program of ours is built to.
func (h house) built(program string) string {
	if runtime.GOOS == "windows" {
		program += ".exe"
	}
	return filepath.Join(h.root, "bin", program)
}

// buildWindow compiles the window program, which needs a C compiler.
func (h house) buildWindow() error {
	return h.build("meltwright", "CGO_ENABLED=1", "-tags", tags)
}

// buildCLI compiles the program without a window, which needs Go alone.
func (h house) buildCLI() error {
	return h.build("meltwright-cli", "CGO_ENABLED=0")
}

func (h house) build(program, setting string, flags ...string) error {
	source := "./cmd/" + program
	if found, _ := filepath.Glob(filepath.Join(h.root, "cmd", program, "*.go")); len(found) == 0 {
		return fmt.Errorf("cannot build %s: its source, cmd/%s, is not there", program, program)
	}
	args := append([]string{"build", "-o", h.built(program)}, flags...)
	if err := h.show([]string{setting}, "go", append(args, source)...); err != nil {
		return fmt.Errorf("%s does not build; the lines above say why (%w)", program, err)
	}
	return nil
}
