package ui

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/risk"
)

// held is a Work that does its jobs when it is told to.
type held struct{ jobs []func() func() }

func (h *held) Do(job func() func())     { h.jobs = append(h.jobs, job) }
func (h *held) Close(time.Duration) bool { return true }

// let does the jobs that were handed in.
func (h *held) let() {
	jobs := h.jobs
	h.jobs = nil
	for _, job := range jobs {
		if apply := job(); apply != nil {
			apply()
		}
	}
}

func TestTheRangeIsDrawnAMomentAfterTheLastKey(t *testing.T) {
	b := sit(t, withDemo)
	assert.Contains(t, b.said(), "how sure is being drawn …")
	b.clock.pass(time.Second)
	drawn := b.quote().priceShown().Range
	require.NotNil(t, drawn)
	assert.Contains(t, b.said(), drawn.LowText)
	assert.Less(t, drawn.Low, drawn.High)

	b.fill("form.wall", "9 mm")
	assert.NotContains(t, b.said(), drawn.LowText, "the range of another price is not shown")
	b.clock.pass(rest - time.Millisecond)
	assert.Contains(t, b.said(), "being drawn")
	b.clock.pass(time.Millisecond)
	assert.Greater(t, b.quote().priceShown().Range.Low, drawn.Low)
}

func TestTheRangeShownIsTheOneThatIsDrawn(t *testing.T) {
	b := sit(t, withDemo)
	b.clock.pass(time.Second)
	want, err := risk.Draw(t.Context(), b.quote().sheet.Commission(), b.w.desk.Shop(), risk.Ask{Trials: 200})
	require.NoError(t, err)
	got, ok := b.quote().sure.now()
	require.True(t, ok)
	assert.Equal(t, want, got)
}

func TestAKeyCallsOffTheDrawingOfWhatStoodBefore(t *testing.T) {
	aside := &held{}
	b := sit(t, withDemo, func(o *Options) { o.Aside = aside })
	b.clock.pass(time.Second)
	require.Len(t, aside.jobs, 1)
	late := aside.jobs[0]
	b.fill("form.wall", "9 mm")
	assert.Nil(t, late(), "it does not even begin")
	aside.jobs = nil
	b.clock.pass(time.Second)
	aside.let()
	_, ok := b.quote().sure.now()
	assert.True(t, ok)
}

func TestHowSureSaysItInWordsAndFigures(t *testing.T) {
	b := sit(t, withDemo)
	b.clock.pass(time.Second)
	b.quote().choose(sureID)
	r, _ := b.quote().sure.now()
	said := b.said()
	for _, want := range []string{"8 in 10 (P80)", "Eight in ten within", "200 trials, seed 1", "What the price hangs on"} {
		assert.Contains(t, said, want)
	}
	assert.Contains(t, said, wholePlain(b.quote().sheet.Latest().Currency, r.Cost.P80))
}

func TestWithAFaultThereIsNoRange(t *testing.T) {
	b := sit(t, withDemo)
	b.clock.pass(time.Second)
	b.fill("form.wall", "-3")
	assert.Nil(t, b.quote().priceShown().Range)
	b.quote().choose(sureID)
	assert.Contains(t, b.said(), "There is no range while something is wrong")
	b.menu("Undo")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "200 trials")
}

func TestLeavingTheQuoteGivesUpTheDrawing(t *testing.T) {
	aside := &held{}
	b := sit(t, withDemo, func(o *Options) { o.Aside = aside })
	b.menu("All quotes")
	b.clock.pass(time.Second)
	assert.Empty(t, aside.jobs)
}

func TestFromHowSureTheRangesOfTheShopBookAreOneKeyAway(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(sureID)
	b.clock.pass(time.Second)
	assert.Equal(t, []string{"[Ranges in the shop book]", "rows"}, b.around()[6:])
	wide := b.quote().priceShown().Range
	b.tap("Ranges in the shop book")
	b.fill("range.hours_high", "300 %")
	b.book().goBack()
	b.clock.pass(time.Second)
	assert.Greater(t, b.quote().priceShown().Range.High, wide.High)
}
