package lead

import (
	"bufio"
	"fmt"
	"hash/fnv"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"meltwright/internal/quantity"
)

// ICS writes the schedule as an iCalendar file (RFC 5545): an event of whole
// days for each task and each milestone. Stamp is when the schedule was made.
func ICS(w io.Writer, s Schedule, title string, stamp time.Time) error {
	out := &icsWriter{w: bufio.NewWriter(w), stamp: stamp.UTC().Format("20060102T150405Z"), title: title}
	out.line("BEGIN", "VCALENDAR")
	out.line("VERSION", "2.0")
	out.line("PRODID", "-//Meltwright//Schedule//EN")
	out.line("CALSCALE", "GREGORIAN")
	for i, t := range s.Tasks {
		out.event(fmt.Sprint("task-", i), t.Start, t.End, t.Name, t.details(), t.Room)
	}
	for i, m := range s.Milestones {
		out.event(fmt.Sprint("milestone-", i), m.Date, m.Date, m.Name, "Payment of "+s.Currency.Text(m.Amount)+" "+s.Currency.Code, "Milestone")
	}
	out.line("END", "VCALENDAR")
	return out.w.Flush()
}

// details says who does a task and for how long.
func (t Task) details() string {
	if t.Wait {
		return "Waiting"
	}
	return t.Skill + ", " + quantity.Number(t.Hours, 1) + " h"
}

// icsWriter writes the lines of an iCalendar file. A bufio.Writer keeps the
// first error, for Flush to give.
type icsWriter struct {
	w            *bufio.Writer
	stamp, title string
}

// event writes one event of whole days: DTEND is the day after the last.
func (o *icsWriter) event(key string, start, end time.Time, name, details, kind string) {
	id := fnv.New64a()
	fmt.Fprint(id, o.title, "\x00", key, "\x00", name)
	o.line("BEGIN", "VEVENT")
	o.line("UID", fmt.Sprintf("%016x-%s@meltwright", id.Sum64(), key))
	o.line("DTSTAMP", o.stamp)
	o.line("DTSTART;VALUE=DATE", start.Format("20060102"))
	o.line("DTEND;VALUE=DATE", end.AddDate(0, 0, 1).Format("20060102"))
	summary := name
	if o.title != "" {
		summary = o.title + ": " + name
	}
	o.line("SUMMARY", escape(summary))
	o.line("DESCRIPTION", escape(details))
	o.line("CATEGORIES", escape(kind))
	o.line("TRANSP", "TRANSPARENT")
	o.line("END", "VEVENT")
}

// escape puts text as RFC 5545, 3.3.11, wants it; other control characters have
// no place there.
func escape(text string) string {
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(strings.ReplaceAll(text, "\r\n", "\n"), "�") {
		switch {
		case r == '\\' || r == ';' || r == ',':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r >= ' ' && r != 0x7f || r == '\t':
			b.WriteRune(r)
		}
	}
	return b.String()
}

// mostOctets is the length of a line, without its end.
const mostOctets = 75

// line writes a content line, folded between characters where it is longer.
func (o *icsWriter) line(name, value string) {
	left := name + ":" + value
	room := mostOctets
	for len(left) > room {
		cut := room
		for !utf8.RuneStart(left[cut]) {
			cut--
		}
		o.w.WriteString(left[:cut] + "\r\n ")
		left, room = left[cut:], mostOctets-1
	}
	o.w.WriteString(left + "\r\n")
}
