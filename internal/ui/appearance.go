package ui

import (
	"fyne.io/fyne/v2"

	"meltwright/internal/ui/look"
)

// The keys that the look is remembered under.
const (
	prefMode = "look.mode"
	prefText = "look.text"
)

// appearance is the window's look and how it is changed and remembered.
type appearance struct {
	w     *Window
	prefs fyne.Preferences
	theme *look.Theme
}

func newAppearance(w *Window) *appearance {
	a := &appearance{w: w, prefs: w.app.Preferences()}
	if t, ok := w.app.Settings().Theme().(*look.Theme); ok {
		a.theme = t
	} else {
		a.theme = Dress(w.app)
	}
	return a
}

// Dress gives the program the look that was worn last. Before its window is made
// nothing has been measured yet, so that nothing is measured twice.
func Dress(app fyne.App) *look.Theme {
	prefs := app.Preferences()
	t := look.New(look.Mode(prefs.IntWithFallback(prefMode, int(look.Light))), prefs.IntWithFallback(prefText, look.LeastPercent))
	app.Settings().SetTheme(t)
	return t
}

func (a *appearance) wear(mode look.Mode, percent int) {
	a.theme = look.New(mode, percent)
	a.prefs.SetInt(prefMode, int(mode))
	a.prefs.SetInt(prefText, a.theme.Percent())
	a.w.app.Settings().SetTheme(a.theme)
	a.w.menu.markLook()
	if s, ok := a.w.screen.(restyled); ok {
		s.restyle()
	}
}

// restyled is a screen that keeps parts which are not in the window: they take
// on another look when they come up again.
type restyled interface{ restyle() }

func (a *appearance) setMode(m look.Mode) { a.wear(m, a.theme.Percent()) }

func (a *appearance) setText(percent int) { a.wear(a.theme.Mode(), percent) }

// grow makes the text larger or smaller by some per cent, within its bounds.
func (a *appearance) grow(by int) { a.setText(a.theme.Percent() + by) }
