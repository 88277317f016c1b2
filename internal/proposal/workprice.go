package proposal

import (
	"fmt"
	"strconv"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// priceFrom writes the price as formulas on the sums of the lines.
func (b *ledger) priceFrom(lastLine int) {
	b.head(priceSheet, 1, []string{"Step", "Share", "Of", "Amount"}, []float64{36, 12, 26, 18})
	b.check(b.file.SetColWidth(priceSheet, "E", "G", 16))
	w := &steps{ledger: b, row: 1, last: lastLine}
	direct := w.stages()
	price := w.price(direct)
	total := w.taxes(price)
	w.payments(total)
}

// steps writes the rows of the price one below the other.
type steps struct {
	*ledger
	row  int
	last int // row of the last line
}

// cell is a cell of the current row.
func (w *steps) cell(column string) string { return column + strconv.Itoa(w.row) }

// step writes a row and gives the cell of its amount.
func (w *steps) step(name string, share money.Decimal, of, formula, style string) string {
	w.row++
	w.text(priceSheet, w.cell("A"), name, "")
	if share.Sign() != 0 {
		w.number(priceSheet, w.cell("B"), share, "share")
	}
	w.text(priceSheet, w.cell("C"), of, "")
	w.formula(priceSheet, w.cell("D"), formula, style)
	return w.cell("D")
}

// constant writes a row whose amount was typed.
func (w *steps) constant(name, of string, d money.Decimal, style string) string {
	w.row++
	w.text(priceSheet, w.cell("A"), name, "")
	w.text(priceSheet, w.cell("C"), of, "")
	w.number(priceSheet, w.cell("D"), d, style)
	return w.cell("D")
}

// ofLines sums the amounts of lines by a column of theirs.
func (w *steps) ofLines(column, is string) string {
	return fmt.Sprintf(`SUMIF(%s!%s$%d:%s$%d,"%s",%s!I$%d:I$%d)`, linesSheet, column, lineHead+1, column, w.last, is, linesSheet, lineHead+1, w.last)
}

// stages writes the sums of the stages and gives the cell of the direct cost.
func (w *steps) stages() string {
	none := money.Decimal{}
	if w.last == lineHead {
		return w.constant("Direct cost", "", none, "total")
	}
	for _, s := range w.e.Stages {
		if s.ID != "price" && s.ID != "form" {
			of := ""
			if s.ByOthers {
				of = "by others"
			}
			w.step(s.Name, none, of, w.ofLines("A", s.Name), "amount")
		}
	}
	return w.step("Direct cost", none, "all lines", fmt.Sprintf("SUM(%s!I%d:I%d)", linesSheet, lineHead+1, w.last), "total")
}

// price writes the steps from the direct cost to the price, and gives its cell.
func (w *steps) price(direct string) string {
	cost := []string{direct}
	var ofPrice []estimate.PriceLine
	for _, l := range w.e.PriceLines {
		share := shareOf(l)
		soFar := strings.Join(cost, "+")
		switch l.Of {
		case "price":
			ofPrice = append(ofPrice, l)
			continue
		case "direct cost":
			soFar = direct
		case "labour":
			soFar = w.ofLines("D", estimate.Labour.String())
		case "":
			if l.Name == "Rounding" {
				continue
			}
			cost = append(cost, w.constant(l.Name, "as agreed", w.e.Currency.Decimal(l.Amount), "amount"))
			continue
		}
		formula := w.round(fmt.Sprintf("(%s)*B%d", soFar, w.row+1))
		if l.Of == "cost and margin" {
			formula = fmt.Sprintf("%s-(%s)", w.round(fmt.Sprintf("(%s)/(1-B%d)", soFar, w.row+1)), soFar)
		}
		cost = append(cost, w.step(l.Name, share, l.Of, formula, "amount"))
	}
	return w.solved(strings.Join(cost, "+"), ofPrice)
}

// solved writes the price that still covers the cost when the shares of the
// price itself have been paid away, rounded to the shop's step, then those
// shares and the rounding. It gives the cell of the price.
func (w *steps) solved(cost string, shares []estimate.PriceLine) string {
	sum := money.Decimal{}
	for _, l := range shares {
		sum = sum.Add(shareOf(l))
	}
	none := money.Decimal{}
	costs := w.step("Cost", none, "before shares of the price", cost, "total")
	exact := w.step("Price, not yet rounded", sum, "cost ÷ (1 − shares of the price)", w.round(fmt.Sprintf("%s/(1-B%d)", costs, w.row+1)), "amount")
	step := w.constant("Rounded to", "the shop's step", money.Round(exactInput(w.paper, estimate.Whole, "price.step").Num, 6), "exact")
	formula := fmt.Sprintf("IF(%s>0,ROUND(ROUND(%s/%s,9),0)*%s,%s)", step, exact, step, step, exact)
	if exactInput(w.paper, estimate.Whole, "price.round").Text == "up" {
		formula = fmt.Sprintf("IF(%s>0,ROUNDUP(ROUND(%s/%s,9),0)*%s,%s)", step, exact, step, step, exact)
	}
	price := w.step("Price before tax", none, "", w.round(formula), "total")
	less := []string{price, costs}
	for _, l := range shares {
		less = append(less, w.step(l.Name, shareOf(l), "price", w.round(fmt.Sprintf("%s*B%d", price, w.row+1)), "amount"))
	}
	w.step("Rounding", none, "what is left", w.round(strings.Join(less, "-")), "amount")
	return price
}

// shareOf is a price line's share as a number: "9.975 %" is 0.09975.
func shareOf(l estimate.PriceLine) money.Decimal {
	d, err := money.ParseDecimal(strings.TrimSpace(strings.TrimSuffix(l.Share, "%")))
	if err != nil {
		return money.Decimal{}
	}
	return d.Shift(-2)
}

// taxes writes the taxes and the total, and gives its cell.
func (w *steps) taxes(price string) string {
	sum := price
	for _, t := range w.e.Taxes {
		sum += "+" + w.step(t.Name, t.Rate, "price; check the rate", w.round(fmt.Sprintf("%s*B%d", price, w.row+1)), "amount")
	}
	return w.step("Total", money.Decimal{}, "", sum, "total")
}

// payments splits the total by the plan: each part rounded down, and the
// smallest units left over given to the largest remainders, the earlier first.
func (w *steps) payments(total string) {
	if len(w.e.Payments) == 0 {
		return
	}
	w.row += 2
	for i, words := range []string{"Payment", "Share", "", "Amount", "Rounded down", "Remainder", "Rank"} {
		w.text(priceSheet, w.cell(string(rune('A'+i))), words, "head")
	}
	first, last, digits := w.row+1, w.row+len(w.e.Payments), w.e.Currency.Digits
	for _, p := range w.e.Payments {
		w.row++
		r := w.row
		w.text(priceSheet, w.cell("A"), p.When, "")
		w.number(priceSheet, w.cell("B"), p.Share, "share")
		w.formula(priceSheet, w.cell("E"), fmt.Sprintf("ROUNDDOWN(ROUND(%s*B%d,10),%d)", total, r, digits), "amount")
		w.formula(priceSheet, w.cell("F"), fmt.Sprintf("ROUND(%s*B%d-E%d,10)", total, r, r), "exact")
		before := "0"
		if r > first {
			before = fmt.Sprintf("COUNTIF(F$%d:F%d,F%d)", first, r-1, r)
		}
		w.formula(priceSheet, w.cell("G"), fmt.Sprintf(`COUNTIF(F$%d:F$%d,">"&F%d)+%s+1`, first, last, r, before), "")
		left := fmt.Sprintf("ROUND((%s-SUM(E$%d:E$%d))*10^%d,0)", total, first, last, digits)
		w.formula(priceSheet, w.cell("D"), fmt.Sprintf("ROUND(E%d+IF(G%d<=%s,10^-%d,0),%d)", r, r, left, digits, digits), "amount")
	}
	w.step("Payments in all", money.Decimal{}, "", fmt.Sprintf("SUM(D%d:D%d)", first, last), "total")
}
