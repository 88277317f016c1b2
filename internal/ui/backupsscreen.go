package ui

import (
	"context"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// backupsScreen lists the backups of a file, with a look into the chosen one.
type backupsScreen struct {
	w    *Window
	path string

	bar   *kit.TopBar
	state *kit.Prose
	table *kit.LineTable
	into  *kit.Prose
	body  *page
	frame *kit.Sheet
	list  []Backup
}

func newBackupsScreen(w *Window, path string) *backupsScreen {
	b := &backupsScreen{w: w, path: path, bar: kit.NewTopBar(), state: kit.NewProse(""), into: kit.NewProse("")}
	b.bar.SetBack(w.guarded(b.goBack))
	b.bar.SetTitle("Backups", "of "+filepath.Base(path))
	b.bar.SetActions(
		kit.Action{Text: "Another file …", Do: w.guarded(b.another)},
		kit.Action{Text: "Restore", Icon: theme.IconNameHistory, Primary: true, Do: w.guarded(b.restoreChosen)},
	)
	b.table = titled("Made", "Quotes", "", "Last changed")
	b.table.OnSelect = w.guardedText(func(string) { b.look() })
	b.table.OnOpen = w.guardedText(func(string) { b.restoreChosen() })
	b.body = newPage(
		kit.NewHeading("Backups", "One is made on every day that something changed, before every update, and before anything is restored"),
		b.state, b.table, b.into,
	)
	b.frame = kit.NewSheet(b.bar, nil, b.body.scroll, nil)
	return b
}

func (b *backupsScreen) content() fyne.CanvasObject { return b.frame }
func (b *backupsScreen) leave()                     {}
func (b *backupsScreen) offers() offers             { return offers{} }

func (b *backupsScreen) arrive() {
	b.say("Looking …")
	backups, path := b.w.options.Backups, b.path
	b.w.aside(func() func() {
		list, err := backups.List(context.Background(), path)
		return func() { b.found(list, err) }
	})
}

func (b *backupsScreen) say(text string) {
	b.state.Say(text)
	b.body.relay()
}

// goBack goes to the list; where the file is not open it is tried again.
func (b *backupsScreen) goBack() {
	b.w.showList()
	if b.w.desk == nil {
		b.w.open(b.path, false)
	}
}

// found shows the backups that there are.
func (b *backupsScreen) found(list []Backup, err error) {
	b.list = list
	text := ""
	switch {
	case err != nil:
		text = "The backups cannot be read. " + sentence(err)
	case len(list) == 0:
		text = "There are no backups yet."
	}
	var lines []kit.Line
	for i, x := range list {
		line := kit.Line{ID: fmt.Sprint(i), Name: isoDay(x.Date) + ", " + x.What, Cost: "cannot be restored"}
		if x.Err == nil {
			line.Quantity, line.Cost = quantity.Number(float64(x.Quotes), 0), ""
			if !x.Changed.IsZero() {
				line.Cost = day(x.Changed.Local())
			}
		}
		lines = append(lines, line)
	}
	b.table.SetLines(lines)
	show(b.table, len(lines) > 0)
	b.table.Select("0")
	b.look()
	b.say(text)
	for _, o := range b.table.Held() {
		if f, ok := o.(fyne.Focusable); ok && len(lines) > 0 {
			b.w.win.Canvas().Focus(f)
		}
	}
}

// chosen is the backup that is marked.
func (b *backupsScreen) chosen() (Backup, bool) {
	var i int
	if _, err := fmt.Sscan(b.table.Selected(), &i); err != nil || i >= len(b.list) {
		return Backup{}, false
	}
	return b.list[i], true
}

// look says what is in the chosen one.
func (b *backupsScreen) look() {
	text := ""
	if x, ok := b.chosen(); ok {
		text = lookWords(x)
	}
	b.into.Say(text)
	b.body.relay()
}

// lookWords say what is in a backup.
func lookWords(x Backup) string {
	if x.Err != nil {
		return sentence(x.Err)
	}
	text := counted(x.Quotes, "quote")
	if x.Latest != "" {
		text += "; the one changed last is " + x.Latest + ", on " + day(x.Changed.Local())
	}
	return text + ". " + filepath.Base(x.Path) + ", " + quantity.Number(float64(x.Size)/1000, 0) + " kB."
}

func (b *backupsScreen) restoreChosen() {
	if x, ok := b.chosen(); ok {
		b.askRestore(x)
		return
	}
	b.w.say("There is nothing to restore.")
}

// another asks for a file anywhere, and looks into it.
func (b *backupsScreen) another() {
	w := b.w
	w.askPath(pathQuestion{
		title: "Which file?", text: "A copy of your quotes, wherever it lies. It is looked into first.",
		path: filepath.Join(documents(), filepath.Base(b.path)), do: "Look into it", existing: true,
		take: func(path string) {
			w.aside(func() func() {
				x := w.options.Backups.Look(context.Background(), path)
				return func() { b.askRestore(x) }
			})
		},
	})
}
