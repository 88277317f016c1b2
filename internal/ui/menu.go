package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meltwright/internal/desk"
	"meltwright/internal/ui/look"
)

// offers is what a screen lets the menu do; nil is not possible there.
type offers struct {
	duplicate, remove             func()
	undo, redo                    func()
	proposal, costSheet, workbook func()
	write                         func(desk.Print) // the papers that have no key
	nextStage, lastStage          func()
	nextPiece, lastPiece          func()
	find, toPart, scales          func()
	send                          func()
	list, shopBook                func() // nil: as everywhere
	bin                           func()
}

// menu is the window's main menu. Its items carry the shortcuts, because those
// of the canvas do not reach past an entry that has the keyboard.
type menu struct {
	w     *Window
	main  *fyne.MainMenu
	now   offers
	items map[*fyne.MenuItem]func(offers) func() // what each does, of what is offered
	modes map[look.Mode]*fyne.MenuItem
	texts map[int]*fyne.MenuItem
	fresh bool // the window has not shown it yet
}

// The shortcuts' keys with Ctrl, or Cmd on a Mac.
const (
	plainKey fyne.KeyModifier = 0
	shiftKey                  = fyne.KeyModifierShift
)

func newMenu(w *Window) *menu {
	m := &menu{w: w, items: map[*fyne.MenuItem]func(offers) func(){}, modes: map[look.Mode]*fyne.MenuItem{}, texts: map[int]*fyne.MenuItem{}, fresh: true}
	m.main = fyne.NewMainMenu(m.quotes(), m.edit(), m.papers(), m.view(), m.move())
	m.markLook()
	return m
}

// item makes an item that does what of says of the present screen's offers.
func (m *menu) item(label string, key fyne.KeyName, with fyne.KeyModifier, of func(offers) func()) *fyne.MenuItem {
	item := fyne.NewMenuItem(label, nil)
	item.Action = m.w.guarded(func() {
		if do := of(m.now); do != nil && !m.w.asking() {
			do()
		}
	})
	if key != "" {
		item.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | with}
	}
	m.items[item] = of
	return item
}

func (m *menu) quotes() *fyne.Menu {
	w := m.w
	quit := m.item("Quit", fyne.KeyQ, plainKey, func(offers) func() { return w.close })
	quit.IsQuit = true
	return fyne.NewMenu("Quotes",
		m.item("New quote", fyne.KeyN, plainKey, func(offers) func() { return w.newQuote }),
		m.item("All quotes", fyne.KeyL, plainKey, func(o offers) func() { return either(o.list, w.showList) }),
		m.item("Find", fyne.KeyF, plainKey, func(o offers) func() { return o.find }),
		fyne.NewMenuItemSeparator(),
		m.item("Duplicate", fyne.KeyD, plainKey, func(o offers) func() { return o.duplicate }),
		m.item("Put into the bin", fyne.KeyDelete, shiftKey, func(o offers) func() { return o.remove }),
		m.item("Bin", "", plainKey, func(o offers) func() { return either(o.bin, w.showBin) }),
		fyne.NewMenuItemSeparator(),
		m.item("Clients and calls", fyne.KeyK, plainKey, func(offers) func() { return w.showCards }),
		m.item("Open what was sent to you …", fyne.KeyR, plainKey, func(offers) func() { return w.receive }),
		m.item("Backups", "", plainKey, func(offers) func() { return w.backupsOffer() }),
		fyne.NewMenuItemSeparator(),
		m.item("Shop book", fyne.KeyB, plainKey, func(o offers) func() { return either(o.shopBook, w.showBook) }),
		fyne.NewMenuItemSeparator(),
		quit,
	)
}

func either(a, b func()) func() {
	if a != nil {
		return a
	}
	return b
}

func (m *menu) edit() *fyne.Menu {
	undo := m.item("Undo", fyne.KeyZ, plainKey, func(o offers) func() { return o.undo })
	redo := m.item("Redo", fyne.KeyZ, shiftKey, func(o offers) func() { return o.redo })
	again := m.item("Redo", fyne.KeyY, plainKey, func(o offers) func() { return o.redo })
	// Fyne knows the plain ones by names of their own.
	undo.Shortcut, again.Shortcut = &fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}
	return fyne.NewMenu("Edit", undo, redo, again)
}

