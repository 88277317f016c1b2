package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/field"
)

func TestThreeTypedPointsTakeThePlaceOfTheShopBooks(t *testing.T) {
	s := bookWith(t)
	c := figure().WithRange(estimate.Whole, "hours.metalwork", "0.9 / 1 / 1.5").WithRange(1, "area", "95 % / 100 % / 103,5 %").
		WithRange(estimate.Whole, "//", "a note").WithRange(estimate.Whole, "metal", " ")
	list, err := Factors(c, s)
	require.NoError(t, err)
	got := map[string]Points{}
	for _, f := range list {
		got[f.Where()] = f.Points
		if f.Where() == "range.hours.metalwork" {
			assert.Equal(t, field.Origin{From: field.Typed, Source: "0.9 / 1 / 1.5"}, f.Origin)
			assert.Equal(t, "0.9 / 1 / 1.5", f.Typed)
			assert.True(t, f.Shared)
		}
	}
	assert.Equal(t, Points{0.9, 1, 1.5}, got["range.hours.metalwork"])
	assert.InDelta(t, 0.95, got["1.range.area"].Low, 1e-12)
	assert.InDelta(t, 1.035, got["1.range.area"].High, 1e-12)
	assert.Equal(t, Points{0.85, 1, 1.25}, got["0.range.area"], "a figure formula's, by the shop book")
	assert.Equal(t, Points{0.9, 1, 1.25}, got["range.metal"])
}

func TestASurfaceIsAsSureAsTheWayItIsKnown(t *testing.T) {
	s := bookWith(t)
	list, err := Factors(sections("4"), s)
	require.NoError(t, err)
	assert.Equal(t, Points{0.92, 1, 1.12}, list[0].Points, "typed")
	assert.Equal(t, field.NoSource, list[0].Origin.Source)
}

func TestARangeTakenAwayHasItsProposedPointsAgain(t *testing.T) {
	c := figure().WithRange(0, "wall", "1").WithRange(0, "wall", "")
	assert.Empty(t, c.Pieces[0].Ranges)
	d := c.WithRange(0, "wall", "1.1")
	assert.Empty(t, c.Pieces[0].Ranges, "the copy alone is changed")
	assert.Equal(t, "1.1", d.Pieces[0].Ranges["wall"])
}

func TestWrongRangesSayWhichWhatAndWhatWouldBeRight(t *testing.T) {
	s := bookWith(t)
	for text, says := range map[string]string{
		"0.9 / 1":              "is not three numbers; give low / likely / high as shares of the estimate, such as 0.9 / 1 / 1.5",
		"low / 1 / 2":          "has a part, “low”, that is no number",
		"1 / 0.9 / 1.2":        "is not in order, from low to high",
		"0 / 1 / 2":            "has a part, “0”, that is nothing or less",
		"-10 % / 100 % / 110%": "has a part, “-10 %”, that is nothing or less",
		"1 / 2 / 1500":         "has a part, “1500”, that is more than a hundred times the estimate",
		"1.5 / /":              "is not in order, from low to high",
		"1 m / 2 m / 3 m":      "has a part, “1 m”, that is no number",
	} {
		_, err := Factors(figure().WithRange(0, "area", text), s)
		require.Error(t, err, text)
		f := fault.All(err)[0]
		assert.Equal(t, "0.range.area", f.Where, text)
		assert.Contains(t, f.Error(), "Range of “Surface of Figure” “"+text+"” "+says)
	}
}

func TestAllWrongRangesAreToldTogether(t *testing.T) {
	c := figure().With(0, "patina.by", "by others").With(1, "patina.by", "by others").
		WithRange(estimate.Whole, "hours.patina", "1").WithRange(estimate.Whole, "weather", "1").WithRange(0, "arae", "1").WithRange(1, "wall", "x")
	_, err := NewTrials(c, bookWith(t), Ask{})
	list := fault.All(err)
	require.Len(t, list, 3, "the hours of a stage by others wait until it is not")
	assert.Contains(t, list[0].Error(), "Range “weather” is of nothing that varies in this commission; give one of hours.original, ")
	assert.Equal(t, "Range “arae” is of nothing that varies in this commission; give one of area, wall", list[1].Error())
	assert.Equal(t, "1.range.wall", list[2].Where)
}

func TestAPartLeftEmptyIsTheShopBooks(t *testing.T) {
	list, err := Factors(figure().WithRange(0, "area", "/ / 150 %").WithRange(0, "wall", "0.98 ;; "), bookWith(t))
	require.NoError(t, err)
	assert.Equal(t, Points{0.85, 1, 1.5}, list[0].Points)
	assert.Equal(t, Points{0.85, 1, 1.25}, list[0].Usual)
	assert.Equal(t, 0.98, list[1].Points.Low)
	assert.Equal(t, list[1].Usual.High, list[1].Points.High)
}

func TestARangeThatCannotBeReadLeavesTheShopBooks(t *testing.T) {
	list, err := Factors(figure().WithRange(0, "area", "2 / 1 / 0.5"), bookWith(t))
	require.Error(t, err)
	assert.Equal(t, list[0].Usual, list[0].Points)
	list, err = Factors(figure().With(0, "form.wall", "-1"), bookWith(t))
	require.Error(t, err)
	assert.Empty(t, list)
}

func TestTheThreePartsOfARangeComeApartAndTogether(t *testing.T) {
	for text, parts := range map[string][3]string{
		"": {}, "1": {"1", "1", "1"}, "0.9/1 / 1.5": {"0.9", "1", "1.5"}, "/ / 150 %": {"", "", "150 %"}, "0.9 / 1": {"0.9", "1", ""},
	} {
		assert.Equal(t, parts, Parts(text), text)
		assert.Equal(t, parts, Parts(Joined(parts)), text)
	}
	assert.Empty(t, Joined([3]string{" ", "", ""}))
	assert.Equal(t, "1 2 / 1 / ", Joined([3]string{"1/2", "1", ""}), "a stroke typed in one is not two")
}
