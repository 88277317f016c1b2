package risk

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// ask puts questions to a script of Python's, a line each, and gives its lines.
func ask(t *testing.T, script string, questions []string) []string {
	t.Helper()
	cmd := exec.Command(needTool(t, "/usr/bin/python3", "-c", "import scipy"), "-c", script)
	cmd.Stdin = strings.NewReader(strings.Join(questions, "\n"))
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	answers := strings.Split(strings.TrimSpace(string(out)), "\n")
	require.Len(t, answers, len(questions))
	return answers
}

func number(t *testing.T, text string) (v float64) {
	t.Helper()
	_, err := fmt.Sscan(text, &v)
	require.NoError(t, err)
	return v
}

// SciPy's Beta distribution, scaled between the points.
func TestQuantilesAgreeWithSciPy(t *testing.T) {
	script := `
import sys
from scipy.stats import beta
for line in sys.stdin:
    a, m, b, u = map(float, line.split())
    print(repr(float(beta.ppf(u, 1 + 4*(m-a)/(b-a), 1 + 4*(b-m)/(b-a), loc=a, scale=b-a))))
`
	var questions []string
	var ours, spans []float64
	for _, p := range []Points{{4, 6, 12}, {5, 8, 14}, {0.85, 1, 1.4}, {0.95, 1, 1.2}, {1, 1, 1.6}, {0.5, 1, 1}, {0.98, 1, 1.03}} {
		q := tabulated(p)
		for i := 1; i < 2000; i++ {
			u := float64(i) / 2000
			questions = append(questions, fmt.Sprintf("%v %v %v %v", p.Low, p.Likely, p.High, u))
			ours, spans = append(ours, q.of(u)), append(spans, p.High-p.Low)
		}
	}
	for i, theirs := range ask(t, script, questions) {
		assert.InDelta(t, number(t, theirs), ours[i], 1e-5*spans[i], questions[i])
	}
}

// SciPy's negative binomial: failures before n successes.
func TestFailuresAgreeWithSciPy(t *testing.T) {
	script := `
import sys
from scipy.stats import nbinom
for line in sys.stdin:
    u, n, y = map(float, line.split())
    print(int(nbinom.ppf(u, n, y)))
`
	var questions []string
	var ours, within []float64
	for _, n := range []int{1, 3, 11, 24, 200, 3000} {
		for _, y := range []float64{0.53, 0.8, 0.95, 0.99} {
			for _, u := range []float64{0.1, 0.31, 0.5, 0.9, 0.995} {
				questions = append(questions, fmt.Sprintf("%v %v %v", u, n, y))
				ours = append(ours, float64(failuresAt(u, n, y)))
				within = append(within, 0)
				if n == 3000 { // the normal's where no failure at all is below e⁻⁶⁰⁰
					within[len(within)-1] = 0.01 * ours[len(ours)-1]
				}
			}
		}
	}
	for i, theirs := range ask(t, script, questions) {
		assert.InDelta(t, number(t, theirs), ours[i], within[i], questions[i])
	}
}
