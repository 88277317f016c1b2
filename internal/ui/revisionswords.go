package ui

import (
	"strconv"
	"strings"

	"meltwright/internal/desk"
)

// mostShown is how many letters of a text a comparison shows at most.
const mostShown = 24

// partNames are the words of a quote that are no section of its proposal.
var partNames = map[string]string{
	desk.Sections: "Sections of the proposal", "language": "Language of the proposal", "paper": "Paper of the proposal",
	desk.Start: "Work would begin", desk.Required: "Required by", "shop language": "Language of the shop's papers",
}

// partName says a part of the words of a quote.
func partName(part string) string {
	if name, ok := partNames[part]; ok {
		return name
	}
	if n, ok := strings.CutPrefix(part, "drawing."); ok {
		if i, err := strconv.Atoi(n); err == nil {
			return "Drawing of piece " + strconv.Itoa(i+1)
		}
	}
	return "Words of “" + sectionName(part) + "”"
}

// partText says what a part of the words has, as the window calls it.
func partText(where, text string) string {
	text = strings.TrimSpace(text)
	switch strings.TrimPrefix(where, desk.OfWords) {
	case where:
	case "language":
		if text == "" || languages.name(text) != "" {
			return languages.called(text)
		}
	case "paper":
		if text == "" || sizes.name(text) != "" {
			return sizes.called(text)
		}
	case desk.Sections:
		if text == "" {
			return "as usual"
		}
		keys := strings.Split(text, ",")
		for i, key := range keys {
			keys[i] = sectionName(strings.TrimSpace(key))
		}
		return strings.Join(keys, ", ")
	}
	return text
}

// called is what a word is called, and what holds without one.
func (c choices) called(word string) string {
	if word == "" {
		return c[0][1]
	}
	return c.name(word)
}

// excerpts are two texts, cut down to where they begin to differ if one is long.
func excerpts(before, after string) (was, is string) {
	a, b := []rune(said(before)), []rune(said(after))
	if len(a) <= mostShown && len(b) <= mostShown {
		return string(a), string(b)
	}
	same := 0
	for same < min(len(a), len(b)) && a[same] == b[same] {
		same++
	}
	from := max(same-mostShown/3, 0)
	return excerpt(a, from), excerpt(b, from)
}

// excerpt is a text from one of its letters on, as far as is shown.
func excerpt(text []rune, from int) string {
	to := min(from+mostShown, len(text))
	out := strings.TrimSpace(string(text[from:to]))
	if from > 0 {
		out = "… " + out
	}
	if to < len(text) {
		out += " …"
	}
	return out
}
