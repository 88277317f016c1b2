package proposal

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"meltwright/internal/drawing"
)

// term says a name of the shop book or of the estimate, such as "Granite" or
// "Bronze cast", in the proposal's language: its template is called after it,
// "term-bronze-cast". What has none, because the shop or the user gave the name,
// stays as it is.
func (o *offer) term(name string) string {
	key := termKey(name)
	if o.words.templates.Lookup(key) == nil {
		return name
	}
	return o.label(key)
}

// termKey is the name of a term's template.
func termKey(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return "term-" + strings.Join(words, "-")
}

// lowerFirst begins a name with a small letter, as within a sentence.
func lowerFirst(name string) string {
	r, n := utf8.DecodeRuneInString(name)
	if n == 0 || r == utf8.RuneError {
		return name
	}
	return string(unicode.ToLower(r)) + name[n:]
}

// units are the names of units that a language has of its own.
var units = map[string]map[string]string{
	"fr": {"in": "po", "ft": "pi", "in²": "po²", "ft²": "pi²"},
	"es": {"in": "pulg", "ft": "pies", "in²": "pulg²", "ft²": "pies²"},
}

// unitWord is a unit behind a number.
var unitWord = regexp.MustCompile(`(\d[ \x{a0}])(in|ft)(²?)(?:$|[ \x{a0},;.)])`)

// ownUnits writes the units of a printed quantity in the language's own names.
func (l language) ownUnits(s string) string {
	own := units[l.code]
	if own == nil || !strings.Contains(s, "in") && !strings.Contains(s, "ft") {
		return s
	}
	return unitWord.ReplaceAllStringFunc(s, func(m string) string {
		at := strings.IndexAny(m, "if")
		end := at + 2
		if strings.HasPrefix(m[end:], "²") {
			end += len("²")
		}
		return m[:at] + own[m[at:end]] + m[end:]
	})
}

// readOff is a height as a picture's ruler says it.
var readOff = regexp.MustCompile(`^[0-9.,]+ (m|cm|ft|in)$`)

// spoken writes the heights of a picture's ruler as the language does.
func (l language) spoken(s drawing.Scene) drawing.Scene {
	for i, item := range s.Items {
		if t, ok := item.(drawing.Text); ok && readOff.MatchString(t.Words) {
			t.Words = l.fixed(t.Words)
			s.Items[i] = t
		}
	}
	return s
}
