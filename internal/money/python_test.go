package money

import (
	"fmt"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// reckoner answers one question a line with Python's fractions and decimal.
const reckoner = `
import sys
from fractions import Fraction as F
from decimal import Decimal as D, ROUND_HALF_UP, getcontext
getcontext().prec = 60
def half_away(x):
    return int((D(x.numerator) / D(x.denominator)).quantize(D(1), ROUND_HALF_UP))
for line in sys.stdin:
    what, total, *rest = line.split()
    total = int(total)
    if what == "part":
        print(half_away(F(rest[0]) * total))
    elif what == "gross":
        print(half_away(total / (1 - F(rest[0]))))
    elif what == "times":
        print(half_away(F(rest[0]) * F(rest[1]) * 10 ** total))
    else:
        w = [F(r) for r in rest]
        exact = [total * x / sum(w) for x in w]
        parts = [x.numerator // x.denominator for x in exact]
        by_rest = sorted(range(len(w)), key=lambda i: (parts[i] - exact[i], i))
        for i in by_rest[: total - sum(parts)]:
            parts[i] += 1
        print(*parts)
`

// question writes one line for the reckoner and our own answer to it.
func question(r *rand.Rand) (asked, answer string) {
	total := r.Int64N(2e9) - 1e9
	share := decimal.New(r.Int64N(1999999)-1e6, -6)
	switch r.IntN(4) {
	case 0:
		return fmt.Sprintf("part %d %s", total, share), fmt.Sprint(Part(Amount(total), share))
	case 1:
		price, _ := GrossUp(Amount(total), share)
		return fmt.Sprintf("gross %d %s", total, share), fmt.Sprint(price)
	case 2:
		c := Currency{Digits: r.Int32N(4)}
		quantity, rate := decimal.New(r.Int64N(2e6)-1e6, -r.Int32N(4)), decimal.New(r.Int64N(1e6), -r.Int32N(5))
		return fmt.Sprintf("times %d %s %s", c.Digits, quantity, rate), fmt.Sprint(c.Times(quantity, rate))
	}
	weights := []Decimal{decimal.New(1+r.Int64N(100), 0)}
	for range r.IntN(12) {
		weights = append(weights, decimal.New(r.Int64N(1000), -r.Int32N(4)))
	}
	var asks, answers []string
	for _, w := range weights {
		asks = append(asks, w.String())
	}
	for _, p := range Split(Amount(total), weights) {
		answers = append(answers, fmt.Sprint(p))
	}
	return fmt.Sprintf("split %d %s", total, strings.Join(asks, " ")), strings.Join(answers, " ")
}

// Python's fractions and decimal are an independent implementation of exact
// arithmetic, and its sort of stable order.
func TestFourThousandSharesAndSplitsAgreeWithPython(t *testing.T) {
	python := needTool(t, "python3")
	r := rand.New(rand.NewPCG(4217, 2))
	var asked, answers []string
	for range 4000 {
		ask, answer := question(r)
		asked, answers = append(asked, ask), append(answers, answer)
	}
	cmd := exec.Command(python, "-c", reckoner)
	cmd.Stdin = strings.NewReader(strings.Join(asked, "\n"))
	out, err := cmd.Output()
	require.NoError(t, err)
	theirs := strings.Split(strings.TrimSpace(string(out)), "\n")
	require.Len(t, theirs, len(asked))
	for i := range asked {
		require.Equal(t, theirs[i], answers[i], asked[i])
	}
}
