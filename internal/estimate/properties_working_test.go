package estimate_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
)

// reader works out a printed working, as somebody with a calculator would: the
// figures with their units passed over, × ÷ + − ^, brackets, and the four
// phrases. A per cent is a hundredth.
type reader struct {
	left string
	near bool // rounds up what its six digits leave in doubt
}

// worked gives the value of a formula in figures.
func worked(text string) (float64, error) {
	v, _, err := workedOrNear(text)
	return v, err
}

// workedOrNear also tells whether one more or less would do as well, as six
// digits cannot tell 25 from a hair over 25.
func workedOrNear(text string) (v float64, near bool, err error) {
	defer func() {
		if x := recover(); x != nil {
			err = fmt.Errorf("%v in %q", x, text)
		}
	}()
	r := &reader{left: text}
	v = r.sum()
	if r.left != "" {
		panic("cannot read “" + r.left + "”")
	}
	return v, r.near, nil
}

// takes tells whether the rest begins with s, and passes over it.
func (r *reader) takes(s string) bool {
	rest, ok := strings.CutPrefix(r.left, s)
	if ok {
		r.left = rest
	}
	return ok
}

func (r *reader) must(s string) {
	if !r.takes(s) {
		panic("no “" + s + "” before “" + r.left + "”")
	}
}

func (r *reader) sum() float64 {
	v := r.product()
	for {
		switch {
		case r.takes(" + "):
			v += r.product()
		case r.takes(" − "):
			v -= r.product()
		default:
			return v
		}
	}
}

func (r *reader) product() float64 {
	v := r.power()
	for {
		switch {
		case r.takes(" × "):
			v *= r.power()
		case r.takes(" ÷ "):
			v /= r.power()
		default:
			return v
		}
	}
}

func (r *reader) power() float64 {
	v := r.value()
	if r.takes("^") {
		return math.Pow(v, r.value())
	}
	return v
}

func (r *reader) value() float64 {
	both := func() (a, b float64) {
		a = r.sum()
		r.must(" and ")
		b = r.sum()
		r.must(")")
		return a, b
	}
	switch {
	case r.takes("the larger of ("):
		return math.Max(both())
	case r.takes("the smaller of ("):
		return math.Min(both())
	case r.takes("round up("):
		v := r.inside()
		r.near = r.near || math.Abs(v-math.Round(v)) < 2e-5*v
		return math.Ceil(v * (1 - 1e-9))
	case r.takes("√("):
		return math.Sqrt(r.inside())
	case r.takes("("):
		return r.inside()
	}
	return r.figure()
}

func (r *reader) inside() float64 {
	v := r.sum()
	r.must(")")
	return v
}

// figure reads "1,234.5 kg/m²", "-12 °C" or "40 %".
func (r *reader) figure() float64 {
	end := 0
	for end < len(r.left) && strings.ContainsRune("-0123456789.,", rune(r.left[end])) {
		end++
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(r.left[:end], ",", ""), 64)
	if err != nil {
		panic(err)
	}
	r.left = r.left[end:]
	switch {
	case r.takes(" %"):
		return v / 100
	case strings.HasPrefix(r.left, " ") && !r.operator():
		r.left = r.left[1:]
		for r.left != "" && !strings.ContainsAny(r.left[:1], " )^") {
			_, size := utf8.DecodeRuneInString(r.left)
			r.left = r.left[size:]
		}
	}
	return v
}

func (r *reader) operator() bool {
	for _, s := range []string{" +", " −", " ×", " ÷", " and "} {
		if strings.HasPrefix(r.left, s) {
			return true
		}
	}
	return false
}

func TestTheReaderOfWorkingsReadsWhatACalculatorWould(t *testing.T) {
	for text, want := range map[string]float64{
		"2 × √(2.54 m²) × (√(9) − 1)":                                                   2 * math.Sqrt(2.54) * 2,
		"the larger of (round up(151.2 kg ÷ 36.74 kg) and round up(2.57 m² ÷ 0.35 m²))": 8,
		"0.101 × 32 kg^(2 ÷ 3)":                                                         0.101 * math.Pow(32, 2.0/3),
		"1,234.5 kg ÷ (1 − 2 %)":                                                        1234.5 / 0.98,
		"0.37 × (1,065.56 °C − -12 °C) + 190":                                           0.37*(1065.56+12) + 190,
		"6.17 m² × 1.2 kg/m² × (1 + 5 %)":                                               6.17 * 1.2 * 1.05,
		"10 − 4 − 3":                                                                    3,
		"100 ÷ 5 ÷ 2":                                                                   10,
		"the smaller of (12.5 L and 0.02 m² × 500 mm)":                                  10,
	} {
		got, err := worked(text)
		require.NoError(t, err)
		assert.InDelta(t, want, got, 1e-9, text)
	}
	for _, text := range []string{"", "2 ×", "round up(2", "m²", "2 kg 3"} {
		_, err := worked(text)
		assert.Error(t, err, text)
	}
}

