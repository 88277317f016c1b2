package ui

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/proposal"
	"meltwright/internal/risk"
	"meltwright/internal/ui/kit"
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
	assert.Equal(t, []string{"rows", "rows", "sure.low", "sure.likely", "sure.high", "[Ranges in the shop book]"}, b.around()[6:])
	wide := b.quote().priceShown().Range
	b.tap("Ranges in the shop book")
	b.fill("range.hours_high", "300 %")
	b.book().goBack()
	b.clock.pass(time.Second)
	assert.Greater(t, b.quote().priceShown().Range.High, wide.High)
}

// vary chooses what varies, by its path, on the page of the range.
func (b *bench) vary(where string) {
	b.Helper()
	b.quote().pageOf(sureID).(*surePage).ranges.table.OnSelect(where)
}

func TestThreePointsOfOnesOwnAreTypedOnHowSure(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(sureID)
	b.clock.pass(time.Second)
	before := b.quote().priceShown().Range
	b.vary("range.hours.original")
	assert.Contains(t, b.said(), "Hours, Original, low")
	b.fill("sure.low", "1")
	b.fill("sure.likely", "150 %")
	b.fill("sure.high", "2.5")
	assert.Contains(t, b.said(), "= 250 % of the estimate")
	assert.Contains(t, b.said(), "Hours, Original – yours 100 % 150 % 250 %")
	b.clock.pass(time.Second)
	assert.Greater(t, b.quote().priceShown().Range.High, before.High)
	b.clock.pass(time.Second)
	assert.Equal(t, "1 / 150% / 2.5", b.kept().Commission.Ranges["hours.original"])

	b.vary("0.range.area")
	assert.Empty(t, b.field("sure.low").Text(), "another thing, other points")
	b.vary("range.hours.original")
	b.tap("As in the shop book")
	assert.Empty(t, b.quote().sheet.Commission().Ranges)
	b.menu("Undo")
	assert.Equal(t, "2.5", b.field("sure.high").Text())
}

func TestAWrongPointIsToldBesideIt(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(sureID)
	b.clock.pass(time.Second)
	b.vary("1.range.area")
	b.fill("sure.low", "many")
	assert.Contains(t, b.field("sure.low").Fault(), "is no number; give a share of the estimate, such as 0.9 or 90 %")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "No range can be drawn. Range of “Surface of Dog”")
	b.fill("sure.low", "1.2")
	assert.Empty(t, b.field("sure.low").Fault())
	assert.Contains(t, b.field("sure.high").Fault(), "low, likely and high are not in order")
	b.clock.pass(time.Second)
	for _, row := range b.quote().railRows() {
		assert.Equal(t, row.ID == sureID, row.State == kit.StageFault, "and in the rail, at %s", row.Name)
	}
	b.fill("sure.low", "")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Eight in ten within")
}

func TestRangesOfNothingAreTakenAway(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose(sureID)
	b.quote().edit(func() {
		b.quote().sheet.Change("", func(c *estimate.Commission) { c.Ranges = map[string]string{"weather": "1"} })
	})
	assert.Contains(t, b.said(), "Range “weather” is of nothing that varies in this commission")
	b.tap("Take away what varies nowhere")
	assert.NotContains(t, b.said(), "weather")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Eight in ten within")
}

func TestTheProposalSaysTheRangeOnlyWhereItIsTicked(t *testing.T) {
	b := sit(t, withDemo, func(o *Options) { o.Papers = proposal.Maker{} })
	b.quote().choose(sureID)
	assert.False(t, b.quote().sheet.SaysRange())
	tick := func() {
		b.field("sure.said").Focus()
		b.typed(" ")
	}
	tick()
	assert.True(t, b.quote().sheet.SaysRange())
	chosen := b.quote().sheet.Chosen()
	assert.Equal(t, "price", chosen[slices.Index(chosen, desk.RangeSection)-1], "right after the price")
	b.menu("Undo")
	assert.False(t, b.quote().sheet.SaysRange())
	tick()
	tick()
	assert.Empty(t, b.quote().sheet.Quote().Words[desk.Sections], "as it was before")
}

func TestWhatIsCastAgainStandsBesideTheSections(t *testing.T) {
	b := sit(t, withDemo)
	e, ok := b.quote().sheet.Estimate()
	require.True(t, ok)
	assert.Regexp(t, `Sections 25 To be cast again 1\.3 · \$[\d,]+ Heats`, b.said())
	assert.Contains(t, b.said(), "72 in 100 chance that at least one of 25 sections must be cast again")
	b.quote().edit(func() { b.quote().sheet.Set(estimate.Whole, "pour.yield", "100 %") })
	assert.Contains(t, b.said(), "To be cast again none expected")
	assert.InDelta(t, 25*0.05/0.95, e.Recasts, 0.01)
}
