// Command meltwright is the window: it reads what was asked for, opens the store
// and shows the quotes.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"meltwright/assets"
	"meltwright/internal/buildinfo"
	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
	"meltwright/internal/ui"
	_ "meltwright/internal/ui/tongue" // before the toolkit reads the language
)

func main() {
	asked, err := parse(os.Args[1:], os.Stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return
	case err != nil:
		os.Exit(1)
	case asked.version:
		fmt.Println(buildinfo.Name, buildinfo.Version)
		return
	}
	if err := run(asked); err != nil {
		fmt.Fprintln(os.Stderr, "meltwright:", err)
		os.Exit(1)
	}
}

// wish is what was asked for on the command line.
type wish struct {
	db            string
	demo, version bool
}

// parse reads the command line, and explains it where it cannot.
func parse(args []string, explain io.Writer) (wish, error) {
	var w wish
	f := flag.NewFlagSet("meltwright", flag.ContinueOnError)
	f.SetOutput(explain)
	f.StringVar(&w.db, "db", "", "the `file` of quotes to open; without it, your own")
	f.BoolVar(&w.demo, "demo", false, "open a demo business, in a file of its own")
	f.BoolVar(&w.version, "version", false, "print the version and end")
	if err := f.Parse(args); err != nil {
		return w, err
	}
	if f.NArg() > 0 {
		err := fmt.Errorf("%q is one word too many; a file of quotes is named by --db", f.Arg(0))
		fmt.Fprintln(explain, "meltwright:", err)
		return w, err
	}
	return w, nil
}

// path is the file of quotes that was asked for; its folder is made if need be.
func (w wish) path() (string, error) {
	if w.db != "" {
		return filepath.Abs(w.db)
	}
	path, err := desk.StorePath()
	if err != nil {
		return "", err
	}
	if w.demo {
		path = filepath.Join(filepath.Dir(path), "demo.db")
	}
	return path, os.MkdirAll(filepath.Dir(path), 0o700)
}

// run shows the window until it is closed.
func run(asked wish) (err error) {
	path, err := asked.path()
	if err != nil {
		return err
	}
	a := app.NewWithID(buildinfo.ID)
	ui.Dress(a)
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon))
	win, err := newWindow(a)
	if err != nil {
		return err
	}
	w := ui.New(a, win, ui.Options{
		Open: open, Path: path, Demo: asked.demo, Papers: papers,
		Now: time.Now, Work: ui.NewWork(), Aside: ui.NewWork(), After: ui.Later, Backups: backups{},
		Who: whoSits(), Rescue: rescueFolder(),
	})
	defer func() {
		if broken := recover(); broken != nil {
			log.Printf("%v\n%s", broken, debug.Stack())
			err = fmt.Errorf("something in the program is broken (%v); what you typed was kept up to the last second", broken)
		}
		if e := w.End(); err == nil {
			err = e
		}
	}()
	w.Start()
	win.ShowAndRun()
	return nil
}

// newWindow makes the window. The toolkit panics where it finds no display.
func newWindow(a fyne.App) (win fyne.Window, err error) {
	defer func() {
		if recover() != nil {
			err = errors.New("no window can be opened here: there is no display, or it has no OpenGL; meltwright-cli does the same work without a window")
		}
	}()
	return a.NewWindow(buildinfo.Name), nil
}

// open opens a store in SQLite.
func open(ctx context.Context, path string, readOnly bool) (quote.Store, error) {
	if readOnly {
		return stored(sqlite.OpenReadOnly(ctx, path))
	}
	return stored(sqlite.Open(ctx, path))
}

// stored keeps a failed opening from becoming a store that is there but empty.
func stored(s *sqlite.Store, err error) (quote.Store, error) {
	if err != nil {
		return nil, err
	}
	return s, nil
}
