package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/risk"
)

type (
	rangeJSON struct {
		Currency string `json:"currency"`
		Quoted   string `json:"quoted"` // the price as estimated, before tax
		spreadJSON
		Cost         spreadJSON   `json:"cost"` // direct cost and overhead
		LossChance   float64      `json:"loss_chance"`
		Contingency  float64      `json:"contingency_for_80"`
		RecastChance float64      `json:"recast_chance"`
		Recasts      float64      `json:"recasts"`
		RecastCost   string       `json:"recast_cost"`
		Together     float64      `json:"hours_together"`
		Trials       int          `json:"trials"`
		Seed         uint64       `json:"seed"`
		Drivers      []driverJSON `json:"drivers"`
	}
	spreadJSON struct {
		P10  string `json:"p10"`
		P50  string `json:"p50"`
		P80  string `json:"p80"`
		P90  string `json:"p90"`
		Mean string `json:"mean"`
		SD   string `json:"sd"`
	}
	driverJSON struct {
		Name string `json:"name"`
		Low  string `json:"low"` // change of price at the input's tenth part in a hundred
		High string `json:"high"`
	}
)

// runRange draws where the price of a commission comes to lie.
func runRange(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--trials", "--seed"}, []string{"--json"})
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one commission file")
	}
	ask, err := askFor(opt)
	if err != nil {
		return err
	}
	ask.Progress = progressOn(os.Stderr)
	return commissionAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, d *desk.Desk) error {
		r, err := risk.Draw(ctx, c, d.Shop(), ask)
		if err != nil {
			return err
		}
		e, err := estimate.Of(c, d.Shop())
		if err != nil {
			return err
		}
		if opt["--json"] != "" {
			return writeJSON(out, rangeAsJSON(r, e.Currency))
		}
		return printRange(out, r, e.Currency)
	})
}

// askFor reads how many trials are wanted, and their seed.
func askFor(opt map[string]string) (a risk.Ask, err error) {
	if text := opt["--trials"]; text != "" {
		if a.Trials, err = strconv.Atoi(text); err != nil || a.Trials < 1 || a.Trials > risk.MostTrials {
			return a, fault.Fault{Field: "Trials", Value: text, Problem: "are not a number of trials", Remedy: "give from 1 up to 1,000,000; 10,000 is usual"}
		}
	}
	if text := opt["--seed"]; text != "" {
		if a.Seed, err = strconv.ParseUint(text, 10, 64); err != nil || a.Seed == 0 {
			return a, fault.Fault{Field: "Seed", Value: text, Problem: "is not a seed", Remedy: "give a whole number from 1 up"}
		}
	}
	return a, nil
}

// progressOn tells somebody at a terminal, after the first second, how far a long
// drawing is; nil where there is nobody.
func progressOn(errs *os.File) func(done float64) {
	info, err := errs.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	began, told := time.Now(), -1
	return func(done float64) {
		n := int(done * 100)
		if n == told || time.Since(began) < time.Second {
			return
		}
		told = n
		fmt.Fprintf(errs, "\r%3d %% drawn", n)
		if n == 100 {
			fmt.Fprint(errs, "\r             \r")
		}
	}
}

func spreadAsJSON(s risk.Spread, c money.Currency) spreadJSON {
	text := func(v float64) string { return c.Text(money.Amount(math.Round(v))) }
	return spreadJSON{c.Text(s.P10), c.Text(s.P50), c.Text(s.P80), c.Text(s.P90), text(s.Mean), text(s.Deviation)}
}

func rangeAsJSON(r risk.Range, c money.Currency) rangeJSON {
	out := rangeJSON{
		Currency: c.Code, Quoted: c.Text(r.Quoted), spreadJSON: spreadAsJSON(r.Price, c), Cost: spreadAsJSON(r.Cost, c),
		LossChance: tidy(r.LossChance), Contingency: tidy(r.ContingencyFor80), RecastChance: tidy(r.RecastChance), Recasts: tidy(r.Recasts),
		RecastCost: c.Text(r.RecastCost), Together: r.Together, Trials: r.Trials, Seed: r.Seed, Drivers: []driverJSON{},
	}
	for _, d := range r.Drivers {
		out.Drivers = append(out.Drivers, driverJSON{d.Name, c.Text(d.Low), c.Text(d.High)})
	}
	return out
}

func printRange(w io.Writer, r risk.Range, c money.Currency) error {
	p := &printer{w: w}
	p.f("%s Quoted: %s, before tax.\n", r.Words(c, locale), c.Whole(r.Quoted, locale))
	p.f("%s\n%s\n\n", r.LossWords(), r.RecastWords(c, locale))
	p.f("%-8s %14s %14s %14s %14s\n", c.Code, "P10", "P50", "P80", "P90")
	for _, x := range []struct {
		name string
		risk.Spread
	}{{"Price", r.Price}, {"Cost", r.Cost}} {
		p.f("%-8s", x.name)
		for _, a := range []money.Amount{x.P10, x.P50, x.P80, x.P90} {
			p.f(" %14s", c.Whole(a, locale))
		}
		p.f("\n")
	}
	p.f("\nWhat drives the price, each alone from its tenth to its ninetieth part in a hundred:\n")
	for _, d := range r.Drivers {
		p.f("  %-32s %14s %14s\n", d.Name, signed(d.Low, c), signed(d.High, c))
	}
	p.f("\n%s trials, seed %d; hours move together by %s %%.\n", quantity.Number(float64(r.Trials), 0), r.Seed, quantity.Number(r.Together*100, 0))
	return p.err
}

// signed prints a change of price with its sign.
func signed(a money.Amount, c money.Currency) string {
	if a > 0 {
		return fmt.Sprint("+", c.Whole(a, locale))
	}
	return c.Whole(a, locale)
}
