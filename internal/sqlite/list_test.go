package sqlite

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

func TestTheListShowsTheLastChangedFirst(t *testing.T) {
	s := newStore(t)
	owl := saved(t, s, "Owl", at(1))
	saved(t, s, "Otter", at(3))
	saved(t, s, "Horse", at(2))
	assert.Equal(t, []string{"Otter", "Horse", "Owl"}, titles(t, s, quote.Filter{}))
	_, err := s.Save(t.Context(), owl, "", at(4))
	require.NoError(t, err)
	assert.Equal(t, []string{"Owl", "Otter", "Horse"}, titles(t, s, quote.Filter{}))
}

func TestARowOfTheListSaysWhatItShows(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	rows, total, err := s.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, 1, total)
	assert.Equal(t, []quote.Summary{{
		ID: q.ID, Number: "2026-001", Letter: "A", State: quote.Draft, Title: "Owl", Client: "Town of Grönhaven",
		Place: "Harbour steps", Price: "$128,400", Changed: q.Changed,
	}}, rows)
}

func TestAListComesInPagesWithTheCountOfAll(t *testing.T) {
	s := newStore(t)
	fillWith(t, s, 450)
	rows, total, err := s.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, 450, total)
	assert.Len(t, rows, 200)
	all := []string{}
	for offset := 0; offset < total; offset += 70 {
		all = append(all, titles(t, s, quote.Filter{Limit: 70, Offset: offset})...)
	}
	assert.Equal(t, titles(t, s, quote.Filter{Limit: 1000}), all)
	assert.Empty(t, titles(t, s, quote.Filter{Offset: 450}))
	words := quote.Filter{Words: "owl", Limit: 10, Offset: 30}
	rows, total, err = s.List(t.Context(), words)
	require.NoError(t, err)
	assert.Equal(t, 37, total)
	assert.Len(t, rows, 7)
}

func TestWordsAreFoundWhateverTheirOrderCaseAndAccents(t *testing.T) {
	s := newStore(t)
	save := func(title, client, place string, pieces ...string) {
		c := estimate.Commission{Title: title, Client: client, Place: place}
		for _, p := range pieces {
			c.Pieces = append(c.Pieces, estimate.Piece{Name: p})
		}
		_, err := s.Save(t.Context(), quote.Quote{Commission: c}, "", march)
		require.NoError(t, err)
	}
	save("Émile au bâton", "Ville d'Ombreuse", "Place de l'Église", "Figure", "Chien") // 001
	save("Standing figure", "Town of Grönhaven", "Harbour steps", "Figure", "Dog")     // 002
	save("Łódka", "ΜΟΥΣΕΙΟ", "Москва-река", "Лодка")                                   // 003
	save("A \"quoted\" * title - with (signs): AND OR NOT NEAR", "", "", "")           // 004
	for words, want := range map[string]string{
		"emile": "001", "EMILE": "001", "Émile": "001", "E\u0301mile": "001", "baton émi": "001",
		"eglise": "001", "l'egl": "001", "ombr": "001", "d'ombr vill": "001", "chien fig": "001",
		"gronhaven": "002", "dog harb town": "002", "  dog\tsteps ": "002",
		"μουσειο": "003", "лодк моск": "003",
		"2026-003": "003", "2026-0": "001 002 003 004", "003": "003", "2026": "001 002 003 004",
		"fig": "001 002", "fig dog": "002", "dog emile": "", "igure": "", "nowhere": "",
		`"quoted"`: "004", `"`: "001 002 003 004", "*": "001 002 003 004", "and or not near": "004", "signs) -": "004", "NEAR(": "004",
		"- dog &": "002", "": "001 002 003 004",
	} {
		rows, total, err := s.List(t.Context(), quote.Filter{Words: words})
		require.NoError(t, err, words)
		found := []string{}
		for _, r := range rows {
			found = append([]string{strings.TrimPrefix(r.Number, "2026-")}, found...)
		}
		assert.Equal(t, want, strings.Join(found, " "), words)
		assert.Equal(t, len(rows), total, words)
	}
}

func TestASearchLooksInTheListOrInTheBin(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Grey owl", at(1))
	for i := range 3 {
		require.NoError(t, s.Delete(t.Context(), saved(t, s, fmt.Sprint("Owl ", i), at(2+i)).ID, at(9)))
	}
	assert.Equal(t, []string{"Grey owl"}, titles(t, s, quote.Filter{Words: "owl"}))
	assert.Equal(t, []string{"Owl 2", "Owl 1", "Owl 0"}, titles(t, s, quote.Filter{Words: "OWL", Bin: true}))
	assert.Equal(t, []string{"Owl 1"}, titles(t, s, quote.Filter{Words: "owl", Bin: true, Limit: 1, Offset: 1}))
	_, err := s.Empty(t.Context(), at(10))
	require.NoError(t, err)
	assert.Empty(t, titles(t, s, quote.Filter{Words: "owl", Bin: true}))
	sound(t, s)
}

func TestAChangedQuoteIsFoundByItsNewWordsAlone(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	q.Commission.Title = "Heron"
	_, err := s.Save(t.Context(), q, "", march)
	require.NoError(t, err)
	assert.Empty(t, titles(t, s, quote.Filter{Words: "owl"}))
	assert.Equal(t, []string{"Heron"}, titles(t, s, quote.Filter{Words: "her"}))
}

// A plain scan of the same quotes is the second opinion on every search: words
// of plain letters, all of which must begin a word.
func TestASearchFindsWhatAPlainScanFinds(t *testing.T) {
	s := newStore(t)
	const n = 300
	fillWith(t, s, n)
	entries := map[string]string{}
	for i := range n {
		title, client, place := invented(i)
		entries[title] = plain(strings.Join([]string{fmt.Sprintf("2026-%03d", i+1), title, client, place, "Figure Dog Bench"}, " "))
	}
	rapid.Check(t, func(rt *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"fig", "d", "be", "OWL", "emigré", "no", "17", "1", "Grön", "ash", "pier", "town", "of", "pont", "merles", "éloi", "x", "s"}), 1, 3).Draw(rt, "words")
		want := []string{}
		for title, text := range entries {
			if scan(text, words) {
				want = append(want, title)
			}
		}
		got := []string{}
		rows, _, err := s.List(t.Context(), quote.Filter{Words: strings.Join(words, " "), Limit: n})
		require.NoError(rt, err)
		for _, r := range rows {
			got = append(got, r.Title)
		}
		assert.ElementsMatch(rt, want, got)
	})
}

func scan(text string, words []string) bool {
	tokens := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) })
	for _, w := range words {
		found := false
		for _, token := range tokens {
			found = found || strings.HasPrefix(token, plain(w))
		}
		if !found {
			return false
		}
	}
	return true
}

func TestAPagePastedIntoTheSearchIsNoBurden(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", march)
	assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{Words: strings.Repeat("owl ", 100_000)}))
}

func TestNoTypedTextIsAFaultOfTheSearch(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", march)
	rapid.Check(t, func(rt *rapid.T) {
		_, _, err := s.List(t.Context(), quote.Filter{Words: rapid.String().Draw(rt, "words")})
		require.NoError(rt, err)
	})
	_, err := s.Clients(t.Context(), "\xff\xfe \x00 \"\"\" a\x00b", false)
	require.NoError(t, err)
}
