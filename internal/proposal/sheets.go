package proposal

import (
	"bytes"
	"encoding/csv"
	"io"
	"strings"

	"meltwright/internal/quote"
)

// OrderList writes what is to be ordered, by supplier and in whole packs, as PDF.
func (m Maker) OrderList(w io.Writer, p quote.Paper) error { return send(w, orderList(p).pdf) }

// OrderSheet writes the order list as comma-separated values.
func (m Maker) OrderSheet(w io.Writer, p quote.Paper) error {
	return send(w, func(b *bytes.Buffer) error { return commas(b, orderRows(p)) })
}

// Traveller writes a page for each section on its way through the shop, as PDF.
func (m Maker) Traveller(w io.Writer, p quote.Paper) error { return send(w, traveller(p).pdf) }

// MissingOnCostSheet lists the letters of the cost sheet that the fonts lack.
func (m Maker) MissingOnCostSheet(p quote.Paper) []rune { return costSheet(p).lost }

// MissingOnOrderList lists the letters of the order list that the fonts lack.
func (m Maker) MissingOnOrderList(p quote.Paper) []rune { return orderList(p).lost }

// MissingOnTraveller lists the letters of the traveller that the fonts lack.
func (m Maker) MissingOnTraveller(p quote.Paper) []rune { return traveller(p).lost }

// Lines writes every line of the estimate as comma-separated values.
func (m Maker) Lines(w io.Writer, p quote.Paper) error {
	return send(w, func(b *bytes.Buffer) error { return commas(b, lineRows(p)) })
}

// commas writes rows as comma-separated values (RFC 4180) in UTF-8, with the
// mark that spreadsheets know it by. A cell that a spreadsheet would take for a
// formula gets a quote before it.
func commas(out *bytes.Buffer, rows [][]string) error {
	out.WriteString("\ufeff")
	w := csv.NewWriter(out)
	w.UseCRLF = true
	for _, r := range rows {
		safe := make([]string, len(r))
		for i, cell := range r {
			safe[i] = harmlessCell(cell)
		}
		if err := w.Write(safe); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

// harmlessCell puts a quote before what begins as a formula does.
func harmlessCell(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

// orderRows are the order list as a table: a row a material.
func orderRows(p quote.Paper) [][]string {
	rows := [][]string{{"Supplier", "Material", "Needed", "Unit", "A pack holds", "Packs", "Price of a pack", "Cost", "Currency", "For"}}
	c := p.Estimate.Currency
	for _, o := range ordersOf(p) {
		for _, w := range o.wants {
			pack, packs, each := "", "", ""
			if w.packed {
				pack, packs, each = w.pack.HoldsText(), whole(w.packs), c.Decimal(w.each).StringFixed(c.Digits)
			}
			rows = append(rows, []string{
				o.supplier, w.name, w.need.StringFixed(w.places), w.unit, pack, packs, each, c.Decimal(w.cost).StringFixed(c.Digits), c.Code, strings.Join(w.stages, ", "),
			})
		}
	}
	return rows
}

// lineRows are the lines of the estimate as a table.
func lineRows(p quote.Paper) [][]string {
	e := p.Estimate
	rows := [][]string{{"Stage", "Piece", "Line", "Class", "Quantity", "Unit", "Rate", "Per", "Amount", "Currency", "Working", "Rate from"}}
	for _, l := range e.Lines {
		rows = append(rows, []string{
			stageName(l.Stage), pieceNameOf(e, l.Piece), l.Item, l.Class.String(), l.QuantityText(), l.Unit, l.RateText(e.Currency.Digits), l.Per,
			e.Currency.Decimal(l.Amount).StringFixed(e.Currency.Digits), e.Currency.Code, e.Working(l).Numbers, l.RateFrom.String(),
		})
	}
	return rows
}
