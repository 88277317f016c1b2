package mesh

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAStoredProfileAnswersAsTheMeasuredOne(t *testing.T) {
	p := roughWall(t, cylinder(0.1, 0.5, 40, 12)).Profile
	data, err := json.Marshal(p)
	require.NoError(t, err)
	assert.Less(t, len(data), 8_000, "bytes")
	var back Profile
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Equal(t, p, back)
}

func TestADamagedProfileIsRefusedAndChangesNothing(t *testing.T) {
	p := roughWall(t, cylinder(0.1, 0.5, 40, 12)).Profile
	data, err := json.Marshal(p)
	require.NoError(t, err)
	text := string(data)
	within := strings.Index(text, `"within":"`) + len(`"within":"`)
	for _, damaged := range []string{
		text[:within] + text[within+8:],                  // two numbers short
		text[:within] + "!" + text[within+1:],            // no base64
		text[:within] + "AADAfwAAwH8=" + text[within+8:], // no numbers
		strings.Replace(text, `"solid":"`, `"solid":7,"x":"`, 1),
		"{", "[]", `{}`,
	} {
		back := p
		assert.Error(t, json.Unmarshal([]byte(damaged), &back))
		assert.Equal(t, p, back)
	}
	var back Profile
	assert.EqualError(t, json.Unmarshal([]byte(`{}`), &back), "the stored wall profile is damaged; measure the scan again")
}

// The curve goes through its knots and does not overshoot between them.
func TestTheCurveOfAProfileStaysBetweenItsKnots(t *testing.T) {
	p := roughWall(t, torus(0.4, 0.1, 60)).Profile
	for i := range knots - 1 {
		low, high := float64(p.within[i]), float64(p.within[i+1])
		assert.InDelta(t, low, p.at(p.depth(i)), 1e-6*p.Volume)
		for _, f := range []float64{0.1, 0.5, 0.9} {
			v := curve(&p.within, i, f)
			assert.GreaterOrEqual(t, v, low-1e-12)
			assert.LessOrEqual(t, v, high+1e-12)
		}
	}
}