func (m *menu) papers() *fyne.Menu {
	return fyne.NewMenu("Papers",
		m.item("Proposal …", fyne.KeyP, plainKey, func(o offers) func() { return o.proposal }),
		m.item("Cost sheet …", fyne.KeyP, shiftKey, func(o offers) func() { return o.costSheet }),
		m.item("Workbook …", fyne.KeyW, shiftKey, func(o offers) func() { return o.workbook }),
		fyne.NewMenuItemSeparator(),
		m.item("Send as one file …", fyne.KeyS, shiftKey, func(o offers) func() { return o.send }),
		fyne.NewMenuItemSeparator(),
		m.paper("Order list …", desk.OrderList),
		m.paper("Order list as a table …", desk.OrderSheet),
		m.paper("Traveller …", desk.Traveller),
		m.paper("Every line as a table …", desk.Lines),
	)
}

// paper makes an item that writes a paper.
func (m *menu) paper(label string, which desk.Print) *fyne.MenuItem {
	return m.item(label, "", plainKey, func(o offers) func() {
		if o.write == nil {
			return nil
		}
		return func() { o.write(which) }
	})
}

func (m *menu) view() *fyne.Menu {
	a := m.w.look
	var items []*fyne.MenuItem
	for _, mode := range []struct {
		name string
		mode look.Mode
	}{{"Light", look.Light}, {"Dark", look.Dark}, {"Light or dark, as the computer", look.Auto}} {
		item := m.item(mode.name, "", plainKey, func(offers) func() { return func() { a.setMode(mode.mode) } })
		m.modes[mode.mode] = item
		items = append(items, item)
	}
	items = append(items, fyne.NewMenuItemSeparator())
	for _, percent := range []int{100, 125, 150, 175, 200} {
		item := m.item(fmt.Sprintf("Text %d %%", percent), "", plainKey, func(offers) func() { return func() { a.setText(percent) } })
		m.texts[percent] = item
		items = append(items, item)
	}
	return fyne.NewMenu("View", append(items, fyne.NewMenuItemSeparator(),
		m.item("Larger text", fyne.KeyEqual, plainKey, func(offers) func() { return func() { a.grow(25) } }),
		m.item("Smaller text", fyne.KeyMinus, plainKey, func(offers) func() { return func() { a.grow(-25) } }),
		m.item("Plain text size", fyne.Key0, plainKey, func(offers) func() { return func() { a.setText(look.LeastPercent) } }),
	)...)
}

func (m *menu) move() *fyne.Menu {
	alt := func(label string, key fyne.KeyName, of func(offers) func()) *fyne.MenuItem {
		item := m.item(label, "", plainKey, of)
		item.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierAlt}
		return item
	}
	return fyne.NewMenu("Go",
		alt("Next stage", fyne.KeyDown, func(o offers) func() { return o.nextStage }),
		alt("Previous stage", fyne.KeyUp, func(o offers) func() { return o.lastStage }),
		alt("Next piece", fyne.KeyPageDown, func(o offers) func() { return o.nextPiece }),
		alt("Previous piece", fyne.KeyPageUp, func(o offers) func() { return o.lastPiece }),
		m.item("Scale options", fyne.KeyO, plainKey, func(o offers) func() { return o.scales }),
		alt("Stages, or back to the fields", fyne.KeyS, func(o offers) func() { return o.toPart }),
	)
}

// offer makes possible what a screen offers.
func (m *menu) offer(o offers) {
	m.now = o
	for item, of := range m.items {
		item.Disabled = of(o) == nil
	}
	m.refresh()
}

// markLook ticks the look that is worn.
func (m *menu) markLook() {
	t := m.w.look.theme
	for mode, item := range m.modes {
		item.Checked = mode == t.Mode()
	}
	for percent, item := range m.texts {
		item.Checked = percent == t.Percent()
	}
	m.refresh()
}

func (m *menu) refresh() {
	if !m.fresh {
		m.main.Refresh()
	}
}
