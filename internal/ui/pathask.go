package ui

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/kit"
)

// pathQuestion asks for a file.
type pathQuestion struct {
	title, text string
	path        string // what is proposed
	do          string // the word on the button
	existing    bool   // to be opened, not written
	take        func(path string)
	cancel      func() // nil: nothing happens
}

// askPath asks for a file by its path, which can be typed or browsed for.
func (w *Window) askPath(p pathQuestion) {
	entry := kit.NewEntry(1)
	entry.SetText(p.path)
	entry.CursorColumn = len([]rune(p.path))
	a := &kit.Ask{Title: p.title, Text: p.text}
	accept := func() { w.takePath(p, entry.Text) }
	browse := kit.NewButton("Browse …", kit.Plain, nil).WithIcon(theme.IconNameFolderOpen)
	browse.OnTapped = w.guarded(func() {
		a.Close()
		w.browse(p, entry.Text)
	})
	a.Body = kit.NewColumn(8, entry, leading(browse))
	a.Choices = []kit.Choice{{Text: "Cancel", Safe: true, Do: p.cancel}, {Text: p.do, Style: kit.Primary, Do: accept}}
	entry.OnSubmitted = w.guardedText(func(string) {
		a.Close()
		accept()
	})
	entry.OnEscape = w.guarded(func() {
		a.Close()
		if p.cancel != nil {
			p.cancel()
		}
	})
	w.ask(a)
	w.win.Canvas().Focus(entry)
}

// takePath checks a path and asks again where it will not do.
func (w *Window) takePath(p pathQuestion, typed string) {
	path := homely(strings.TrimSpace(typed))
	again := func(text string) {
		p.path, p.text = path, text
		w.askPath(p)
	}
	folder, err := os.Stat(filepath.Dir(path))
	is, isErr := os.Stat(path)
	switch {
	case path == "":
		again("Give the file a name.")
	case err != nil || !folder.IsDir():
		again("There is no folder " + filepath.Dir(path) + "; give one that there is.")
	case isErr == nil && is.IsDir():
		again(path + " is a folder; add the name of a file.")
	case isErr == nil && !p.existing:
		w.ask(&kit.Ask{
			Title: "Replace the file?", Text: path + " is there already.",
			Choices: []kit.Choice{
				{Text: "Choose another", Safe: true, Do: func() { again(p.text) }},
				{Text: "Replace it", Style: kit.Danger, Do: func() { p.take(path) }},
			},
		})
	default:
		p.take(path)
	}
}

// homely writes out the ~ of a home folder.
func homely(path string) string {
	if rest, ok := strings.CutPrefix(path, "~"+string(filepath.Separator)); ok {
		if home, err := os.UserHomeDir(); err == nil {
			return filepath.Join(home, rest)
		}
	}
	return path
}

// browse looks for the file among the folders.
func (w *Window) browse(p pathQuestion, typed string) {
	chosen := func(uri fyne.URI, err error) {
		if err == nil && uri != nil {
			p.path = uri.Path()
			if !p.existing {
				p.path = filepath.Join(uri.Path(), filepath.Base(typed))
			}
		}
		w.askPath(p)
	}
	var d interface {
		SetLocation(fyne.ListableURI)
		Show()
	}
	if p.existing {
		d = dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
			if f == nil {
				chosen(nil, err)
				return
			}
			_ = f.Close() // only its name is wanted
			chosen(f.URI(), err)
		}, w.win)
	} else {
		d = dialog.NewFolderOpen(func(folder fyne.ListableURI, err error) { chosen(folder, err) }, w.win)
	}
	if at, err := storage.ListerForURI(storage.NewFileURI(filepath.Dir(typed))); err == nil {
		d.SetLocation(at)
	}
	d.Show()
}
