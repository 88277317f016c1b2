package ui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// The size of a new window, in Fyne's device-independent pixels.
const (
	startWidth  = 1280
	startHeight = 820
)

// Options is what the program hands to its window.
type Options struct {
	// Open opens the store at a path, to read only if asked.
	Open func(ctx context.Context, path string, readOnly bool) (quote.Store, error)
	Path string // of the store
	Demo bool   // put the demo business into an empty store, and open it
	// Papers writes documents; nil where there are none.
	Papers desk.Papers
	Now    func() time.Time
	Work   Work
	Aside  Work // for what takes a while and touches no store; nil: Work
	Trials int  // of a range; 0 is 10,000
	After  After
	// Backups are those of the file; nil where there are none.
	Backups Backups
	Who     string // sits at the window; steps in a quote's life carry the name
	// Rescue is a folder for what was typed and cannot be kept; empty for none.
	Rescue string
}

// Window is the program's window and what is open in it.
type Window struct {
	app     fyne.App
	win     fyne.Window
	options Options
	work    Work
	after   After
	desk    *desk.Desk // nil until the store is open

	readOnly bool // nothing is kept
	people   people
	pictured string // where the last picture came from

	root     *fyne.Container // frame, toast
	frame    *fyne.Container // alarm, screen
	toast    *kit.Toast
	alarm    *alarm
	menu     *menu
	look     *appearance
	screen   screen
	list     *listScreen
	keepings []*keeping
	closing  bool
	question *kit.Ask // the one that is asked now, for the tests
}

// screen is what fills the window.
type screen interface {
	content() fyne.CanvasObject
	// arrive is called when the screen has come up, leave when it goes.
	arrive()
	leave()
	// offers says what the menu can do here.
	offers() offers
}

// New makes the window's screens. Start opens the store.
func New(app fyne.App, win fyne.Window, o Options) *Window {
	w := &Window{app: app, win: win, options: o, work: o.Work, after: o.After}
	w.look = newAppearance(w)
	w.toast = kit.NewToast()
	w.toast.After = func(d time.Duration, f func()) { w.after(d, f) }
	w.alarm = newAlarm(w)
	w.frame = &fyne.Container{Layout: frameLayout{}, Objects: []fyne.CanvasObject{w.alarm.bar, &fyne.Container{}}}
	w.menu = newMenu(w)
	w.list = newListScreen(w)
	win.SetPadded(false)
	win.SetMainMenu(w.menu.main)
	w.menu.fresh = false
	w.root = kit.OverAll(w.frame, w.toast)
	win.SetContent(w.root)
	win.Resize(fyne.NewSize(startWidth, startHeight))
	win.SetCloseIntercept(w.guarded(w.close))
	w.show(w.list)
	return w
}

// show puts a screen into the window.
func (w *Window) show(s screen) {
	if w.screen != nil {
		w.screen.leave()
	}
	w.screen = s
	w.frame.Objects[1] = s.content()
	w.frame.Refresh()
	w.menu.offer(s.offers())
	s.arrive()
}

// say says what was done, for a while.
func (w *Window) say(text string) {
	w.toast.Say(text)
	w.fitToast()
}

// offer says what was done, with a button for what can be done about it.
func (w *Window) offer(text, action string, do func()) {
	w.toast.Offer(text, action, w.guarded(do))
	w.fitToast()
}

// fitToast gives the toast the room that its words take.
func (w *Window) fitToast() { w.root.Layout.Layout(w.root.Objects, w.root.Size()) }

// tell says something over the window that has only to be read.
func (w *Window) tell(title, text string) {
	w.question = kit.Tell(w.win.Canvas(), title, text)
}

// ask asks something over the window.
func (w *Window) ask(a *kit.Ask) {
	for i, c := range a.Choices {
		if c.Do != nil {
			a.Choices[i].Do = w.guarded(c.Do)
		}
	}
	w.question = a
	a.Show(w.win.Canvas())
}

// asking tells that something lies over the screen: the menu waits until it is
// answered.
func (w *Window) asking() bool { return w.win.Canvas().Overlays().Top() != nil }

// close keeps everything and then closes the window; where something cannot be
// kept the user decides.
func (w *Window) close() {
	w.closing = true
	if w.screen != nil {
		w.screen.leave()
	}
	w.keepEverything()
	w.settleClosing()
}

// settleClosing closes the window once all is kept.
func (w *Window) settleClosing() {
	if !w.closing {
		return
	}
	if w.allKept() {
		w.closing = false
		w.win.SetCloseIntercept(nil)
		w.win.Close()
		return
	}
	for _, k := range w.keepings {
		if k.err != nil {
			w.closing = false
			w.askToClose(k)
			return
		}
	}
}

func (w *Window) askToClose(k *keeping) {
	w.ask(&kit.Ask{
		Title: "Close without keeping it?",
		Text:  "The last changes of " + k.subject.name() + " could not be kept. " + sentence(k.err) + " They are lost if the window is closed now.",
		Choices: []kit.Choice{
			{Text: "Stay", Safe: true},
			{Text: "Try again", Do: w.close},
			{Text: "Close and lose them", Style: kit.Danger, Do: func() {
				w.win.SetCloseIntercept(nil)
				w.win.Close()
			}},
		},
	})
}

// End lets go of the store, after what was handed to Work is done. Call it when
// the window has closed.
func (w *Window) End() error {
	w.work.Close(10 * time.Second)
	w.besides().Close(10 * time.Second)
	if w.desk == nil {
		return nil
	}
	return w.desk.Close()
}
