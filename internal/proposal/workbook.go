package proposal

import (
	"bytes"
	"fmt"
	"strconv"
	"time"

	"github.com/xuri/excelize/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quote"
)

// The sheets of the workbook.
const (
	linesSheet  = "Lines"
	priceSheet  = "Price"
	piecesSheet = "Pieces"
)

// ledger is a workbook being written. The first thing that goes wrong with it is
// kept.
type ledger struct {
	file   *excelize.File
	paper  quote.Paper
	e      *estimate.Estimate
	styles map[string]int
	err    error
}

// workbook writes the cost sheet as a spreadsheet: the lines, each quantity ×
// rate; the price, from the sums of the lines to the payments; and the pieces.
// Only what was typed or worked out from the form is a number; all else is a
// formula.
func workbook(out *bytes.Buffer, p quote.Paper) error {
	f := excelize.NewFile()
	defer f.Close()
	b := &ledger{file: f, paper: p, e: p.Estimate}
	b.setStyles()
	b.check(f.SetSheetName("Sheet1", linesSheet))
	for _, name := range []string{priceSheet, piecesSheet} {
		_, err := f.NewSheet(name)
		b.check(err)
	}
	last := b.lines()
	b.priceFrom(last)
	b.pieces()
	for _, name := range f.GetSheetList() {
		b.printed(name)
	}
	b.properties()
	if b.err != nil {
		return b.err
	}
	_, err := f.WriteTo(out)
	return err
}

func (b *ledger) check(err error) {
	if b.err == nil && err != nil {
		b.err = err
	}
}

// setStyles makes the looks of cells: heads, amounts, quantities, shares, totals.
func (b *ledger) setStyles() {
	amount := numberFormat(b.e.Currency.Digits)
	head := excelize.Style{Font: &excelize.Font{Bold: true}, Border: []excelize.Border{{Type: "bottom", Color: "221D17", Style: 1}}}
	total := excelize.Style{Font: &excelize.Font{Bold: true}, CustomNumFmt: &amount, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"F6EDDD"}}}
	alone := excelize.Style{Font: &excelize.Font{Bold: true, Color: "993527"}}
	exact := "0.########"
	share := "0.######%"
	b.styles = map[string]int{}
	for _, s := range []struct {
		name  string
		style excelize.Style
	}{
		{"head", head},
		{"total", total},
		{"alone", alone},
		{"amount", excelize.Style{CustomNumFmt: &amount}},
		{"exact", excelize.Style{CustomNumFmt: &exact}},
		{"share", excelize.Style{CustomNumFmt: &share}},
	} {
		id, err := b.file.NewStyle(&s.style)
		b.check(err)
		b.styles[s.name] = id
	}
}

// numberFormat shows amounts of a currency with as many decimals as it has.
func numberFormat(digits int32) string {
	format := "#,##0"
	for i := range digits {
		if i == 0 {
			format += "."
		}
		format += "0"
	}
	return format
}

// text puts words into a cell. They are never taken for a formula.
func (b *ledger) text(sheet, cell, words, style string) {
	words = basic(words)
	if runes := []rune(words); len(runes) > excelize.TotalCellChars {
		words = string(runes[:excelize.TotalCellChars])
	}
	b.check(b.file.SetCellStr(sheet, cell, words))
	b.look(sheet, cell, style)
}

// number puts an exact number into a cell.
func (b *ledger) number(sheet, cell string, d money.Decimal, style string) {
	b.check(b.file.SetCellValue(sheet, cell, d.InexactFloat64()))
	b.look(sheet, cell, style)
}

// formula puts a formula into a cell.
func (b *ledger) formula(sheet, cell, formula, style string) {
	b.check(b.file.SetCellFormula(sheet, cell, formula))
	b.look(sheet, cell, style)
}

func (b *ledger) look(sheet, cell, style string) {
	if id, ok := b.styles[style]; ok {
		b.check(b.file.SetCellStyle(sheet, cell, cell, id))
	}
}

// round rounds a formula to the currency's smallest unit, half away from zero.
// Rounding to ten places first takes away what binary fractions add.
func (b *ledger) round(formula string) string {
	return fmt.Sprintf("ROUND(ROUND(%s,10),%d)", formula, b.e.Currency.Digits)
}

