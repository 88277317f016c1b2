package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
)

// formatted puts a text into a form.
func formatted(form, text string) string { return fmt.Sprintf(form, text) }

// wrapped breaks words into at most so many lines of a width; the last ends in …
// where they do not go.
func wrapped(words string, width, size float32, bold bool, most int) []string {
	fits := func(s string) bool {
		return fyne.MeasureText(s, size, fyne.TextStyle{Bold: bold}).Width <= width+0.5
	}
	if fits(words) {
		return []string{words}
	}
	var lines []string
	rest := strings.Fields(words)
	for len(rest) > 0 && len(lines) < most {
		n := 1
		for n < len(rest) && fits(strings.Join(rest[:n+1], " ")) {
			n++
		}
		if len(lines) == most-1 {
			n = len(rest)
		}
		lines, rest = append(lines, elided(strings.Join(rest[:n], " "), fits)), rest[n:]
	}
	return lines
}

// elided is as much of a line as fits, with … for the rest.
func elided(line string, fits func(string) bool) string {
	if fits(line) {
		return line
	}
	letters := []rune(line)
	for len(letters) > 1 {
		letters = letters[:len(letters)-1]
		if s := strings.TrimRight(string(letters), " ,·") + "…"; fits(s) {
			return s
		}
	}
	return "…"
}
