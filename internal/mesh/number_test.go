package mesh

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestNumbersAsProgramsWriteThem(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "-0": 0, "1": 1, "+1.5": 1.5, "-.5": -0.5, "5.": 5, "1e3": 1000, "1E+03": 1000, "1.5e-05": 1.5e-5,
		"0,25": 0.25, "123456789012345678901234567890": 123456789012345678901234567890, "0.1": 0.1,
		"1e-400": 0, "1e22": 1e22, "1e23": 1e23,
		"0.0000000000000000000000000000001": 1e-31, "1e0000001": 10,
	} {
		v, n, ok := number([]byte(text + " next"))
		assert.True(t, ok, text)
		assert.Equal(t, want, v, text)
		assert.Equal(t, len(text), n, text)
	}
	for _, text := range []string{"nan", "-NaN", "nan(ind)", "-1.#IND", "1.#QNAN", "1.#INF", "inf", "-Infinity", "1e999", "-1e999"} {
		v, n, ok := number([]byte(text))
		assert.True(t, ok, text)
		assert.True(t, math.IsNaN(v) || math.IsInf(v, 0), text)
		assert.Equal(t, len(text), n)
	}
	for _, text := range []string{"", "-", ".", "e5", "1e", "1e+", "1.2.3", "one", "1_000", "1,000,000", "--1", "1-1", "0x"} {
		_, n, ok := number([]byte(text))
		assert.False(t, ok, text)
		assert.Equal(t, len(text), n, text)
	}
}

// The correctly rounded value is what strconv gives.
func TestNumbersOfUpTo15DigitsAreCorrectlyRounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[+-]?[0-9]{1,9}\.?[0-9]{0,6}([eE][+-]?[0-9]{1,2})?`).Draw(t, "text")
		want, err := strconv.ParseFloat(text, 64)
		v, _, ok := number([]byte(text))
		assert.Equal(t, err == nil, ok)
		assert.Equal(t, want, v)
	})
}

func TestLongNumbersAreRightToTheSinglePrecisionThatIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		for _, digits := range []int{-1, 17, 25} {
			v, _, ok := number(strconv.AppendFloat(nil, x, 'g', digits, 64))
			assert.True(t, ok)
			assert.InDelta(t, x, v, math.Abs(x)*4e-16)
		}
	})
}

func TestWholeNumbersStopAtTheFirstOtherLetter(t *testing.T) {
	for text, want := range map[string][2]int64{"12/3": {12, 2}, "-7": {-7, 2}, "+1": {1, 2}, "x": {0, 0}, "": {0, 0}, "-": {0, 0}, "1234567890123456": {0, 0}} {
		v, n := whole([]byte(text))
		assert.Equal(t, want, [2]int64{v, int64(n)}, text)
	}
}
