package estimate

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// fewestByMilp finds the fewest heats by SciPy's milp: one heat for each way of
// filling a crucible, as many of each as cover the sections.
const fewestByMilp = `
import sys
try:
    import numpy as np
    from scipy.optimize import milp, LinearConstraint, Bounds
except ImportError:
    sys.exit(77)
def patterns(kg, counts, room, at=0):
    if at == len(kg):
        yield ()
        return
    for n in range(min(counts[at], int(room / kg[at] + 1e-9)), -1, -1):
        for rest in patterns(kg, counts, room - n * kg[at], at + 1):
            yield (n,) + rest
for line in sys.stdin:
    room, *rest = (float(x) for x in line.split())
    kg, counts = rest[0::2], [int(n) for n in rest[1::2]]
    ways = np.array([p for p in patterns(kg, counts, room) if sum(p)]).T
    m = ways.shape[1]
    found = milp(np.ones(m), constraints=LinearConstraint(ways, lb=counts), integrality=np.ones(m), bounds=Bounds(0, np.inf))
    print(int(round(found.fun)))
`

func TestHeatsAreAsFewAsIntegerProgrammingFinds(t *testing.T) {
	python := needTool(t, "/usr/bin/python3")
	r := rand.New(rand.NewPCG(11, 9))
	var jobs [][]Load
	var asked strings.Builder
	for range 160 {
		var loads []Load
		fmt.Fprint(&asked, 36)
		for piece := range 1 + r.IntN(3) {
			// In tenths of a kilogram, so that some fill a crucible to the last.
			l := Load{piece, float64(30+r.IntN(330)) / 10, 1 + r.IntN(9)}
			loads = append(loads, l)
			fmt.Fprint(&asked, " ", l.Kg, " ", l.Count)
		}
		fmt.Fprintln(&asked)
		jobs = append(jobs, loads)
	}
	run := exec.Command(python, "-c", fewestByMilp)
	run.Stdin = strings.NewReader(asked.String())
	out, err := run.Output()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() == 77 {
		reference.Missing(t, "python3-scipy", err)
	}
	require.NoError(t, err)
	answers := strings.Fields(string(out))
	require.Len(t, answers, len(jobs))
	for i, loads := range jobs {
		heats := packHeats(loads, 36)
		holds(t, loads, 36, heats)
		assert.Equal(t, answers[i], fmt.Sprint(len(heats)), "%v", loads)
	}
}
