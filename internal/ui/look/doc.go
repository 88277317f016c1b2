// Package look is how Meltwright appears: a Fyne theme of plaster, ink and
// bronze with a dark variant, its sizes at any text size from 100 to 200 %, and
// the colour that each stage of the work has in the window.
//
// Everything else asks the theme by name, so that a change of variant or of
// text size reaches the whole window at once.
package look
