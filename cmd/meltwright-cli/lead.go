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
	"meltwright/internal/lead"
	"meltwright/internal/risk"
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
		By         *meetingJSON    `json:"by,omitempty"`
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

// scheduled is a commission with its schedule, the range of its finish and, where
// a date is required, what that takes.
type scheduled struct {
	lead.Schedule
	finish  lead.Finish
	meeting *lead.Meeting
	made    time.Time
}

// runLead schedules a commission from a date on.
func runLead(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--start", "--by", "--ics", "--trials", "--seed"}, []string{"--json"})
	if err != nil {
		return err
	}
	if len(rest) != 1 || opt["--start"] == "" {
		return usageError("it takes one commission file, and --start with a date")
	}
	return commissionAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, d *desk.Desk) error {
		s, err := schedule(ctx, c, d, opt)
		if err != nil {
			return err
		}
		if name := opt["--ics"]; name != "" {
			if err := writeICS(name, s, c.Title); err != nil {
				return err
			}
		}
		if opt["--json"] != "" {
			return writeJSON(out, s.asJSON())
		}
		return s.print(out)
	})
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
	o := lead.Order{Commission: c, Estimate: e, Start: start}
	if s.Schedule, err = lead.Plan(c, e, d.Shop(), start, nil); err != nil {
		return s, err
	}
	draws, err := risk.NewTrials(c, d.Shop(), ask)
	if err != nil {
		return s, err
	}
	if s.finish, err = lead.FinishRange(ctx, o, d.Shop(), nil, draws); err != nil {
		return s, err
	}
	s.made = time.Now()
	if opt["--by"] == "" {
		return s, nil
	}
	by, err := dateOf("Required date", opt["--by"])
	if err != nil {
		return s, err
	}
	m, err := lead.Meet(o, d.Shop(), by, nil)
	s.meeting = &m
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

func writeICS(name string, s scheduled, title string) error {
	f, err := os.Create(name)
	if err == nil {
		if err = lead.ICS(f, s.Schedule, title, s.made); err == nil {
			return f.Close()
		}
		_ = f.Close()
	}
	return fault.Fault{Field: "Calendar file", Value: name, Problem: "cannot be written", Remedy: "check its name: " + err.Error()}
}

func iso(t time.Time) string { return t.Format(time.DateOnly) }

func (s scheduled) asJSON() leadJSON {
	out := leadJSON{
		Start: iso(s.Start), Ready: iso(s.Ready), Weeks: tidy(s.Weeks), P50: iso(s.finish.P50), P80: iso(s.finish.P80),
		Held: tidy(s.finish.Held), WaxToMetal: tidy(s.WaxToMetal), Tasks: []taskJSON{}, Milestones: []milestoneJSON{},
	}
	for _, t := range s.Tasks {
		out.Tasks = append(out.Tasks, taskJSON{t.Name, iso(t.Start), iso(t.End), t.Room, t.People, t.Skill, t.Hours, t.Critical, tidy(t.Spare), append([]int{}, t.After...)})
	}
	for _, m := range s.Milestones {
		out.Milestones = append(out.Milestones, milestoneJSON{m.Name, iso(m.Date), s.Currency.Text(m.Amount)})
	}
	if m := s.meeting; m != nil {
		by := &meetingJSON{Required: iso(m.Required), Met: m.Met}
		if !m.Latest.IsZero() {
			by.Latest = iso(m.Latest)
		}
		for _, g := range m.Gives {
			by.Gives = append(by.Gives, giveJSON{g.What, iso(g.Ready), g.Met})
		}
		out.By = by
	}
	return out
}

// print shows the schedule to a person at a terminal.
func (s scheduled) print(w io.Writer) error {
	p := &printer{w: w}
	p.f("Ready %s: %.1f weeks from %s, if no casting fails.\n", iso(s.Ready), s.Weeks, iso(s.Start))
	p.f("Five in ten by %s, eight in ten by %s; castings made again move the date in %.0f of 100.\n\n", iso(s.finish.P50), iso(s.finish.P80), s.finish.Held*100)
	for _, t := range s.Tasks {
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
	for _, m := range s.Milestones {
		p.f("%s  %-32s %14s\n", iso(m.Date), m.Name, s.Currency.Plain(m.Amount, locale))
	}
	s.printMeeting(p)
	return p.err
}

// printMeeting says whether the required date can be met.
func (s scheduled) printMeeting(p *printer) {
	m := s.meeting
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
