package quantity

import (
	"strings"
	"unicode/utf8"
)

// longest is the most bytes that any quantity needs; more than that is a paste
// gone wrong, and numbers so long could overflow a float64.
const longest = 80

// spellings evens out the signs that keyboards, phones and word processors
// write for the same thing.
var spellings = strings.NewReplacer(
	"’", "'", "‘", "'", "′", "'", "´", "'", "ʹ", "'",
	"”", `"`, "“", `"`, "„", `"`, "″", `"`, "ʺ", `"`,
	"−", "-", "–", "-", "‐", "-", "‑", "-",
	"⁄", "/", "∕", "/",
	"\u00a0", " ", "\u202f", " ", "\u2009", " ",
	"μ", "µ", "º", "°",
	"½", " 1/2", "⅓", " 1/3", "⅔", " 2/3", "¼", " 1/4", "¾", " 3/4",
	"⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5", "⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6",
	"⅐", " 1/7", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅑", " 1/9", "⅒", " 1/10",
)

// even gives text in lower case with one spelling of every sign and no spaces
// around it.
func even(text string) string {
	s := strings.ToLower(text)
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			s = spellings.Replace(s)
			break
		}
	}
	return strings.TrimSpace(s)
}

// cutSign takes a minus or plus off the front.
func cutSign(s string) (sign float64, rest string) {
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		return -1, strings.TrimSpace(rest)
	}
	return 1, strings.TrimSpace(strings.TrimPrefix(s, "+"))
}

// shown is text as a fault repeats it: without outer spaces, and cut if long.
func shown(text string) string {
	text = strings.TrimSpace(text)
	if len(text) <= longest {
		return text
	}
	return strings.ToValidUTF8(text[:longest/2], "") + "…"
}
