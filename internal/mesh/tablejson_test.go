package mesh

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStoredTablesPlanAsTheFormDoes(t *testing.T) {
	w := standingMan(t)
	tables := w.Tables()
	data, err := json.Marshal(tables)
	require.NoError(t, err)
	assert.Less(t, len(data), 100_000, "bytes in the database")
	var back Tables
	require.NoError(t, json.Unmarshal(data, &back))
	for _, scale := range []float64{0.8, 1, 1.6} {
		l := Limits{Metal: 0.0031, Area: 0.6}
		p, q := PlanFrom(tables, &w.Profile, scale, 0.005, l), PlanFrom(back, &w.Profile, scale, 0.005, l)
		assert.Len(t, q.Sections, len(p.Sections))
		assert.InEpsilon(t, p.Weld, q.Weld, 0.02)
	}
	again, err := json.Marshal(back)
	require.NoError(t, err)
	assert.JSONEq(t, string(data), string(again))
}

func TestDamagedTablesAreRefusedInWords(t *testing.T) {
	w := roughWall(t, cylinder(0.1, 1, 24, 10))
	data, err := json.Marshal(w.Tables())
	require.NoError(t, err)
	for n := 0; n < len(data); n += 97 {
		cut := append(append([]byte(nil), data[:n]...), '"')
		var back Tables
		assert.Error(t, json.Unmarshal(cut, &back))
		swapped := append([]byte(nil), data...)
		swapped[n] ^= 1
		_ = json.Unmarshal(swapped, &back) // anything but a panic; what it takes must be whole
		for _, x := range back {
			for _, j := range x.Joints {
				assert.Less(t, max(j.Below, j.Above), len(x.Parts))
			}
		}
	}
	var back Tables
	assert.ErrorContains(t, json.Unmarshal([]byte(`"AAAA"`), &back), "open the scan file again")
	assert.Nil(t, back)
}