// head puts the words above the columns of a sheet, with their widths.
func (b *ledger) head(sheet string, row int, columns []string, widths []float64) {
	for i, words := range columns {
		name, err := excelize.ColumnNumberToName(i + 1)
		b.check(err)
		b.text(sheet, name+strconv.Itoa(row), words, "head")
		b.check(b.file.SetColWidth(sheet, name, name, widths[i]))
	}
	b.check(b.file.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: row, TopLeftCell: "A" + strconv.Itoa(row+1), ActivePane: "bottomLeft"}))
}

// printed lays a sheet out for paper: across, all columns on one page.
func (b *ledger) printed(sheet string) {
	landscape, one, all, fit := "landscape", 1, 0, true
	b.check(b.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &one, FitToHeight: &all}))
	b.check(b.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}))
}

// lineHead is the row of the lines' heads.
const lineHead = 3

// lines writes every line and gives the row of the last.
func (b *ledger) lines() int {
	q := b.paper.Quote
	b.text(linesSheet, "A1", joinSome([]string{"Cost sheet", q.Commission.Title, joinSome([]string{q.Number, q.Letter}, " "), b.paper.Date, b.e.Currency.Code}, " · "), "")
	b.text(linesSheet, "A2", forTheShop, "alone")
	b.head(linesSheet, lineHead, []string{"Stage", "Piece", "Line", "Class", "Quantity", "Unit", "Rate", "Per", "Amount", "Working"},
		[]float64{20, 18, 38, 11, 12, 10, 12, 10, 16, 90})
	r := lineHead
	for _, l := range b.e.Lines {
		r++
		at := func(column string) string { return column + strconv.Itoa(r) }
		piece := "the whole"
		if l.Piece >= 0 {
			piece = b.e.Pieces[l.Piece].Name
		}
		b.text(linesSheet, at("A"), stageName(l.Stage), "")
		b.text(linesSheet, at("B"), piece, "")
		b.text(linesSheet, at("C"), l.Item, "")
		b.text(linesSheet, at("D"), l.Class.String(), "")
		b.number(linesSheet, at("E"), l.Quantity, "exact")
		b.text(linesSheet, at("F"), l.Unit, "")
		b.number(linesSheet, at("G"), l.Rate, "exact")
		b.text(linesSheet, at("H"), l.Per, "")
		b.formula(linesSheet, at("I"), b.round(at("E")+"*"+at("G")), "amount")
		b.text(linesSheet, at("J"), b.e.Working(l).String(), "")
	}
	return r
}

func stageName(id string) string {
	if st, ok := estimate.StageByID(id); ok {
		return st.Name
	}
	return id
}

// pieces writes sizes and weights, in SI units.
func (b *ledger) pieces() {
	b.head(piecesSheet, 1, []string{"Piece", "Alloy", "Casts", "Height, m", "Surface, m²", "Wall, mm", "Finished, kg", "Poured, kg", "Sections", "Coats", "Weld, m", "Fired shell, kg", "Base, kg"},
		[]float64{24, 32, 8, 11, 12, 10, 13, 13, 10, 8, 10, 15, 11})
	for i, p := range b.e.Pieces {
		r := strconv.Itoa(i + 2)
		b.text(piecesSheet, "A"+r, p.Name, "")
		b.text(piecesSheet, "B"+r, p.Alloy, "")
		for k, v := range []float64{
			float64(p.Casts), float64(p.Height), float64(p.Area), float64(p.Wall) * 1000, float64(p.Finished), float64(p.Poured),
			float64(p.Sections), float64(p.Coats), float64(p.Weld), float64(p.ShellMass), float64(p.Plinth),
		} {
			b.number(piecesSheet, string(rune('C'+k))+r, money.Round(v, 6), "exact")
		}
	}
}

// properties names the document and fixes its dates.
func (b *ledger) properties() {
	date, ok := day(b.paper.Date)
	if !ok {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	stamp := date.UTC().Format(time.RFC3339)
	b.check(b.file.SetDocProps(&excelize.DocProperties{
		Title: "Cost sheet: " + basic(titleOf(b.paper)), Creator: basic(authorOf(b.paper)), LastModifiedBy: creator(),
		Created: stamp, Modified: stamp,
	}))
	recalculate := true
	b.check(b.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &recalculate}))
	b.check(b.file.SetAppProps(&excelize.AppProperties{Application: creator()}))
}
