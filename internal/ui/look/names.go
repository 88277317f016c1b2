package look

import "fyne.io/fyne/v2"

// Names of the colours that this window has beyond Fyne's own. Each text name
// is readable (at least 4.5 : 1) on the grounds named beside it.
const (
	Sheet  fyne.ThemeColorName = "sheet"  // ground of the middle: the paper that is written on
	Side   fyne.ThemeColorName = "side"   // ground of the rail and of the price panel
	Panel  fyne.ThemeColorName = "panel"  // ground of the working and of a chosen line
	Raised fyne.ThemeColorName = "raised" // ground of inputs, menus and dialogs
	Rule   fyne.ThemeColorName = "rule"   // hairlines between rows
	Edge   fyne.ThemeColorName = "edge"   // the outline of what can be acted on

	Ink    fyne.ThemeColorName = "ink"    // text, on Sheet, Side, Panel and Raised
	Muted  fyne.ThemeColorName = "muted"  // lesser text, on the same
	Bronze fyne.ThemeColorName = "bronze" // text that invites, on the same
	Good   fyne.ThemeColorName = "good"   // text of what is in order, on the same
	Bad    fyne.ThemeColorName = "bad"    // text of what is wrong, on the same

	Accent   fyne.ThemeColorName = "accent"    // fill of the chief action and of marks
	OnAccent fyne.ThemeColorName = "on-accent" // text on Accent
	Range    fyne.ThemeColorName = "range"     // fill of the likely part of a range
	Trough   fyne.ThemeColorName = "trough"    // fill of the whole of a range or a progress bar

	Bar       fyne.ThemeColorName = "bar"        // ground of the top bar
	BarButton fyne.ThemeColorName = "bar-button" // fill of its plain buttons
	OnBar     fyne.ThemeColorName = "on-bar"     // text on Bar and BarButton
	OnBarLow  fyne.ThemeColorName = "on-bar-low" // lesser text on Bar

	NoteGround fyne.ThemeColorName = "note-ground" // ground of a note; Ink is written on it
	NoteEdge   fyne.ThemeColorName = "note-edge"   // its mark
	WarnGround fyne.ThemeColorName = "warn-ground" // ground of a warning; Ink is written on it
	WarnEdge   fyne.ThemeColorName = "warn-edge"   // its mark
)
