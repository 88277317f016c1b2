// Package kit holds the parts that the window's screens are made of: the rail of
// stages, fields that say what they understood, tables of lines, the working of a
// line, the price panel, bars, lists, questions and drawings.
//
// Its widgets take plain values (text, numbers, names of colours from package
// look) and know nothing of estimates. Each is made once and then told what to
// show; told the same again it does nothing, and told something else it changes
// only what differs, so that a keystroke may repaint a whole quote. Like all of
// Fyne they are used from the window's goroutine only.
//
// Keyboard: every part that can be acted on can be reached by Tab and says so by
// a ring; a part that gains the focus scrolls itself into view (Reveal).
package kit
