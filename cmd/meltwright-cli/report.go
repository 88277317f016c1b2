package main

import (
	"encoding/json"
	"io"
	"strconv"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// The estimate as JSON: amounts are decimal text, quantities numbers in the
// units their names say.
type (
	estimateJSON struct {
		Title        string        `json:"title"`
		Currency     string        `json:"currency"`
		Pieces       []pieceJSON   `json:"pieces"`
		Lines        []lineJSON    `json:"lines"`
		Stages       []stageJSON   `json:"stages"`
		Heats        int           `json:"heats"`
		PourDays     int           `json:"pour_days"`
		DaysCharged  float64       `json:"pour_days_charged"`
		ChargedKg    float64       `json:"charged_kg"`
		MetalUsedKg  float64       `json:"metal_used_kg"`
		FoundryHours float64       `json:"foundry_hours"`
		WaxToMetal   float64       `json:"wax_to_metal_weeks"`
		Recasts      float64       `json:"expected_recasts"`
		RecastChance float64       `json:"recast_chance"`
		Lifting      string        `json:"lifting"`
		Direct       string        `json:"direct"`
		Steps        []stepJSON    `json:"steps"`
		Price        string        `json:"price"`
		Taxes        []taxJSON     `json:"taxes"`
		Total        string        `json:"total"`
		Payments     []paymentJSON `json:"payments"`
		Cautions     []cautionJSON `json:"cautions"`
	}
	pieceJSON struct {
		Name        string   `json:"name"`
		HeightM     float64  `json:"height_m"`
		Scale       float64  `json:"scale"`
		AreaM2      float64  `json:"area_m2"`
		WallMm      float64  `json:"wall_mm"`
		FinishedKg  float64  `json:"finished_kg"`
		PouredKg    float64  `json:"poured_kg"`
		Sections    int      `json:"sections"`
		WeldM       float64  `json:"weld_m"`
		Casts       int      `json:"casts"`
		Once        string   `json:"once"`
		FirstCast   string   `json:"first_cast"`
		NextCast    string   `json:"next_cast"`
		AverageCast string   `json:"average_cast"`
		ByOthers    []string `json:"by_others,omitempty"`
		CastsSolid  []string `json:"casts_solid,omitempty"`
		// AreaCheck is a figure's nude surface at its measured height, by every
		// published formula there is.
		AreaCheck []areaCheckJSON `json:"area_check,omitempty"`
	}
	areaCheckJSON struct {
		Formula string  `json:"formula"`
		Source  string  `json:"source"`
		AreaM2  float64 `json:"area_m2"`
		Chosen  bool    `json:"chosen"`
	}
	lineJSON struct {
		Stage    string `json:"stage"`
		Piece    string `json:"piece,omitempty"`
		Item     string `json:"item"`
		Quantity string `json:"quantity"`
		Unit     string `json:"unit"`
		Rate     string `json:"rate"`
		Amount   string `json:"amount"`
		Class    string `json:"class"`
		Working  string `json:"working"`
	}
	stageJSON struct {
		Stage    string  `json:"stage"`
		Hours    float64 `json:"hours"`
		Amount   string  `json:"amount"`
		ByOthers bool    `json:"by_others,omitempty"`
	}
	stepJSON struct {
		Name    string `json:"name"`
		Share   string `json:"share,omitempty"`
		Of      string `json:"of,omitempty"`
		Amount  string `json:"amount"`
		Working string `json:"working"`
	}
	taxJSON struct {
		Name   string `json:"name"`
		Rate   string `json:"rate"`
		Base   string `json:"base"`
		Amount string `json:"amount"`
		Dated  string `json:"dated,omitempty"`
	}
	paymentJSON struct {
		When   string `json:"when"`
		Share  string `json:"share"`
		Amount string `json:"amount"`
	}
	cautionJSON struct {
		Stage  string `json:"stage"`
		Text   string `json:"text"`
		Source string `json:"source,omitempty"`
	}
)

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// asJSON is the estimate in the shape scripts read.
func asJSON(c estimate.Commission, e *estimate.Estimate) estimateJSON {
	text := e.Currency.Text
	out := estimateJSON{
		Title: c.Title, Currency: e.Currency.Code, Heats: len(e.Heats), PourDays: e.PourDays, DaysCharged: tidy(e.DaysCharged),
		ChargedKg: tidy(float64(e.Charged)), MetalUsedKg: tidy(float64(e.MetalUsed)), FoundryHours: tidy(float64(e.Foundry)),
		WaxToMetal: tidy(e.WaxToMetal), Recasts: tidy(e.Recasts), RecastChance: tidy(e.RecastRisk), Lifting: e.Lift.By,
		Direct: text(e.Direct), Price: text(e.Price), Total: text(e.Total),
		Taxes: []taxJSON{}, Payments: []paymentJSON{}, Steps: []stepJSON{},
	}
	for _, p := range e.Pieces {
		out.Pieces = append(out.Pieces, pieceAsJSON(p, text))
	}
	for _, l := range e.Lines {
		j := lineJSON{Stage: l.Stage, Item: l.Item, Quantity: l.QuantityText(), Unit: l.Unit, Rate: l.RateText(e.Currency.Digits), Amount: text(l.Amount), Class: l.Class.String(), Working: e.Working(l).String()}
		if l.Piece != estimate.Whole {
			j.Piece = e.Pieces[l.Piece].Name
		}
		out.Lines = append(out.Lines, j)
	}
	for _, s := range e.Stages {
		out.Stages = append(out.Stages, stageJSON{s.ID, tidy(float64(s.Hours)), text(s.Amount), s.ByOthers})
	}
	for _, p := range e.PriceLines {
		out.Steps = append(out.Steps, stepJSON{p.Name, p.Share, p.Of, text(p.Amount), p.Working})
	}
	for _, t := range e.Taxes {
		out.Taxes = append(out.Taxes, taxJSON{t.Name, percent(t.Rate), text(t.Base), text(t.Amount), t.Dated})
	}
	for _, p := range e.Payments {
		out.Payments = append(out.Payments, paymentJSON{p.When, percent(p.Share), text(p.Amount)})
	}
	for _, x := range e.Cautions {
		out.Cautions = append(out.Cautions, cautionJSON{x.Stage, x.Text, x.Source})
	}
	return out
}

func pieceAsJSON(p estimate.PieceResult, text func(money.Amount) string) pieceJSON {
	j := pieceJSON{
		p.Name, tidy(float64(p.Height)), tidy(p.Scale), tidy(float64(p.Area)), tidy(float64(p.Wall) * 1000), tidy(float64(p.Finished)),
		tidy(float64(p.Poured)), p.Sections, tidy(float64(p.Weld)), p.Casts,
		text(p.Once), text(p.FirstCast), text(p.NextCast), text(p.AverageCast), p.ByOthers, p.SolidParts, nil,
	}
	for _, x := range p.CrossChecks {
		j.AreaCheck = append(j.AreaCheck, areaCheckJSON{x.Name, x.Source, tidy(float64(x.Area)), x.Chosen})
	}
	return j
}

func percent(share money.Decimal) string { return share.Shift(2).String() + " %" }

// tidy drops the last bits of a binary fraction: nine significant digits.
func tidy(v float64) float64 {
	out, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 9, 64), 64)
	return out
}
