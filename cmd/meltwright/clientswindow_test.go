package main

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
)

// kept is all that a file holds of clients, calls and quotes.
type kept struct {
	clients []quote.Client
	calls   []quote.Call
	quotes  []quote.Summary // the last changed first
	soon    []quote.Reminder
}

// all reads what the program keeps, from beside it.
func (w watcher) all() (k kept) {
	ctx := context.Background()
	s, err := sqlite.OpenReadOnly(ctx, w.path)
	if err != nil {
		return k
	}
	defer func() { require.NoError(w.p, s.Close()) }()
	now := time.Now()
	k.clients, _ = s.Clients(ctx, "", false) // what is not there yet is waited for
	k.calls, _ = s.Calls(ctx, "", false, now)
	k.quotes, _, _ = s.List(ctx, quote.Filter{})
	k.soon, _ = s.Reminders(ctx, now, now.AddDate(0, 0, 14))
	return k
}

// soon tells whether something happens within a few seconds.
func (p *person) soon(happened func() bool) bool {
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	for range 100 {
		if happened() {
			return true
		}
		<-tick.C
	}
	return false
}

// titled waits until the quote that was changed last has a title.
func (w watcher) titled(title string) {
	w.p.Helper()
	w.p.until("the quote is called "+title, func() bool {
		k := w.all()
		return len(k.quotes) > 0 && k.quotes[0].Title == title
	})
}

func TestAClientACallAndItsQuoteAreTypedInARealWindowRemindedOfFoundAndSorted(t *testing.T) {
	needTool(t, "xdotool")
	needTool(t, "Xvfb")
	db := filepath.Join(t.TempDir(), "quotes.db")
	p := sit(t, built(t), "--db", db)
	w := watcher{p, db}
	p.until("the store is there", func() bool { _, err := os.Stat(db); return err == nil })
	p.until("a client is begun", func() bool {
		p.press("ctrl+k", "shift+Tab", "shift+Tab", "Return") // from the search over the lists' names to the last button
		p.write("Town of Port Haskel")
		return p.soon(func() bool { return len(w.all().clients) > 0 })
	})
	p.press("Tab")
	p.write("Ida Moss")
	p.until("the client is kept", func() bool {
		k := w.all()
		return len(k.clients) == 1 && k.clients[0].Name == "Town of Port Haskel" && k.clients[0].Contact == "Ida Moss"
	})

	closes := time.Now().AddDate(0, 0, 5)
	p.press("ctrl+k", "shift+Tab", "Right", "shift+Tab", "Return")
	p.write("A figure for the quay")
	p.press("Tab", "Down", "Home", "Return", "Tab") // whose call: the one client
	p.write("Cannery Quay")
	p.press("Tab")
	p.write(closes.Format("2 January 2006"))
	p.press("Tab")
	p.write("150000")
	p.until("the call is kept", func() bool {
		k := w.all()
		return len(k.calls) == 1 && k.calls[0].Budget == "150000" && k.calls[0].Client == k.clients[0].ID
	})
	call := w.all().calls[0]
	assert.Equal(t, closes.Format(time.DateOnly), call.Due.Format(time.DateOnly))
	assert.Equal(t, "Cannery Quay", call.Site)
	require.Len(t, w.all().soon, 1)
	assert.Zero(t, w.all().soon[0].Quote, "no quote yet")

	p.press("Tab", "Tab", "Tab", "Return") // past link and notes: new quote for it
	w.titled("A figure for the quay")
	p.write("The Ferry Pilot")
	w.titled("The Ferry Pilot")
	row := w.all().quotes[0]
	assert.Equal(t, "Town of Port Haskel", row.Client)
	assert.Equal(t, "Cannery Quay", row.Place)
	assert.Equal(t, call.Title, row.Call)
	require.Len(t, w.all().soon, 1)
	assert.Equal(t, row.ID, w.all().soon[0].Quote)

	// Another, of nobody's.
	p.press("ctrl+n")
	w.titled("")
	p.write("Zinc")
	w.titled("Zinc")

	// The reminder over the list opens the quote that it is about.
	p.press("ctrl+l", "shift+Tab", "shift+Tab", "shift+Tab", "Down", "Return", "alt+Up")
	p.write("Pilot, reminded")
	w.titled("Pilot, reminded")
	assert.Equal(t, row.ID, w.all().quotes[0].ID)

	// A word of its client finds it.
	p.press("ctrl+n")
	w.titled("")
	p.press("ctrl+l")
	p.write("haskel")
	p.press("Return", "alt+Up")
	p.write("Pilot, found")
	w.titled("Pilot, found")
	assert.Equal(t, row.ID, w.all().quotes[0].ID)

	// Sorted by when they were begun, the first is the last.
	p.press("ctrl+l", "shift+Tab", "Down", "Home", "Return", "Tab", "Up", "Up", "Up", "Return", "alt+Up") // last begun first; up from the one that is marked
	p.write("Begun last")
	w.titled("Begun last")
	assert.NotEqual(t, row.ID, w.all().quotes[0].ID)

	p.press("ctrl+q")
	p.leaves()
	assert.NotContains(t, p.said.String(), "Error in Fyne call thread")
	assert.NotContains(t, p.said.String(), "panic")
}