// checkLine holds the printed working of a line against the line: the formula in
// figures gives the quantity, and the quantity at the rate the amount.
func checkLine(e *estimate.Estimate, l estimate.Line) error {
	w := e.Working(l)
	steps := strings.Split(w.Numbers, " = ")
	if len(steps) == 2 {
		steps = append([]string{"1"}, steps...) // a lump sum
	}
	if len(steps) < 3 || len(steps) > 4 {
		return fmt.Errorf("%q has %d steps", w.Numbers, len(steps))
	}
	v, near, err := workedOrNear(steps[0])
	if err != nil {
		return err
	}
	// In inch-pound units the formula's own result comes before the printed one.
	result := steps[1]
	if len(steps) == 3 {
		result, _, _ = strings.Cut(steps[1], " × ")
	}
	said, err := worked(result)
	if err != nil {
		return err
	}
	half := 0.5 * math.Pow10(-int(l.Places))
	if !near && math.Abs(v-said) > 1.001*half+3e-5*math.Abs(said) {
		return fmt.Errorf("%s: %q is %v, not %v", l.Item, steps[0], v, said)
	}
	last := steps[len(steps)-2]
	if want := strings.TrimSpace(l.QuantityText()+" "+l.Unit) + " × " + l.RateText(e.Currency.Digits); last != want {
		return fmt.Errorf("%s: %q, not %q", l.Item, last, want)
	}
	if got := steps[len(steps)-1]; got != e.Currency.Text(l.Amount) {
		return fmt.Errorf("%s: comes to %s, not %v", l.Item, got, l.Amount)
	}
	return checkParts(w)
}

// checkParts: every value has a name and an origin, and where it was worked out
// its own working gives it.
func checkParts(w estimate.Working) error {
	if w.Formula == "" {
		return fmt.Errorf("%s has no formula in words", w.Item)
	}
	for _, p := range w.Parts {
		if p.Name == "" || p.Value == "" || p.Origin.String() == "" {
			return fmt.Errorf("%s: a part %+v", w.Item, p)
		}
		if p.Numbers == "" {
			continue
		}
		v, near, err := workedOrNear(p.Numbers)
		if err != nil {
			return err
		}
		value, _, rate := strings.Cut(p.Value, " / ")
		said, err := worked(value)
		if err != nil {
			return err
		}
		if rate = rate || p.Name == "rate"; rate && math.Abs(v-said) < 0.00006 {
			continue // a rate in another unit or other money has four decimals
		}
		if !near && math.Abs(v-said) > 3e-5*math.Abs(said)+1e-9 {
			return fmt.Errorf("%s: %s is %q, which is %v", w.Item, p.Name, p.Value+" = "+p.Numbers, v)
		}
	}
	return nil
}

func TestEveryPrintedWorkingComesToItsPrintedLine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		e := made(rt, t, anyCommission(rt))
		for _, l := range e.Lines {
			if err := checkLine(e, l); err != nil {
				rt.Fatal(err)
			}
		}
		for _, p := range e.Pieces {
			for _, what := range []string{"finished", "poured", "area", "sections", "weld"} {
				w, ok := e.WorkingOf(p, what)
				formula, result, _ := strings.Cut(w.Numbers, " = ")
				v, near, err := workedOrNear(formula)
				if err != nil || !ok {
					rt.Fatal(what, err)
				}
				said, err := worked(result)
				if err != nil || !near && math.Abs(v-said) > 1e-4*math.Abs(said)+1e-9 {
					rt.Fatal(what, w.Numbers, v, err)
				}
				if err := checkParts(w); err != nil {
					rt.Fatal(err)
				}
			}
		}
	})
}

func TestAWorkingSaysWhereEachInputComesFrom(t *testing.T) {
	e := one(t, theShop(t), texts{"form.wall": "4.5 mm"}, nil)
	w := e.Working(line(t, e, "shell", "Stucco, coarse"))
	assert.Equal(t, "shelled area × coarse coats, large pieces × stucco for each coat × (1 + stucco lost)", w.Formula)
	text := w.String()
	assert.Contains(t, text, "stucco for each coat 1.2 kg/m² (shop book: nothing published: weigh one shell)")
	assert.Contains(t, text, "rate 2.20 / kg (shop book: common practice, no source)")
	w, ok := e.WorkingOf(e.Pieces[0], "finished")
	require.True(t, ok)
	assert.Contains(t, w.String(), "wall thickness 4.5 mm (typed: 4.5 mm)")
	_, ok = e.WorkingOf(e.Pieces[0], "colour")
	assert.False(t, ok)
}

// A shop book in dollars a kilogram and a quote in euros a pound: the working says
// what the rate was, and what it was taken at. Every value in it is told in pounds
// and feet besides, down to what was typed.
func TestAWorkingNamesTheExchangeAndTheReadersUnits(t *testing.T) {
	c := estimate.Commission{Currency: "EUR", Units: "inch-pound", Inputs: texts{"price.exchange": "0.68"}, Pieces: []estimate.Piece{{Name: "Figure", Inputs: texts{"form.body_height": "5'9\""}}}}
	e, err := estimate.Of(c, theShop(t))
	require.NoError(t, err)
	text := e.Working(line(t, e, "shell", "Stucco, coarse")).String()
	for _, part := range []string{
		"rate 0.6786 / lb = 2.2 × 0.45359237 × 0.68",
		"rate as set 2.2 / kg (shop book: common practice, no source)",
		"exchange rate 0.68 (typed: 0.68)",
		"stucco for each coat 1.2 kg/m², 0.24578 lb/ft² (shop book",
		"height of the body 175.26 cm, 69 in (typed: 5'9\")",
		"dress factor, nude 1 (published",
	} {
		assert.Contains(t, text, part)
	}
	euros := e.Working(line(t, e, "pour", "Expected recasts")).String()
	assert.Contains(t, euros, "good castings 95 % (shop book")
	assert.NotContains(t, euros, "exchange", "what a recast costs is in euros already")
}
