package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/risk"
)

// watches looks on for a while, as somebody does while a schedule is drawn up.
func (p *person) watches(d time.Duration) {
	p.Helper()
	began := time.Now()
	p.until("the schedule is drawn up", func() bool { return time.Since(began) > d })
}

// commandLine builds the program without a window, and gives what runs it.
func commandLine(t *testing.T) func(args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "meltwright-cli")
	out, err := exec.Command(needTool(t, "go"), "build", "-o", path, "../meltwright-cli").CombinedOutput()
	require.NoError(t, err, string(out))
	return func(args ...string) string {
		c := exec.Command(path, args...)
		c.Stderr = os.Stderr
		out, err := c.Output()
		require.NoError(t, err)
		return string(out)
	}
}

func TestAStartIsTypedInARealWindowAndItsCalendarIsTheCommandLines(t *testing.T) {
	needTool(t, "xdotool")
	needTool(t, "Xvfb")
	cli := commandLine(t)
	db := filepath.Join(t.TempDir(), "quotes.db")
	p := sit(t, built(t), "--db", db)
	w := watcher{p, db}

	w.begun()
	p.write("The Net Mender")

	p.press(times(1+len(estimate.Stages), "alt+Down")...) // to how sure, its tick for the proposal
	p.press("Tab", "Tab")                                 // past what varies, to the low of the first
	p.write("0.95")
	p.until("the point is kept", func() bool {
		q, _, _ := w.quote()
		return len(q.Commission.Pieces) == 1 && risk.Parts(q.Commission.Pieces[0].Ranges["area"]) == [3]string{"0.95"}
	})

	p.press("alt+Down") // to how soon: begin on
	p.write("2 March 2026")
	p.until("the start is kept", func() bool {
		q, _, _ := w.quote()
		return q.Words["start"] == "2 March 2026"
	})
	p.watches(8 * time.Second)
	calendar := filepath.Join(t.TempDir(), "schedule.ics")
	p.press("Tab", "Tab", "Tab", "Return", "ctrl+a") // past ready by and the payments, to “Save as calendar …”
	p.write(calendar)
	p.press("Return")
	p.until("the calendar lies there", func() bool { _, err := os.Stat(calendar); return err == nil })
	p.press("ctrl+q")
	p.leaves()
	assert.NotContains(t, p.said.String(), "Error in Fyne call thread")
	assert.NotContains(t, p.said.String(), "panic")

	q, _, ok := w.quote()
	require.True(t, ok)
	assert.Equal(t, quote.Draft, q.State)
	file := filepath.Join(t.TempDir(), "commission.json")
	require.NoError(t, os.WriteFile(file, []byte(cli("export", q.Number, "--db", db)), 0o600))
	var lead struct {
		Ready string
		Tasks []struct{ Name, Start string }
	}
	require.NoError(t, json.Unmarshal([]byte(cli("lead", file, "--start", "2026-03-02", "--trials", "10", "--json")), &lead))
	text, err := os.ReadFile(calendar)
	require.NoError(t, err)
	events := regexp.MustCompile(`DTSTART;VALUE=DATE:(\d{8})`).FindAllStringSubmatch(string(text), -1)
	require.Greater(t, len(events), len(lead.Tasks))
	for i, task := range lead.Tasks {
		assert.Equal(t, strings.ReplaceAll(task.Start, "-", ""), events[i][1], task.Name)
	}
	assert.Equal(t, strings.ReplaceAll(lead.Ready, "-", ""), events[len(events)-1][1], "the last payment falls due when it is ready")
}
