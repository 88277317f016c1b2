package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"database/sql/driver"
	"math"
	"strings"
	"unicode"

	sqlite "modernc.org/sqlite"
)

// What lists are sorted by is reckoned here, by saves and by the migration of
// files from before there were such columns.
func init() {
	sqlite.MustRegisterDeterministicScalarFunction("filed_as", 1, onText(func(s string) driver.Value { return plain(s) }))
	sqlite.MustRegisterDeterministicScalarFunction("digits_of", 1, onText(func(s string) driver.Value { return digitsOf(s) }))
}

func onText(f func(string) driver.Value) func(*sqlite.FunctionContext, []driver.Value) (driver.Value, error) {
	return func(_ *sqlite.FunctionContext, args []driver.Value) (driver.Value, error) {
		text, _ := args[0].(string)
		return f(text), nil
	}
}

// digitsOf is the number that a price without cents is printed with, whatever
// its signs: 128400 of "$128,400", and 0 where there is none.
func digitsOf(price string) (n int64) {
	for _, r := range price {
		if d := int64(r - '0'); d >= 0 && d <= 9 && n < math.MaxInt64/10-9 {
			n = 10*n + d
		}
	}
	return n
}

// Latin letters with marks, after the letters they are filed with.
var marked = strings.NewReplacer(pairs(
	"aàáâãäåāăą", "cçćĉċč", "dďđð", "eèéêëēĕėęě", "gĝğġģ", "hĥħ", "iìíîïĩīĭįı", "jĵ", "kķ", "lĺļľŀł",
	"nñńņňŋ", "oòóôõöøōŏő", "rŕŗř", "sśŝşšș", "tţťŧț", "uùúûüũūŭůűų", "wŵ", "yýÿŷ", "zźżž",
)...)

func pairs(rows ...string) []string {
	replaced := []string{"æ", "ae", "œ", "oe", "ß", "ss", "þ", "th"}
	for _, row := range rows {
		for _, r := range row[1:] {
			replaced = append(replaced, string(r), row[:1])
		}
	}
	return replaced
}

// plain is a name as it is filed: small letters without marks.
func plain(name string) string {
	unmarked := strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, name)
	return marked.Replace(unmarked)
}

// checkFiling looks whether every quote is sorted where its client and its price
// have it.
func checkFiling(ctx context.Context, tx *sql.Tx, r *Report) error {
	return each(ctx, tx, func(row *sql.Rows) error {
		var number, client, body, price, filed string
		var worth int64
		err := row.Scan(&number, &client, &body, &price, &filed, &worth)
		if err == nil && (filed != plain(cmp.Or(client, body)) || worth != digitsOf(price)) {
			r.add("Quote "+number, "is sorted in another place than its client and its price have", "save it again")
		}
		return err
	}, `SELECT number, client, body, price, filed, worth FROM quotes`)
}

// holds tells whether each of the typed words begins a word of a text, whatever
// the case and the accents, as the index of quotes does.
func holds(text, typed string) bool {
	isSign := func(r rune) bool { return !searchable(r) }
	words := strings.FieldsFunc(plain(text), isSign)
	for _, want := range strings.FieldsFunc(plain(typed), isSign) {
		found := false
		for _, w := range words {
			found = found || strings.HasPrefix(w, want)
		}
		if !found {
			return false
		}
	}
	return true
}
