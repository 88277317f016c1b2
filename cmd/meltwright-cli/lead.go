package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
)

type (
	leadJSON struct {
		Start      string          `json:"start"`
		Ready      string          `json:"ready"`
		Weeks      float64         `json:"weeks"`
		P50        string          `json:"p50_ready"`
		P80        string          `json:"p80_ready"`
		Held       float64         `json:"held_up_by_recasts"` // share of trials
		WaxToMetal float64         `json:"wax_to_metal_weeks"`
		Tasks      []taskJSON      `json:"tasks"`
		Milestones []milestoneJSON `json:"milestones"`
		Booked     *bookedJSON     `json:"booked,omitempty"`
		By         *meetingJSON    `json:"by,omitempty"`
	}
	bookedJSON struct {
		Quotes  int      `json:"accepted_quotes"`
		Pour    string   `json:"first_pour_day_free,omitempty"`
		Without string   `json:"ready_without_them"`
		Left    []string `json:"left_out,omitempty"`
	}
	taskJSON struct {
		Name     string  `json:"name"`
		Start    string  `json:"start"`
		End      string  `json:"end"`
		Room     string  `json:"room"`
		People   int     `json:"people"`
		Skill    string  `json:"skill,omitempty"`
		Hours    float64 `json:"hours"`
		Critical bool    `json:"critical"`
		Spare    float64 `json:"spare_weeks"`
		After    []int   `json:"after"`
	}
	milestoneJSON struct {
		Name   string `json:"name"`
		Date   string `json:"date"`
		Amount string `json:"amount"`
	}
	meetingJSON struct {
		Required string     `json:"required"`
		Met      bool       `json:"met"`
		Latest   string     `json:"latest_start,omitempty"`
		Gives    []giveJSON `json:"would_have_to_give,omitempty"`
	}
	giveJSON struct {
		What  string `json:"what"`
		Ready string `json:"ready"`
		Met   bool   `json:"met"`
	}
)

// scheduled is a commission with its schedule.
type scheduled struct {
	desk.Soon
}

// runLead schedules a commission from a date on: that of the options, or that of
// the file's own words.
func runLead(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--start", "--by", "--ics", "--trials", "--seed"}, []string{"--json"})
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one commission file, and --start with a date")
	}
	return quoteAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, words map[string]string, d *desk.Desk) error {
		if err := datesOf(opt, words); err != nil {
			return err
		}
		s, err := schedule(ctx, c, d, opt)
		if err != nil {
			return err
		}
		if name := opt["--ics"]; name != "" {
			if err := writeICS(name, s); err != nil {
				return err
			}
		}
		if opt["--json"] != "" {
			return writeJSON(out, s.asJSON())
		}
		return s.print(out)
	})
}

// datesOf takes the dates that the options leave open from what was written for
// the quote.
func datesOf(opt, words map[string]string) error {
	for option, word := range map[string]string{"--start": desk.Start, "--by": desk.Required} {
		if opt[option] != "" || words[word] == "" {
			continue
		}
		t, err := desk.ReadDate("Commission file, “words."+word+"”", words[word])
		if err != nil {
			return err
		}
		opt[option] = t.Format(time.DateOnly)
	}
	if opt["--start"] == "" {
		return usageError("it takes --start with a date, where the file has none among its words")
	}
	return nil
}

// schedule does what the options ask for. The finish is drawn from two thousand
// trials where they do not say how many.
func schedule(ctx context.Context, c estimate.Commission, d *desk.Desk, opt map[string]string) (s scheduled, err error) {
	start, err := dateOf("Start", opt["--start"])
	if err != nil {
		return s, err
	}
	ask, err := askFor(opt)
	if err != nil {
		return s, err
	}
	if ask.Trials == 0 {
		ask.Trials = 2000
	}
	e, err := estimate.Of(c, d.Shop())
	if err != nil {
		return s, err
	}
	asked := desk.Asked{Commission: c, Estimate: e, Start: start}
	if text := opt["--by"]; text != "" {
		if asked.Required, err = dateOf("Required date", text); err != nil {
			return s, err
		}
	}
	s.Soon, err = d.Soon(ctx, asked, ask)
	return s, err
}

// dateOf reads a date of the command line.
func dateOf(field, text string) (time.Time, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil || t.Year() < 1970 || t.Year() > 2200 {
		return t, fault.Fault{Field: field, Value: text, Problem: "is not a date", Remedy: "give year, month and day, such as 2026-03-02"}
	}
	return t, nil
}

func writeICS(name string, s scheduled) error {
	f, err := os.Create(name)
	if err == nil {
		if err = s.ICS(f); err == nil {
			return f.Close()
		}
		_ = f.Close()
	}
	return fault.Fault{Field: "Calendar file", Value: name, Problem: "cannot be written", Remedy: "check its name: " + err.Error()}
}

