package desk

import (
	"strings"
	"unicode"
)

// FileName proposes a name for a paper of the quote: its number, its title and
// what the paper is, in letters that every system's files may have.
func (s *Sheet) FileName(paper, extension string) string {
	return s.FileNameOf(s.quote.Letter, paper, extension)
}

// FileNameOf is FileName of the revision of that letter.
func (s *Sheet) FileNameOf(letter, paper, extension string) string {
	var parts []string
	for _, p := range []string{s.quote.Number + letter, s.quote.Commission.Title, paper} {
		if p = harmless(p); p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, " ") + "." + extension
}

// harmless takes out what a file name may not hold somewhere: the signs of
// paths and drives, control characters, dots and spaces at the ends; and what
// is too long.
func harmless(text string) string {
	const longest = 80
	name := strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(`/\:*?"<>|`, r):
			return '-'
		case unicode.IsControl(r) || r == unicode.ReplacementChar:
			return -1
		}
		return r
	}, text)
	if runes := []rune(name); len(runes) > longest {
		name = string(runes[:longest])
	}
	return strings.Trim(name, " .-")
}
