package ui

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// atOnce is the Work of tests: every job is done where it is handed in.
type atOnce struct{}

func (atOnce) Do(job func() func()) {
	if apply := job(); apply != nil {
		apply()
	}
}

func (atOnce) Close(time.Duration) bool { return true }

// clock is the After of tests: it goes on when it is told to.
type clock struct {
	now    time.Duration
	timers []*timer
}

type timer struct {
	at time.Duration
	f  func()
}

func (c *clock) after(d time.Duration, f func()) func() {
	t := &timer{c.now + d, f}
	c.timers = append(c.timers, t)
	return func() { t.f = nil }
}

// pass lets time pass.
func (c *clock) pass(d time.Duration) {
	c.now += d
	for i := 0; i < len(c.timers); i++ {
		if t := c.timers[i]; t.at <= c.now && t.f != nil {
			f := t.f
			t.f = nil
			f()
		}
	}
}

// fragile is a store that fails when it is told to.
type fragile struct {
	quote.Store
	fail  error
	saves int
}

func (f *fragile) Save(ctx context.Context, q quote.Quote, price string, now time.Time) (quote.Quote, error) {
	if f.fail != nil {
		return quote.Quote{}, f.fail
	}
	f.saves++
	return f.Store.Save(ctx, q, price, now)
}

// noon is when tests take place.
var noon = time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)

// bench is a window with a person at it.
type bench struct {
	testing.TB
	w      *Window
	win    fyne.Window
	clock  *clock
	store  *fragile
	path   string
	closed bool
}

// sit opens a window at a store of its own, in the light look.
func sit(t testing.TB, change ...func(*Options)) *bench {
	t.Helper()
	app := test.NewTempApp(t)
	b := &bench{TB: t, clock: &clock{}, path: filepath.Join(t.TempDir(), "quotes.db")}
	o := Options{
		Path: b.path, Now: func() time.Time { return noon }, Work: atOnce{}, After: b.clock.after, Trials: 200,
		Open: func(ctx context.Context, path string, _ bool) (quote.Store, error) {
			s, err := sqlite.Open(ctx, path)
			b.store = &fragile{Store: s}
			return b.store, err
		},
	}
	for _, f := range change {
		f(&o)
	}
	b.win = test.NewWindow(nil)
	b.w = New(app, b.win, o)
	b.w.Start()
	b.win.SetOnClosed(func() { b.closed = true })
	t.Cleanup(func() {
		if !b.closed {
			b.win.Close()
		}
		require.NoError(t, b.w.End())
	})
	return b
}

// withDemo opens the demo business.
func withDemo(o *Options) { o.Demo = true }

// menu does what an item of the main menu does.
func (b *bench) menu(label string) {
	b.Helper()
	for _, m := range b.w.menu.main.Items {
		for _, item := range m.Items {
			if item.Label == label {
				require.False(b, item.Disabled, "%s is not to be had here", label)
				item.Action()
				return
			}
		}
	}
	require.Fail(b, "no such menu item", label)
}

func (b *bench) focused() fyne.Focusable {
	b.Helper()
	f := b.win.Canvas().Focused()
	require.NotNil(b, f, "nothing has the keyboard")
	return f
}

// press gives keys to what has the keyboard.
func (b *bench) press(keys ...fyne.KeyName) {
	b.Helper()
	for _, k := range keys {
		b.focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// typed types into what has the keyboard.
func (b *bench) typed(text string) {
	b.Helper()
	test.Type(b.focused(), text)
}

// quote is the quote screen that is shown.
func (b *bench) quote() *quoteScreen {
	b.Helper()
	q, ok := b.w.screen.(*quoteScreen)
	require.True(b, ok, "no quote is open, but %T", b.w.screen)
	return q
}

// book is the shop book that is shown.
func (b *bench) book() *bookScreen {
	b.Helper()
	s, ok := b.w.screen.(*bookScreen)
	require.True(b, ok, "the shop book is not open, but %T", b.w.screen)
	return s
}

// field finds a field on the page that is shown.
func (b *bench) field(id string) *kit.Field {
	b.Helper()
	var found *kit.Field
	walk(b.win.Canvas().Content(), func(o fyne.CanvasObject) {
		if g, ok := o.(*kit.FieldGrid); ok && found == nil {
			found = g.Field(id)
		}
	})
	require.NotNil(b, found, "no field %s is shown", id)
	return found
}

// fill types a text over what stands in a field.
func (b *bench) fill(id, text string) {
	b.Helper()
	b.field(id).Focus()
	if e, ok := b.focused().(*kit.Entry); ok {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		if text == "" {
			e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
		}
	}
	b.typed(text)
}

// pick chooses in a choice field, as somebody does who knows the word.
func (b *bench) pick(id, choice string) {
	b.Helper()
	f := b.field(id)
	f.Focus()
	b.press(fyne.KeyDown, fyne.KeyHome)
	for range 200 {
		if _, ok := b.focused().(*kit.Entry); ok { // a long list, with a filter
			b.typed(choice)
			b.press(fyne.KeyReturn)
			break
		}
		b.press(fyne.KeyReturn)
		if f.Text() == choice {
			break
		}
		f.Focus()
		b.press(fyne.KeyDown, fyne.KeyDown)
	}
	require.Equal(b, choice, f.Text())
}

// tap presses the button of that name, wherever it is.
func (b *bench) tap(text string) {
	b.Helper()
	var found *kit.Button
	look := func(o fyne.CanvasObject) {
		if k, ok := o.(*kit.Button); ok && k.Text() == text {
			found = k
		}
	}
	walk(b.win.Canvas().Content(), look)
	for _, over := range b.win.Canvas().Overlays().List() {
		walk(over, look)
	}
	require.NotNil(b, found, "no button %q is shown", text)
	require.False(b, found.Disabled())
	found.Tapped(&fyne.PointEvent{})
}

// said is all that is to be read in the window.
func (b *bench) said() string {
	var all strings.Builder
	read := func(o fyne.CanvasObject) {
		if t, ok := o.(*canvas.Text); ok {
			all.WriteString(t.Text + " ")
		}
	}
	walk(b.win.Canvas().Content(), read)
	for _, over := range b.win.Canvas().Overlays().List() {
		walk(over, read)
	}
	return strings.Join(strings.Fields(all.String()), " ")
}

// walk visits everything that is visible at and below an object.
func walk(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	f(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			walk(child, f)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			walk(child, f)
		}
	}
}

// price is the price as the panel shows it.
func (b *bench) price() string { return b.quote().priceShown().Amount }

// wear puts on another look, as the menu does.
func (b *bench) wear(mode look.Mode, percent int) { b.w.look.wear(mode, percent) }

// kept reads the quote that is open from its store.
func (b *bench) kept() quote.Quote {
	b.Helper()
	q, err := b.store.Quote(context.Background(), b.quote().sheet.Quote().ID)
	require.NoError(b, err)
	return q
}
