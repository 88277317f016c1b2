package drawing

import "strings"

// fitted is s cut short with an ellipsis until it is no wider than room.
func (f Face) fitted(s string, size, room float64) string {
	if f.Measure(s, size) <= room {
		return s
	}
	letters := []rune(s)
	for len(letters) > 0 {
		letters = letters[:len(letters)-1]
		if cut := strings.TrimRight(string(letters), " ,·-–") + "…"; f.Measure(cut, size) <= room {
			return cut
		}
	}
	return ""
}

// wrapped is s in at most lines lines no wider than room, broken at spaces but
// not at no-break spaces; the last is cut short if it must be.
func (f Face) wrapped(s string, size, room float64, lines int) []string {
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\t' || r == '\n' })
	var out []string
	for len(words) > 0 && len(out) < lines {
		n := 1
		for n < len(words) && f.Measure(strings.Join(words[:n+1], " "), size) <= room {
			n++
		}
		if len(out) == lines-1 {
			n = len(words)
		}
		out = append(out, f.fitted(strings.Join(words[:n], " "), size, room))
		words = words[n:]
	}
	return out
}
