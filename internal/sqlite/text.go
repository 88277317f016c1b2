package sqlite

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"time"
	"unicode"

	"meltwright/internal/quote"
)

// micros writes a time: microseconds since 1970, UTC.
func micros(t time.Time) int64 { return t.UnixMicro() }

// moment reads a time, in the computer's own zone.
func moment(us int64) time.Time { return time.UnixMicro(us) }

// momentOrNone reads a time that may not be there.
func momentOrNone(us sql.NullInt64) time.Time {
	if !us.Valid {
		return time.Time{}
	}
	return moment(us.Int64)
}

// encode writes a value as JSON.
func encode(v any) (string, error) {
	text, err := json.Marshal(v)
	return string(text), err
}

// decode reads JSON of the file; whatever cannot be read has been damaged.
func decode[T any](text, of string) (v T, err error) {
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		return v, refusal(quote.ErrDamaged, "What the file holds of "+of, "",
			fmt.Sprintf("cannot be read (%v)", err), "restore it from a backup; the rest of the file can be used")
	}
	return v, nil
}

// encodeWords writes the words of a quote's papers.
func encodeWords(words map[string]string) (string, error) {
	if words == nil {
		words = map[string]string{}
	}
	return encode(words)
}

// decodeWords reads the words of a quote's papers; none are nil.
func decodeWords(text, of string) (map[string]string, error) {
	words, err := decode[map[string]string](text, of)
	if len(words) == 0 {
		words = nil
	}
	return words, err
}

// encodeList writes a list of things; none is an empty list.
func encodeList[T any](list []T) (string, error) {
	if list == nil {
		list = []T{}
	}
	return encode(list)
}

// decodeList reads a list of things; an empty one is nil.
func decodeList[T any](text, of string) ([]T, error) {
	list, err := decode[[]T](text, of)
	if len(list) == 0 {
		list = nil
	}
	return list, err
}

// enough is how many words a search looks for; a page pasted by mistake has more.
const enough = 50

// match writes typed words as a search: each must begin a word of the entry, in
// any order, whatever its accents and case. It is empty where nothing that
// could be searched was typed.
func match(typed string) string {
	var terms []string
	for _, word := range strings.Fields(typed) {
		if len(terms) < enough && strings.ContainsFunc(word, searchable) {
			word = strings.ReplaceAll(strings.ReplaceAll(word, "\x00", " "), `"`, `""`)
			terms = append(terms, `"`+word+`"*`)
		}
	}
	return strings.Join(terms, " AND ")
}

// searchable tells what the index takes for part of a word.
func searchable(r rune) bool { return unicode.In(r, unicode.L, unicode.N, unicode.Co) }
