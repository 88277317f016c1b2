package proposal

import (
	"bytes"
	"encoding/csv"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// sheets are the rows of a workbook's sheets, by name.
type sheets map[string][][]string

// recomputed lets LibreOffice reckon workbooks from their formulas, all at once,
// and gives the rows of their sheets.
func recomputed(t *testing.T, workbooks map[string][]byte) map[string]sheets {
	t.Helper()
	office := needTool(t, "soffice")
	dir := t.TempDir()
	profile := (&url.URL{Scheme: "file", Path: filepath.Join(dir, "profile")}).String()
	// comma, quote, UTF-8, from row 1, values as they are, every sheet
	args := []string{"-env:UserInstallation=" + profile, "--headless", "--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", dir}
	for name, data := range workbooks {
		file := filepath.Join(dir, name+".xlsx")
		require.NoError(t, os.WriteFile(file, data, 0o600))
		args = append(args, file)
	}
	told(t, office, args...)
	all := map[string]sheets{}
	for name := range workbooks {
		all[name] = sheets{}
		for _, sheet := range []string{linesSheet, priceSheet, piecesSheet} {
			data, err := os.ReadFile(filepath.Join(dir, name+"-"+sheet+".csv"))
			require.NoError(t, err)
			r := csv.NewReader(bytes.NewReader(data))
			r.FieldsPerRecord = -1
			all[name][sheet], err = r.ReadAll()
			require.NoError(t, err)
		}
	}
	return all
}

// recomputedOne does so with one workbook.
func recomputedOne(t *testing.T, workbook []byte) sheets {
	return recomputed(t, map[string][]byte{"book": workbook})["book"]
}

// cents reads an amount as LibreOffice writes it.
func cents(t *testing.T, c money.Currency, text string) money.Amount {
	t.Helper()
	a, err := c.Parse(text)
	require.NoError(t, err, text)
	return a
}

// steps are the amounts of the price sheet in order, with the names of their rows.
func stepsOf(t *testing.T, e *estimate.Estimate, rows [][]string) (names []string, amounts []money.Amount) {
	for _, r := range rows[1:] {
		if r[0] != "" && r[0] != "Payment" && r[0] != "Rounded to" {
			names, amounts = append(names, r[0]), append(amounts, cents(t, e.Currency, r[3]))
		}
	}
	return names, amounts
}

func TestLibreOfficeReckonsTheSamePriceToTheCent(t *testing.T) {
	workbooks := map[string][]byte{}
	for name, q := range stories() {
		workbooks[name] = workbookOf(t, q)
	}
	all := recomputed(t, workbooks)
	for name, q := range stories() {
		t.Run(name, func(t *testing.T) {
			e := paperOf(t, q).Estimate
			sheets := all[name]
			for i, l := range e.Lines {
				assert.Equal(t, l.Amount, cents(t, e.Currency, sheets[linesSheet][lineHead+i][8]), l.Item)
			}
			names, amounts := stepsOf(t, e, sheets[priceSheet])
			want := map[string]money.Amount{"Direct cost": e.Direct, "Price before tax": e.Price, "Total": e.Total, "Payments in all": e.Total}
			for _, s := range e.Stages {
				if s.ID != "price" && s.ID != "form" {
					want[s.Name] = s.Amount
				}
			}
			for _, x := range e.PriceLines {
				want[x.Name] = x.Amount
			}
			for _, x := range e.Taxes {
				want[x.Name] = x.Amount
			}
			for _, x := range e.Payments {
				want[x.When] = x.Amount
			}
			got := map[string]money.Amount{}
			for i := range names {
				got[names[i]] = amounts[i]
			}
			for step, a := range want {
				assert.Equal(t, a, got[step], step)
			}
		})
	}
}

func TestEveryWayToAPriceIsReckonedByTheWorkbook(t *testing.T) {
	q := waterfront()
	c := q.Commission.Clone()
	for path, text := range map[string]string{
		"price.overhead_base": "labour", "price.profit_way": "markup", "price.fee": "a fixed sum", "price.fee_sum": "12345.67", "price.bond": "0.75 %", "price.agent": "7.5 %",
		"price.step": "250", "price.round": "up", "price.tax": "Québec", "price.payments": "One 33.333; Two 33.333; Three 33.334",
	} {
		c.Inputs[path] = text
	}
	delete(c.Inputs, "price.fee_share")
	q.Commission = c
	e := paperOf(t, q).Estimate
	require.Len(t, e.Taxes, 2)
	names, amounts := stepsOf(t, e, recomputedOne(t, workbookOf(t, q))[priceSheet])
	var want []money.Amount
	find := func(name string) money.Amount {
		for i, n := range names {
			if n == name {
				return amounts[i]
			}
		}
		t.Fatalf("no step %q among %v", name, names)
		return 0
	}
	for _, x := range e.PriceLines {
		assert.Equal(t, x.Amount, find(x.Name), x.Name)
	}
	assert.Equal(t, e.Price, find("Price before tax"))
	assert.Equal(t, e.Total, find("Total"))
	for _, p := range e.Payments {
		want = append(want, p.Amount)
		assert.Equal(t, p.Amount, find(p.When), p.When)
	}
	assert.NotEqual(t, want[0], want[2], "the plan has cents to give away")
}

func TestAChangedQuantityGoesThroughToThePayments(t *testing.T) {
	q := waterfront()
	e := paperOf(t, q).Estimate
	f, err := excelize.OpenReader(bytes.NewReader(workbookOf(t, q)))
	require.NoError(t, err)
	defer f.Close()
	first := e.Lines[0]
	require.NoError(t, f.SetCellValue(linesSheet, "E"+strconv.Itoa(lineHead+1), first.Quantity.InexactFloat64()+10))
	var b bytes.Buffer
	_, err = f.WriteTo(&b)
	require.NoError(t, err)
	names, amounts := stepsOf(t, e, recomputedOne(t, b.Bytes())[priceSheet])
	more := e.Currency.Times(first.Quantity.Add(money.Round(10, 0)), first.Rate) - first.Amount
	for i, n := range names {
		switch n {
		case "Direct cost":
			assert.Equal(t, e.Direct+more, amounts[i])
		case "Overhead":
			assert.Equal(t, money.Part(e.Direct+more, money.Round(0.22, 2)), amounts[i])
		case "Payments in all":
			assert.Greater(t, amounts[i], e.Total+more)
		}
	}
}

func TestTypedTextIsNeverAFormula(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(workbookOf(t, nasty())))
	require.NoError(t, err)
	defer f.Close()
	rows, err := f.GetRows(linesSheet)
	require.NoError(t, err)
	found := false
	for i, r := range rows {
		for k, words := range r {
			cell, err := excelize.CoordinatesToCellName(k+1, i+1)
			require.NoError(t, err)
			formula, err := f.GetCellFormula(linesSheet, cell)
			require.NoError(t, err)
			if strings.HasPrefix(words, "=HYPERLINK") {
				found = true
				assert.Empty(t, formula)
			}
			assert.Equal(t, k == 8 && i >= lineHead, formula != "", cell)
		}
	}
	assert.True(t, found)
}

func TestTheWorkbookTellsSizesAndWeights(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(workbookOf(t, waterfront())))
	require.NoError(t, err)
	defer f.Close()
	rows, err := f.GetRows(piecesSheet)
	require.NoError(t, err)
	assert.Equal(t, []string{"Lock keeper", "C87300 silicon bronze 95-1-4", "1", "2.19"}, rows[1][:4])
}
