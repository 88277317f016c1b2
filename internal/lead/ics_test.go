package lead

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/money"
	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

var stamp = time.Date(2026, 2, 27, 9, 30, 0, 0, time.UTC)

// reader prints the events that Debian's python3-icalendar finds in a file.
const reader = `
import sys, json, icalendar
cal = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
assert cal["VERSION"] == "2.0" and cal["PRODID"]
out = []
for e in cal.walk("VEVENT"):
    assert not e.errors, e.errors
    out.append(dict(uid=str(e["UID"]), summary=str(e["SUMMARY"]), details=str(e["DESCRIPTION"]),
        start=e["DTSTART"].dt.isoformat(), end=e["DTEND"].dt.isoformat(), stamp=e["DTSTAMP"].dt.isoformat(),
        kinds=[str(c) for c in e["CATEGORIES"].cats]))
json.dump(out, sys.stdout)
`

type event struct {
	UID, Summary, Details, Start, End, Stamp string
	Kinds                                    []string
}

func readBack(t *testing.T, python string, file []byte) []event {
	t.Helper()
	cmd := exec.Command(python, "-c", reader)
	cmd.Stdin = bytes.NewReader(file)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var events []event
	require.NoError(t, json.Unmarshal(out, &events))
	return events
}

// Held against Debian's python3-icalendar.
func TestAnotherProgramReadsTheCalendarAsItWasMeant(t *testing.T) {
	python := needTool(t, "/usr/bin/python3", "-c", "import icalendar")
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	p.Tasks[0].Name = `Rock, paper; scissors \ "quotes": ` + strings.Repeat("très longue – größer 🐎 ", 12)
	p.Tasks[1].Name = "Two\nlines\x07"
	var file bytes.Buffer
	require.NoError(t, ICS(&file, p, "Le gardien, l’été", stamp))
	events := readBack(t, python, file.Bytes())
	require.Len(t, events, len(p.Tasks)+len(p.Milestones))
	seen := map[string]bool{}
	for i, x := range p.Tasks {
		e := events[i]
		name := strings.ReplaceAll(x.Name, "\x07", "")
		assert.Equal(t, "Le gardien, l’été: "+name, e.Summary)
		assert.Equal(t, x.Start.Format(time.DateOnly), e.Start)
		assert.Equal(t, x.End.AddDate(0, 0, 1).Format(time.DateOnly), e.End, "the day after the last")
		assert.Equal(t, "2026-02-27T09:30:00+00:00", e.Stamp)
		assert.Equal(t, []string{x.Room}, e.Kinds)
		assert.False(t, seen[e.UID])
		seen[e.UID] = true
	}
	last := events[len(events)-1]
	assert.Equal(t, "Le gardien, l’été: Installed and accepted", last.Summary)
	assert.Equal(t, p.Ready.Format(time.DateOnly), last.Start)
	assert.Regexp(t, regexp.MustCompile(`^Payment of \d+\.\d\d CAD$`), last.Details)
}

// RFC 5545, 3.1: lines end with CR LF and are no longer than 75 octets without it.
func TestLinesAreFoldedAt75OctetsBetweenCharacters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.String().Draw(t, "name")
		s := Schedule{Tasks: []Task{{Name: name, Start: monday, End: monday, Room: "Site"}}, Currency: money.Currency{Code: "CAD", Digits: 2}}
		var file bytes.Buffer
		require.NoError(t, ICS(&file, s, "Title", stamp))
		text := file.String()
		require.True(t, strings.HasSuffix(text, "\r\n"))
		for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
			require.LessOrEqual(t, len(line), 75)
			require.True(t, utf8.ValidString(line))
			require.NotContains(t, line, "\n")
			require.NotContains(t, line, "\r")
		}
		unfolded := strings.ReplaceAll(text, "\r\n ", "")
		require.Contains(t, unfolded, "\r\nSUMMARY:"+escape("Title: "+name)+"\r\n")
	})
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

func TestAFullDiskIsTold(t *testing.T) {
	assert.ErrorContains(t, ICS(full{}, Schedule{}, "", stamp), "full")
}
