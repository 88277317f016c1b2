package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
	"meltwright/internal/sqlite"
)

// pilot is the commission that the person at the window types.
func pilot() estimate.Commission {
	return estimate.Commission{
		Title: "The Ferry Pilot",
		Pieces: []estimate.Piece{{Name: "Figure", Inputs: map[string]string{
			"form.dress": "coat and boots", "form.height": "2.19 m", "form.wall": "5 mm",
			"patina.colours": "2", "base.plinth": "block", "base.height": "0.5 m",
		}}},
	}
}

// watcher reads what the program keeps, from beside it.
type watcher struct {
	p    *person
	path string
}

// begun begins a new quote, as soon as the store is there.
func (w watcher) begun() {
	w.p.Helper()
	w.p.until("the store is there", func() bool { _, err := os.Stat(w.path); return err == nil })
	w.p.until("a new quote is begun", func() bool {
		w.p.press("ctrl+n")
		_, _, ok := w.quote()
		return ok
	})
}

// printed makes the proposal, and gives its words.
func (w watcher) printed(pdftotext string) string {
	w.p.Helper()
	paper := filepath.Join(filepath.Dir(w.path), "proposal.pdf")
	w.p.press("ctrl+p", "ctrl+a")
	w.p.write(paper)
	w.p.press("Return")
	w.p.until("the proposal lies there", func() bool { _, err := os.Stat(paper); return err == nil })
	out, err := exec.Command(pdftotext, "-layout", paper, "-").Output()
	require.NoError(w.p, err)
	return strings.Join(strings.Fields(string(out)), " ")
}

// quote gives the one quote in the file, or false while there is none.
func (w watcher) quote() (quote.Quote, quote.Summary, bool) {
	ctx := context.Background()
	s, err := sqlite.OpenReadOnly(ctx, w.path)
	if err != nil {
		return quote.Quote{}, quote.Summary{}, false
	}
	defer func() { require.NoError(w.p, s.Close()) }()
	rows, _, err := s.List(ctx, quote.Filter{})
	if err != nil || len(rows) == 0 {
		return quote.Quote{}, quote.Summary{}, false
	}
	q, err := s.Quote(ctx, rows[0].ID)
	return q, rows[0], err == nil
}

// keeps waits until an input of the piece is kept as typed.
func (w watcher) keeps(path, text string) {
	w.p.Helper()
	w.p.until(path+" is kept as "+text, func() bool {
		q, _, ok := w.quote()
		return ok && q.Commission.Pieces[0].Inputs[path] == text
	})
}

// steps is how often Tab goes from the first input of a stage's page to the one
// at path, as far as c has it.
func steps(t *testing.T, c estimate.Commission, stage, path string) int {
	t.Helper()
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	st, ok := estimate.StageByID(stage)
	require.True(t, ok)
	var shown []string
	for _, e := range estimate.Entries(c, s, st, 0, nil) {
		if e.Field.Group == estimate.Choices {
			shown = append(shown, e.Field.Path())
		}
	}
	at := slices.Index(shown, path)
	require.GreaterOrEqual(t, at, 0, "%s is not on the page of %s", path, stage)
	return at
}

// stageOn is how many stages further one is than another.
func stageOn(from, to string) int {
	at := func(id string) int {
		return slices.IndexFunc(estimate.Stages, func(s *estimate.Stage) bool { return s.ID == id })
	}
	return at(to) - at(from)
}

func TestAQuoteIsTypedInARealWindowAndItsProposalPrinted(t *testing.T) {
	pdftotext := needTool(t, "pdftotext")
	needTool(t, "xdotool")
	needTool(t, "Xvfb")
	db := filepath.Join(t.TempDir(), "quotes.db")
	p := sit(t, built(t), "--db", db)
	w := watcher{p, db}
	want := pilot()
	empty := estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure"}}}

	w.begun()
	p.write(want.Title)
	p.until("the title is kept", func() bool {
		q, _, _ := w.quote()
		return q.Commission.Title == want.Title
	})

	p.press("alt+Down") // to the form
	dress := steps(t, empty, "form", "form.dress")
	p.press(times(dress, "Tab")...)
	p.press("Down", "Down", "Down", "Return") // opens on nude; light clothes, coat and boots
	w.keeps("form.dress", "coat and boots")
	height := steps(t, empty, "form", "form.height")
	p.press(times(height-dress, "Tab")...)
	p.write("2.19 m")
	w.keeps("form.height", "2.19 m")
	p.press(times(steps(t, empty, "form", "form.wall")-height, "Tab")...)
	p.write("5 mm")
	w.keeps("form.wall", "5 mm")

	p.press(times(stageOn("form", "patina"), "alt+Down")...)
	p.press(times(steps(t, empty, "patina", "patina.colours"), "Tab")...)
	p.write("2")
	w.keeps("patina.colours", "2")

	p.press("alt+Down") // to the base
	plinth := steps(t, empty, "base", "base.plinth")
	p.press(times(plinth, "Tab")...)
	p.press("Down", "Down", "Return") // opens on no plinth; block
	w.keeps("base.plinth", "block")
	p.press(times(steps(t, want, "base", "base.height")-plinth, "Tab")...)
	p.write("0.5 m")
	w.keeps("base.height", "0.5 m")

	q, row, ok := w.quote()
	require.True(t, ok)
	assert.Equal(t, want.Pieces, q.Commission.Pieces)
	assert.Equal(t, priceOf(t, want), row.Price, "as the same commission is estimated without a window")

	text := w.printed(pdftotext)
	assert.Contains(t, text, want.Title)
	assert.Contains(t, text, strings.TrimPrefix(row.Price, "$"))

	p.press("ctrl+q")
	p.leaves()
	assert.NotContains(t, p.said.String(), "Error in Fyne call thread")
	assert.NotContains(t, p.said.String(), "panic")
}

func TestWithoutADisplayThereIsASentenceAndNotAPanic(t *testing.T) {
	needTool(t, "Xvfb") // where windows are drawn on X
	c := exec.Command(built(t), "--db", filepath.Join(t.TempDir(), "quotes.db"))
	c.Env = append(os.Environ(), "DISPLAY=", "WAYLAND_DISPLAY=", "HOME="+t.TempDir())
	out, err := c.CombinedOutput()
	require.Error(t, err)
	assert.Contains(t, string(out), "meltwright: no window can be opened here")
	assert.NotContains(t, string(out), "goroutine")
}

// priceOf is the price of a commission with the starting shop book, as lists
// print it.
func priceOf(t *testing.T, c estimate.Commission) string {
	t.Helper()
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	e, err := estimate.Of(c, s)
	require.NoError(t, err)
	return e.Currency.Whole(e.Price, desk.Locale)
}
