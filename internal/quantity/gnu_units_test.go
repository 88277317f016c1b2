package quantity

import (
	"fmt"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// entry is one quantity as typed, and the same written for GNU units.
type entry struct {
	kind        Kind
	typed, asks string
}

// spelling is a unit as typed and as GNU units calls it.
type spelling struct{ typed, asks string }

var (
	lengths = []spelling{{"mm", "mm"}, {" MM", "mm"}, {"cm", "cm"}, {" m", "m"}, {" metres", "m"}, {" km", "km"}, {`"`, "in"}, {"in.", "in"}, {" inches", "in"}, {"″", "in"}, {"'", "ft"}, {" Ft.", "ft"}, {" feet", "ft"}, {" yd", "yd"}, {" thou", "mil"}, {" µm", "micron"}, {" mi", "mile"}}
	masses  = []spelling{{"kg", "kg"}, {" KG", "kg"}, {" g", "g"}, {" t", "tonne"}, {" lb", "lb"}, {" Lbs.", "lb"}, {"#", "lb"}, {" oz", "oz"}, {" ounces", "oz"}, {" tons", "shortton"}, {" mg", "mg"}}
	areas   = []spelling{{" m²", "m^2"}, {" m2", "m^2"}, {" sq m", "m^2"}, {" cm^2", "cm^2"}, {" mm²", "mm^2"}, {" sq. ft.", "ft^2"}, {" ft²", "ft^2"}, {" sqft", "ft^2"}, {" square inches", "in^2"}, {" in2", "in^2"}, {" yd²", "yd^2"}, {" SF", "ft^2"}}
	volumes = []spelling{{" m³", "m^3"}, {" L", "L"}, {" litres", "L"}, {" mL", "mL"}, {" cc", "cm^3"}, {" cu in", "in^3"}, {" cu. ft.", "ft^3"}, {" in^3", "in^3"}, {" ft3", "ft^3"}, {" gal", "gallon"}, {" qt", "quart"}}
	times   = []spelling{{" h", "hour"}, {" hrs", "hour"}, {" min", "min"}, {" minutes", "min"}, {" s", "s"}, {" days", "day"}, {" weeks", "week"}}
	energy  = []spelling{{" kWh", "kWh"}, {" MJ", "MJ"}, {" kJ", "kJ"}, {" Btu", "btu"}, {" therms", "10^5 btu"}}
)

// sorts are the kinds held against GNU units, with the canonical unit, and the
// spellings over and under the line.
var sorts = []struct {
	kind        Kind
	asks        string
	over, under []spelling
}{
	{KindLength, "m", lengths, nil},
	{KindMass, "kg", masses, nil},
	{KindArea, "m^2", areas, nil},
	{KindVolume, "m^3", volumes, nil},
	{KindTime, "hour", times, nil},
	{KindEnergy, "kWh", energy, nil},
	{KindDensity, "kg/m^3", masses, volumes},
	{KindAreaMass, "kg/m^2", masses, areas},
	{KindTimePerArea, "hour/m^2", times, areas},
	{KindTimePerLength, "hour/m", times, lengths},
	{KindTimePerMass, "hour/kg", times, masses},
	{KindEnergyPerMass, "kWh/kg", energy, masses},
	{KindShare, "1", lengths, lengths},
}

func pick[T any](r *rand.Rand, from []T) T { return from[r.IntN(len(from))] }

// anyNumber writes a number in one of the ways people do, and plainly.
func anyNumber(r *rand.Rand) (typed, asks string) {
	whole, part := 1+r.IntN(4000), 1+r.IntN(999)
	over, under := 1+2*r.IntN(8), 16
	switch r.IntN(9) {
	case 0:
		return strconv.Itoa(whole), strconv.Itoa(whole)
	case 1:
		return fmt.Sprintf("%d.%02d", whole, part%100), fmt.Sprintf("%d.%02d", whole, part%100)
	case 2:
		return fmt.Sprintf("%d,%02d", whole, part%100), fmt.Sprintf("%d.%02d", whole, part%100)
	case 3:
		return fmt.Sprintf("%d,%03d.%d", 1+whole%999, part, part%10), fmt.Sprintf("%d%03d.%d", 1+whole%999, part, part%10)
	case 4:
		return fmt.Sprintf("%d.%03d,%d", 1+whole%999, part, part%10), fmt.Sprintf("%d%03d.%d", 1+whole%999, part, part%10)
	case 5:
		return fmt.Sprintf("%d\u202f%03d", 1+whole%999, part), fmt.Sprintf("%d%03d", 1+whole%999, part)
	case 6:
		return fmt.Sprintf("%d/%d", over, under), fmt.Sprintf("%d|%d", over, under)
	case 7:
		return fmt.Sprintf("%d %d/%d", whole, over, under), fmt.Sprintf("(%d+%d|%d)", whole, over, under)
	}
	return fmt.Sprintf("%d½", whole), fmt.Sprintf("(%d+1|2)", whole)
}

// compounds are quantities in two units: how they are typed, how GNU units
// writes them.
var compounds = []struct {
	kind        Kind
	typed, asks string
	under       int // the second number is below this
}{
	{KindLength, `%d'%d"`, "%d ft + %d in", 12},
	{KindLength, `%d'-%d"`, "%d ft + %d in", 12},
	{KindLength, `%d’-%d ½”`, "%d ft + (%d+1|2) in", 11},
	{KindLength, "%d ft %d 3/16 in", "%d ft + (%d+3|16) in", 11},
	{KindLength, "%d m %d", "%d m + %d cm", 100},
	{KindLength, "%dm %dmm", "%d m + %d mm", 1000},
	{KindMass, "%d lb %d", "%d lb + %d oz", 16},
	{KindMass, "%d lbs. %d oz.", "%d lb + %d oz", 16},
	{KindMass, "%d kg %d", "%d kg + %d g", 1000},
	{KindTime, "%d h %d", "%d hour + %d min", 60},
	{KindTime, "%dh%d min", "%d hour + %d min", 60},
}

// simple makes one entry of a sort: a number and a unit, sometimes upside down.
func simple(r *rand.Rand, kind Kind, over, under []spelling) entry {
	number, asked := anyNumber(r)
	unit := pick(r, over)
	if under == nil {
		return entry{kind, number + unit.typed, asked + " " + unit.asks}
	}
	below := pick(r, under)
	line := pick(r, []string{"/", " per ", " / "})
	if r.IntN(4) == 0 && kind != KindShare {
		return entry{kind, number + below.typed + line + strings.TrimSpace(unit.typed), "1/(" + asked + " " + below.asks + "/(" + unit.asks + "))"}
	}
	return entry{kind, number + unit.typed + line + strings.TrimSpace(below.typed), asked + " " + unit.asks + "/(" + below.asks + ")"}
}

// generate makes n entries of each sort and compound, the same for one seed,
// and gives the unit that each kind is asked for in.
func generate(n int) (all []entry, canonical map[Kind]string) {
	r := rand.New(rand.NewPCG(1916, 725))
	canonical = map[Kind]string{}
	for _, s := range sorts {
		canonical[s.kind] = s.asks
		for range n {
			all = append(all, simple(r, s.kind, s.over, s.under))
		}
	}
	for _, c := range compounds {
		for range n {
			big, small := 1+r.IntN(40), r.IntN(c.under)
			all = append(all, entry{c.kind, fmt.Sprintf(c.typed, big, small), fmt.Sprintf(c.asks, big, small)})
		}
	}
	return all, canonical
}

// GNU units is an independent program with its own definitions of every unit.
func TestFourteenHundredEntriesAgreeWithGNUUnits(t *testing.T) {
	tool := needTool(t, "units")
	all, canonical := generate(60)
	var questions strings.Builder
	for _, e := range all {
		fmt.Fprintf(&questions, "%s\n%s\n", e.asks, canonical[e.kind])
	}
	cmd := exec.Command(tool, "--terse", "--output-format", "%.17g")
	cmd.Stdin = strings.NewReader(questions.String())
	out, err := cmd.Output()
	require.NoError(t, err)
	answers := strings.Fields(string(out))
	require.Len(t, answers, len(all), "one answer to each question")
	for i, e := range all {
		want, err := strconv.ParseFloat(answers[i], 64)
		require.NoError(t, err, e.asks)
		got, err := Parse(e.kind, e.typed, InchPound)
		if want > most {
			assert.ErrorContains(t, err, "is too large a number", e.typed)
			continue
		}
		if assert.NoError(t, err) {
			assert.InDelta(t, want, got, 1e-9*want, "%q against units %q", e.typed, e.asks)
		}
	}
}
