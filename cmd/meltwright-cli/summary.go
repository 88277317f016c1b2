package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// summary prints the estimate for a person at a terminal.
func summary(w io.Writer, c estimate.Commission, e *estimate.Estimate) error {
	p := &printer{w: w}
	if c.Title != "" {
		p.f("%s%s%s\n\n", c.Title, after(" · ", c.Client), after(" · ", c.Place))
	}
	for i := range e.Pieces {
		p.piece(&e.Pieces[i], e)
	}
	p.stages(e)
	p.price(e)
	p.foundry(e)
	p.f("\nPayments\n")
	for _, pay := range e.Payments {
		p.row(pay.When, percent(pay.Share), e.Currency.Plain(pay.Amount, locale))
	}
	p.f("\nCautions (follow local codes; licensed people decide):\n")
	for _, x := range e.Cautions {
		p.f("  - %s\n", x.Text)
	}
	return p.err
}

// piece prints what one piece comes to, and a figure's surface by every formula.
func (p *printer) piece(x *estimate.PieceResult, e *estimate.Estimate) {
	p.f("%s%s\n", x.Name, after(", ", many(x.Casts, "cast")))
	p.f("  %s high, surface %s, wall %s, %s\n", show(quantity.KindLength, float64(x.Height), e), show(quantity.KindArea, float64(x.Area), e), show(quantity.KindLength, float64(x.Wall), e), x.Alloy)
	p.f("  %s of bronze, %s poured, %s, %s of weld\n", show(quantity.KindMass, float64(x.Finished), e), show(quantity.KindMass, float64(x.Poured), e),
		counted(x.Sections, "section"), show(quantity.KindLength, float64(x.Weld), e))
	if x.Casts > 1 {
		p.f("  direct cost of the first cast %s, of each further %s, on average %s\n", e.Currency.Plain(x.FirstCast, locale), e.Currency.Plain(x.NextCast, locale), e.Currency.Plain(x.AverageCast, locale))
	}
	if len(x.ByOthers) > 0 {
		p.f("  by others: %s\n", strings.Join(x.ByOthers, ", "))
	}
	if len(x.SolidParts) > 0 {
		p.f("  casts solid: %s\n", strings.Join(x.SolidParts, ", "))
	}
	if len(x.CrossChecks) > 0 {
		p.f("  nude surface as measured, by each formula:\n")
	}
	for _, k := range x.CrossChecks {
		p.f("    %s %s%s\n", padded(k.Name, 14), show(quantity.KindArea, float64(k.Area), e), map[bool]string{true: "  chosen"}[k.Chosen])
	}
}

// stages prints hours and cost of each stage.
func (p *printer) stages(e *estimate.Estimate) {
	p.f("\n")
	p.row("Stage", "Hours", e.Currency.Code)
	for _, s := range e.Stages {
		name, amount := s.Name, s.Amount
		if s.ID == "price" { // what it adds to the direct cost follows
			name, amount = "Own lines of the price", amount-(e.Price-e.Direct)
		}
		switch {
		case s.ByOthers && amount == 0:
			p.row(name, "", "by others")
		case amount != 0 || s.Hours != 0:
			p.row(name, grouped(fmt.Sprintf("%.2f", float64(s.Hours))), e.Currency.Plain(amount, locale))
		}
	}
}

// price prints the way from the direct cost to the total.
func (p *printer) price(e *estimate.Estimate) {
	p.row("Direct cost", "", e.Currency.Plain(e.Direct, locale))
	for _, s := range e.PriceLines {
		name := s.Name
		if s.Of != "" && s.Share != "" {
			name += ", of the " + strings.TrimPrefix(s.Of, "the ")
		}
		p.row(name, s.Share, e.Currency.Plain(s.Amount, locale))
	}
	p.row("Price before tax", "", e.Currency.Plain(e.Price, locale))
	for _, t := range e.Taxes {
		p.row(t.Name+" (check the rate)", percent(t.Rate), e.Currency.Plain(t.Amount, locale))
	}
	p.row("Total", "", e.Currency.Plain(e.Total, locale))
}

// foundry prints heats, pour days and hours.
func (p *printer) foundry(e *estimate.Estimate) {
	charged := ""
	if e.DaysCharged != float64(e.PourDays) {
		charged = " (" + quantity.Number(e.DaysCharged, 2) + " charged)"
	}
	p.f("\n%s on %s%s; %s of metal used up\n", counted(len(e.Heats), "heat"), counted(e.PourDays, "pour day"), charged, show(quantity.KindMass, float64(e.MetalUsed), e))
	p.f("%s foundry hours; from wax to metal about %.1f weeks\n", grouped(fmt.Sprintf("%.0f", float64(e.Foundry))), e.WaxToMetal)
}

// row prints a name, something short and an amount, in columns.
func (p *printer) row(name, short, amount string) {
	p.f("  %s %s %s\n", padded(name, 34), ranged(short, 10), ranged(amount, 18))
}

// padded and ranged fill a text with spaces behind or before, by the letters a
// reader sees.
func padded(text string, width int) string {
	return fmt.Sprintf("%s%*s", text, max(0, width-utf8.RuneCountInString(text)), "")
}

func ranged(text string, width int) string {
	return fmt.Sprintf("%*s%s", max(0, width-utf8.RuneCountInString(text)), "", text)
}

// grouped puts a comma before every three figures of the whole part.
func grouped(number string) string {
	whole, part, _ := strings.Cut(number, ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	return whole + after(".", part)
}

// counted says how many there are: "1 heat", "8 heats".
func counted(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%s %ss", quantity.Number(float64(n), 0), of)
}

// many is counted where there is more than one.
func many(n int, of string) string {
	if n == 1 {
		return ""
	}
	return counted(n, of)
}

const locale = "en-CA"

func show(k quantity.Kind, v float64, e *estimate.Estimate) string {
	return quantity.Print(k, v, e.System)
}

// printer keeps the first error of many prints.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) f(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, args...)
	}
}
