package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// priceRange is what a price may come to.
func priceRange() RangeBar {
	return RangeBar{
		Frame: Frame{Width: 200, Height: 60}, Low: 110, High: 150, Mark: 120, From: 100, To: 200,
		LowLabel: "$110", HighLabel: "$150", MarkLabel: "$120",
	}
}

func TestTheBandReachesFromTheTenthToTheNinetiethPercentile(t *testing.T) {
	r := priceRange()
	img := Raster(r.Scene(), Light(), 1)
	middle := int(10*1.9 + 4)
	for x, role := range map[int]Role{10: Trough, 24: Likely, 60: Likely, 96: Likely, 104: Trough, 190: Trough, 40: Ink} {
		assert.True(t, is(img, x, middle, role), "%d", x)
	}
}

func TestABarWithoutEndsLeavesHalfTheRangeOnEitherSide(t *testing.T) {
	r := priceRange()
	r.From, r.To = 0, 0
	at := r.places()
	assert.InDelta(t, 50, at(110), 1e-9)
	assert.InDelta(t, 150, at(150), 1e-9)
	r.Mark = 300
	assert.InDelta(t, 200, r.places()(300), 1e-9, "a mark far off is still on the bar")
}

func TestTheRangesLabelsNeverMeetNorLeaveTheBar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1e6, 1e6)
		r := RangeBar{
			Frame: Frame{Width: rapid.Float64Range(120, 400).Draw(t, "width"), Height: 60},
			Low:   f.Draw(t, "low"), High: f.Draw(t, "high"), Mark: f.Draw(t, "mark"),
			LowLabel: "8 in 10: $112,900", HighLabel: "$147,200", MarkLabel: "$128,400",
		}
		assertApart(t, r.Scene())
	})
}

func TestARangeOfOneValueIsStillABar(t *testing.T) {
	for _, v := range []float64{0, 5, -5, math.NaN(), math.Inf(1)} {
		r := RangeBar{Frame: Frame{Width: 100, Height: 40}, Low: v, High: v, Mark: v}
		assert.NotPanics(t, func() { Raster(r.Scene(), Light(), 1) })
		assert.InDelta(t, 50, r.places()(v), 50)
	}
}