func iso(t time.Time) string { return t.Format(time.DateOnly) }

func (s scheduled) asJSON() leadJSON {
	plan, finish := s.Schedule, s.Finish
	out := leadJSON{
		Start: iso(plan.Start), Ready: iso(plan.Ready), Weeks: tidy(plan.Weeks), P50: iso(finish.P50), P80: iso(finish.P80),
		Held: tidy(finish.Held), WaxToMetal: tidy(plan.WaxToMetal), Tasks: []taskJSON{}, Milestones: []milestoneJSON{},
		Booked: s.bookedAsJSON(), By: s.meetingAsJSON(),
	}
	for _, t := range plan.Tasks {
		out.Tasks = append(out.Tasks, taskJSON{t.Name, iso(t.Start), iso(t.End), t.Room, t.People, t.Skill, t.Hours, t.Critical, tidy(t.Spare), append([]int{}, t.After...)})
	}
	for _, m := range plan.Milestones {
		out.Milestones = append(out.Milestones, milestoneJSON{m.Name, iso(m.Date), plan.Currency.Text(m.Amount)})
	}
	return out
}

// bookedAsJSON is what accepted quotes do to the schedule, nil where there are none.
func (s scheduled) bookedAsJSON() *bookedJSON {
	b := s.Booked
	if b.Quotes == 0 && len(b.Left) == 0 {
		return nil
	}
	out := &bookedJSON{Quotes: b.Quotes, Without: iso(s.Schedule.Ready), Left: b.Left}
	if b.Quotes > 0 {
		out.Without = iso(s.Schedule.Unbooked)
	}
	if pour := s.Schedule.FirstPour; !pour.IsZero() {
		out.Pour = iso(pour)
	}
	return out
}

// meetingAsJSON is what the required date takes, nil where there is none.
func (s scheduled) meetingAsJSON() *meetingJSON {
	m := s.Meeting
	if m == nil {
		return nil
	}
	out := &meetingJSON{Required: iso(m.Required), Met: m.Met}
	if !m.Latest.IsZero() {
		out.Latest = iso(m.Latest)
	}
	for _, g := range m.Gives {
		out.Gives = append(out.Gives, giveJSON{g.What, iso(g.Ready), g.Met})
	}
	return out
}

// print shows the schedule to a person at a terminal.
func (s scheduled) print(w io.Writer) error {
	p, plan, finish := &printer{w: w}, s.Schedule, s.Finish
	p.f("Ready %s: %.1f weeks from %s, if no casting fails.\n", iso(plan.Ready), plan.Weeks, iso(plan.Start))
	p.f("Five in ten by %s, eight in ten by %s; castings made again move the date in %.0f of 100.\n", iso(finish.P50), iso(finish.P80), finish.Held*100)
	for _, text := range s.BookedWords(iso) {
		p.f("%s\n", text)
	}
	p.f("\n")
	for _, t := range plan.Tasks {
		who := t.Skill
		if t.Wait {
			who = t.Room
		}
		mark := " "
		if t.Critical {
			mark = "!"
		}
		work := ""
		if !t.Wait {
			work = fmt.Sprintf("%d × %6.1f h", t.People, t.Hours/float64(max(1, t.People)))
		}
		p.f("%s\n", strings.TrimRight(fmt.Sprintf("%s %s – %s  %-48s %-18s %s", mark, iso(t.Start), iso(t.End), t.Name, who, work), " "))
	}
	p.f("\nA day's delay of what is marked ! delays the whole.\n\n")
	for _, m := range plan.Milestones {
		p.f("%s  %-32s %14s\n", iso(m.Date), m.Name, plan.Currency.Plain(m.Amount, locale))
	}
	s.printMeeting(p)
	return p.err
}

// printMeeting says whether the required date can be met.
func (s scheduled) printMeeting(p *printer) {
	m := s.Meeting
	switch {
	case m == nil:
		return
	case m.Met:
		p.f("\nReady by %s: the work may begin as late as %s.\n", iso(m.Required), iso(m.Latest))
		return
	case m.Latest.IsZero():
		p.f("\nNot ready by %s, whenever it begins.\n", iso(m.Required))
	default:
		p.f("\nNot ready by %s: the work would have to begin by %s, or something would have to give:\n", iso(m.Required), iso(m.Latest))
	}
	for _, g := range m.Gives {
		verdict := "still too late"
		if g.Met {
			verdict = "in time"
		}
		p.f("  %-56s ready %s, %s\n", g.What, iso(g.Ready), verdict)
	}
}
