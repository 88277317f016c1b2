package ui

import (
	"fmt"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// railRows are the pages of the quote, in the order of the work, with what each
// stage comes to in the last estimate without faults.
func (q *quoteScreen) railRows() []kit.RailRow {
	wrong := q.wrongPages()
	e, _ := q.sheet.Estimate()
	head := kit.RailRow{ID: desk.Head, Name: "Commission", Colour: look.StageColour(desk.Head), Detail: q.headDetail()}
	rows := []kit.RailRow{head}
	for i, st := range estimate.Stages {
		row := kit.RailRow{ID: st.ID, Name: st.Name, Colour: look.StageColour(st.ID)}
		if e != nil {
			fillRow(&row, e, e.Stages[i])
		}
		rows = append(rows, row)
	}
	rows = append(rows, q.moreRows()...)
	for i := range rows {
		if f, ok := wrong[rows[i].ID]; ok {
			rows[i].State, rows[i].Detail = kit.StageFault, f.Field+" "+f.Problem
		}
	}
	return rows
}

// wrongPages gives the first fault of each page that has any.
func (q *quoteScreen) wrongPages() map[string]fault.Fault {
	wrong := map[string]fault.Fault{}
	if list := fault.All(q.sure.err); len(list) > 0 {
		wrong[sureID] = list[0] // a range that was typed
	}
	for _, f := range q.sheet.Faults() {
		id, _ := q.sheet.At(f.Where)
		if _, ok := wrong[id]; !ok {
			wrong[id] = f
		}
	}
	return wrong
}

func (q *quoteScreen) headDetail() string {
	if n := len(q.pieces()); n > 1 {
		return fmt.Sprintf("%d pieces", n)
	}
	return joined(q.sheet.Commission().Client, q.sheet.Commission().Place)
}

// fillRow writes what a stage comes to.
func fillRow(row *kit.RailRow, e *estimate.Estimate, s estimate.StageResult) {
	if s.ByOthers {
		row.State, row.Detail, row.Amount = kit.StageByOthers, "by others", "—"
		return
	}
	row.Detail = stageDetail(e, s)
	if s.Amount != 0 {
		row.Amount = wholeAmount(e, s.Amount)
	}
	if e.Price > 0 && s.Amount > 0 {
		row.Share = float64(s.Amount) / float64(e.Price)
	}
}

// stageDetail is what a stage has to say for itself besides its cost.
func stageDetail(e *estimate.Estimate, s estimate.StageResult) string {
	switch s.ID {
	case "form":
		return formDetail(e)
	case "pour":
		return counted(len(e.Heats), "heat") + " · " + counted(e.PourDays, "pour day")
	case "base":
		if kg := plinths(e); kg > 0 {
			return "stone " + quantity.Print(quantity.KindMass, kg, e.System)
		}
	case "delivery":
		if e.Lift.By != "" && e.Lift.By != "hands" {
			return e.Lift.By
		}
	case "price":
		return "over the direct cost"
	}
	if s.Hours > 0 {
		return quantity.Number(float64(s.Hours), 0) + " h"
	}
	return ""
}

func formDetail(e *estimate.Estimate) string {
	area, tallest := 0.0, 0.0
	for _, p := range e.Pieces {
		area += float64(p.Area)
		tallest = max(tallest, float64(p.Height))
	}
	return quantity.Print(quantity.KindArea, area, e.System) + " · " + quantity.Print(quantity.KindLength, tallest, e.System) + " tall"
}

func plinths(e *estimate.Estimate) (kg float64) {
	for _, p := range e.Pieces {
		kg += float64(p.Plinth) * float64(p.Casts)
	}
	return kg
}

// counted is a number with its word: "1 heat", "9 heats".
func counted(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return quantity.Number(float64(n), 0) + " " + word
}

// wholeAmount is an amount to the whole unit, without the currency's sign.
func wholeAmount(e *estimate.Estimate, a money.Amount) string {
	c := e.Currency
	whole := money.Currency{Code: c.Code}
	return whole.Plain(whole.Of(c.Decimal(a)), locale)
}
