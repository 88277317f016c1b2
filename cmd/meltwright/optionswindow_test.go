package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
)

// optionsAre waits until the options that are kept are as somebody wants them.
func (w watcher) optionsAre(what string, good func([]estimate.Option) bool) {
	w.p.Helper()
	w.p.until(what, func() bool {
		q, _, ok := w.quote()
		return ok && good(q.Commission.Options)
	})
}

// tabled is what the program without a window says of the options of a quote.
func tabled(t *testing.T, db, number string) (list []struct{ Name, Price string }) {
	t.Helper()
	cli := commandLine(t)
	path := filepath.Join(t.TempDir(), "quote.json")
	require.NoError(t, os.WriteFile(path, []byte(cli("export", "--db", db, number)), 0o600))
	var all struct {
		Options []struct{ Name, Price string }
	}
	require.NoError(t, json.Unmarshal([]byte(cli("options", "--db", db, "--json", path)), &all))
	return all.Options
}

func TestHeightsAreComparedInARealWindowAndOneBecomesTheQuote(t *testing.T) {
	pdftotext := needTool(t, "pdftotext")
	needTool(t, "xdotool")
	needTool(t, "Xvfb")
	db := filepath.Join(t.TempDir(), "quotes.db")
	p := sit(t, built(t), "--db", db)
	w := watcher{p, db}

	w.begun()
	p.write("The Net Mender")
	p.until("the title is kept", func() bool {
		q, _, _ := w.quote()
		return q.Commission.Title == "The Net Mender"
	})

	p.press("ctrl+o", "Return") // scale options, and to the place for another height
	p.write("life and a half")
	p.press("Return", "Return") // on to the button, and press it
	w.optionsAre("two heights are compared", func(list []estimate.Option) bool { return len(list) == 2 })
	p.press("shift+Tab")
	p.write("2.3 m")
	p.press("Return", "Return")
	w.optionsAre("three are", func(list []estimate.Option) bool { return len(list) == 3 && list[2].Height == "2.3 m" })

	p.press("alt+s", "Left", "Return", "Tab", "Tab", "Tab", "space") // life and a half, past height, slider and name
	w.optionsAre("it is recommended", func(list []estimate.Option) bool { return list[1].Recommended })
	p.press("Tab")
	p.write("It is seen from the far quay.")
	w.optionsAre("it says why", func(list []estimate.Option) bool { return list[1].Why == "It is seen from the far quay." })
	_, before, _ := w.quote()
	p.press("Tab", "Return") // make it the quote
	p.until("the quote is as high", func() bool {
		q, _, _ := w.quote()
		return q.Commission.Pieces[0].Inputs[estimate.HeightPath()] == "2.625 m"
	})

	text := w.printed(pdftotext)
	for _, words := range []string{"Sizes to choose from", "Recommended: Life and a half", "It is seen from the far quay.", "Price over height"} {
		assert.Contains(t, text, words)
	}

	q, row, ok := w.quote()
	require.True(t, ok)
	p.press("ctrl+q")
	p.leaves()
	assert.NotEqual(t, before.Price, row.Price)
	assert.Equal(t, priceOf(t, q.Commission), row.Price)
	list := tabled(t, db, row.Number)
	require.Len(t, list, 3)
	assert.Equal(t, []string{"Life size", "Life and a half", "2.3 m"}, []string{list[0].Name, list[1].Name, list[2].Name})
	digits := strings.NewReplacer("$", "", ",", "").Replace
	assert.Equal(t, strings.TrimSuffix(list[1].Price, ".00"), digits(row.Price), "as without a window")
	assert.Equal(t, strings.TrimSuffix(list[0].Price, ".00"), digits(before.Price), "the quote as it was is still among them")
	assert.NotContains(t, p.said.String(), "Error in Fyne call thread")
	assert.NotContains(t, p.said.String(), "panic")
}
