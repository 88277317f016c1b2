package desk_test

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/options"
)

// keeper is the demo's group of three pieces, on the desk.
func keeper(t *testing.T) *desk.Sheet {
	d, _ := sitDown(t)
	for _, q := range desk.Demo() {
		if len(q.Commission.Pieces) == 3 {
			return d.Put(q)
		}
	}
	t.Fatal("the demo has no group")
	return nil
}

func optionNames(s *desk.Sheet) (out []string) {
	for _, o := range s.Options() {
		out = append(out, o.Name)
	}
	return out
}

func TestTheFirstOptionComesWithTheQuoteToCompareWith(t *testing.T) {
	s := keeper(t)
	assert.Equal(t, []string{"Life and a quarter"}, optionNames(s), "the quote itself")
	i, err := s.AddOption("life size")
	require.NoError(t, err)
	assert.Equal(t, 1, i)
	assert.Equal(t, []string{"Life and a quarter", "Life size"}, optionNames(s))
	list := s.Options()
	assert.True(t, list[0].IsQuote)
	assert.False(t, list[1].IsQuote)
	assert.Equal(t, s.Latest().Total, list[0].Estimate.Total)
	require.True(t, s.Undo())
	assert.Empty(t, s.Commission().Options, "one step")
	i, err = s.AddOption("2.19 m")
	require.NoError(t, err)
	assert.Zero(t, i, "the quote's own height needs no other")
}

func TestAHeightThatIsNoneIsNotAdded(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("huge")
	assert.ErrorContains(t, err, "huge")
	assert.Empty(t, s.Commission().Options)
	assert.False(t, s.CanUndo())
}

func TestOptionsAreCopiedMovedNamedAndTakenAway(t *testing.T) {
	s := keeper(t)
	for _, h := range []string{"2.19 m", "1 m", "3 m"} {
		_, err := s.AddOption(h)
		require.NoError(t, err)
	}
	s.NameOption(1, "Small")
	s.NameOption(1, "Smallest")
	assert.Equal(t, 2, s.CopyOption(1))
	assert.Equal(t, []string{"Life and a quarter", "Smallest", "Smallest (copy)", "3 m"}, optionNames(s))
	assert.Equal(t, 0, s.MoveOption(1, -9))
	s.RemoveOption(2)
	assert.Equal(t, []string{"Smallest", "Life and a quarter", "3 m"}, optionNames(s))
	s.SetOptionHeight(0, "1.2 m")
	assert.InDelta(t, 1.2, float64(s.Options()[0].Height), 1e-12)
	s.SetOptionHeight(0, "")
	assert.InDelta(t, 2.19, float64(s.Options()[0].Height), 1e-12, "the quote's own")
}

func TestWhatIsTypedWrongStaysAndNamesItsOption(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("1 m")
	require.NoError(t, err)
	s.SetOptionHeight(1, "1 n")
	s.SetOption(0, 0, "form.wall", "-3 mm")
	assert.Empty(t, s.Faults(), "the quote itself is sound")
	list := s.Options()
	assert.Contains(t, list[1].Faults[0].Error(), "Height of option 2 “1 n”")
	assert.Contains(t, list[0].Faults[0].Error(), "of option 1")
	assert.Equal(t, "1 n", s.Commission().Options[1].Height)
	assert.Zero(t, list[0].Weeks)
}

func TestOneOptionIsRecommendedWithASentenceWhy(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("1 m")
	require.NoError(t, err)
	s.Recommend(0, true)
	s.Recommend(1, true)
	s.ExplainOption(1, "It reads")
	s.ExplainOption(1, "It reads from the quay.")
	list := s.Options()
	assert.False(t, list[0].Recommended)
	assert.True(t, list[1].Recommended)
	assert.Equal(t, "It reads from the quay.", list[1].Why)
	require.True(t, s.Undo())
	assert.Empty(t, s.Options()[1].Why, "typing is one step")
	s.Recommend(1, false)
	assert.False(t, s.Options()[1].Recommended)
}

func TestAnOptionHasItsOwnInputsAndTheQuotesOtherwise(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("1 m")
	require.NoError(t, err)
	form, _ := estimate.StageByID("form")
	wall := func() estimate.Entry {
		for _, e := range s.OptionEntries(1, 0, s.Options()[1].Faults, form) {
			if e.Field.Path() == "form.wall" {
				return e
			}
		}
		t.Fatal("an option has a wall")
		return estimate.Entry{}
	}
	assert.Empty(t, wall().Typed)
	assert.Equal(t, "3/16 in", wall().Start, "as the quote")
	s.SetOption(1, 0, "form.wall", "6 mm")
	assert.Equal(t, "6 mm", wall().Typed)
	assert.InDelta(t, 0.006, float64(s.Options()[1].Estimate.Pieces[0].Wall), 1e-12)
	s.SetOption(1, 0, "form.wall", "6 m")
	require.NotNil(t, wall().Fault)
	s.SetOption(1, 0, "form.wall", "")
	assert.InDelta(t, 0.0047625, float64(s.Options()[1].Estimate.Pieces[0].Wall), 1e-12)
	s.SetOption(1, estimate.Whole, "delivery.by", "by others")
	assert.Empty(t, s.Options()[0].Faults)
	assert.True(t, s.Options()[1].Estimate.Stages[10].ByOthers)
	assert.False(t, s.Options()[0].Estimate.Stages[10].ByOthers)
}

func TestTheLargestWithinTheBudgetIsAdded(t *testing.T) {
	s := keeper(t)
	_, _, err := s.AddLargest()
	assert.ErrorContains(t, err, "Budget of the call is not given")
	s.Set(estimate.Whole, "price.budget", "250000")
	i, fit, err := s.AddLargest()
	require.NoError(t, err)
	o := s.Options()[i]
	assert.InDelta(t, float64(fit.Height), float64(o.Height), 1e-9)
	assert.Equal(t, fit.Total, o.Estimate.Total)
	assert.GreaterOrEqual(t, o.Left, money.Amount(0))
	assert.True(t, o.Fits())
	s.Set(estimate.Whole, "price.budget", "10")
	_, _, err = s.AddLargest()
	assert.ErrorContains(t, err, "holds no height")
}

func TestWhatIsLeftForTheArtistFollowsTheOption(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("1.2 m")
	require.NoError(t, err)
	list := s.Options()
	_, err = s.Weighing().Artist(list[1])
	assert.ErrorContains(t, err, "Budget")
	s.Set(estimate.Whole, "price.budget", "400000")
	w := s.Weighing()
	large, err := w.Artist(w.Options()[0])
	require.NoError(t, err)
	small, err := w.Artist(w.Options()[1])
	require.NoError(t, err)
	assert.Greater(t, small.Fee, large.Fee)
	s.SetOption(1, 0, "form.wall", "-1 mm")
	_, err = s.Weighing().Artist(s.Options()[1])
	assert.Error(t, err)
}

func TestWeeksAndCurveAreThoseOfTheOption(t *testing.T) {
	s := keeper(t)
	for _, h := range []string{"1 m", "3 m"} {
		_, err := s.AddOption(h)
		require.NoError(t, err)
	}
	list := s.Options()
	assert.Greater(t, list[0].Weeks, list[1].Weeks)
	assert.Greater(t, list[2].Weeks, list[0].Weeks)
	w := s.Weighing()
	curve, err := w.Curve(1, 3, 24)
	require.NoError(t, err)
	assert.Equal(t, list[1].Estimate.Total, curve.Points[0].Asked)
	assert.Equal(t, list[2].Estimate.Total, curve.Points[len(curve.Points)-1].Asked)
	assert.Equal(t, list[2].Estimate.Total, w.At(3).Estimate.Total)
	assert.Equal(t, list[2].Estimate.Total, w.Asked(list[2].Estimate))
}

func TestTheChosenOptionBecomesTheQuoteInOneStep(t *testing.T) {
	s := keeper(t)
	for _, h := range []string{"1.1 m", "2.6 m"} {
		_, err := s.AddOption(h)
		require.NoError(t, err)
	}
	s.SetOption(2, 0, "form.wall", "6 mm")
	s.SetOption(2, 1, "patina.by", "by others")
	before := s.Options()
	was := s.Commission()
	require.NoError(t, s.ChooseOption(2))
	assert.Equal(t, before[2].Estimate.Total, s.Latest().Total)
	after := s.Options()
	for i := range before {
		assert.Equal(t, printed(before[i].Result), printed(after[i].Result), before[i].Name)
	}
	assert.Equal(t, []bool{false, false, true}, []bool{after[0].IsQuote, after[1].IsQuote, after[2].IsQuote})
	require.True(t, s.Undo())
	assert.Equal(t, was, s.Commission())
	require.True(t, s.Redo())
	assert.Equal(t, before[2].Estimate.Total, s.Latest().Total)
}

func TestWhatCannotBeMadeIsNotChosen(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("1 m")
	require.NoError(t, err)
	s.SetOption(1, 0, "form.wall", "1 m")
	was := s.Commission()
	assert.Error(t, s.ChooseOption(1))
	s.SetOptionHeight(1, "1 n")
	assert.Error(t, s.ChooseOption(1))
	s.Undo()
	assert.Equal(t, was, s.Commission())
}

// Whatever is done to one option, and whichever is chosen, the others are the
// work that they were, line by line.
func TestNothingThatIsDoneToAnOptionDisturbsAnother(t *testing.T) {
	d, _ := sitDown(t)
	book := d.Shop()
	rapid.Check(t, func(rt *rapid.T) {
		s := keeper(t)
		for _, h := range []string{"1.1 m", "1.75 m", "7'10\""} {
			_, err := s.AddOption(h)
			require.NoError(rt, err)
		}
		texts := map[string][]string{
			"form.wall": {"5 mm", "1/4 in", ""}, "patina.colours": {"1", "3"}, "base.plinth": {"drum", "no plinth", ""},
			"form.casts": {"2", ""}, "form.start": {"their wax"}, "form.in_options": {"stays as it is"},
		}
		paths := []string{"form.wall", "patina.colours", "base.plinth", "form.casts", "form.start", "form.in_options"}
		for range rapid.IntRange(1, 4).Draw(rt, "steps") {
			i := rapid.IntRange(0, 3).Draw(rt, "option")
			before := options.Compare(s.Commission(), book)
			choose := rapid.IntRange(0, 2).Draw(rt, "choose") == 0
			if choose {
				if s.ChooseOption(i) != nil {
					continue
				}
			} else {
				path := rapid.SampledFrom(paths).Draw(rt, "path")
				s.SetOption(i, rapid.IntRange(0, 2).Draw(rt, "piece"), path, rapid.SampledFrom(texts[path]).Draw(rt, "text"))
			}
			for k, o := range options.Compare(s.Commission(), book) {
				if k != i || choose {
					require.Equal(rt, printed(before[k]), printed(o), "option %d", k)
				}
			}
		}
		for s.Undo() {
		}
		require.Empty(rt, s.Commission().Options)
	})
}

func TestAnOptionAddedToAnIssuedQuoteMakesANewRevision(t *testing.T) {
	ctx := context.Background()
	d, s := issuingDesk(t)
	r, err := s.Issue(ctx)
	require.NoError(t, err)
	require.Equal(t, "A", r.Letter)
	_, err = s.AddOption("1 m")
	require.NoError(t, err)
	require.NoError(t, s.Save(ctx))
	assert.Equal(t, "B", s.Quote().Letter)
	again, err := d.Open(ctx, s.Quote().ID)
	require.NoError(t, err)
	assert.Len(t, again.Commission().Options, 2)
	r, err = again.Issue(ctx)
	require.NoError(t, err)
	assert.Equal(t, "B", r.Letter)
	all, err := s.Revisions(ctx)
	require.NoError(t, err)
	assert.Len(t, all, 2)
}

func TestOptionsGoThroughAFileAsTheyAre(t *testing.T) {
	s := keeper(t)
	_, err := s.AddOption("life size")
	require.NoError(t, err)
	s.SetOption(1, 2, "form.wall", "6 mm")
	s.Recommend(1, true)
	s.ExplainOption(1, "It stands above the railing.")
	var file bytes.Buffer
	require.NoError(t, desk.EncodeCommission(&file, s.Commission(), nil))
	text := file.String()
	again, _, err := desk.DecodeCommission(&file)
	require.NoError(t, err)
	assert.Contains(t, text, "It stands above the railing.")
	require.NoError(t, desk.EncodeCommission(&file, again, nil))
	assert.Equal(t, text, file.String())
}

// printed are the lines of an option as somebody reads them.
func printed(o options.Result) (out []string) {
	e := o.Estimate
	for _, l := range e.Lines {
		out = append(out, fmt.Sprint(l.Stage, l.Piece, l.Item, " ", l.QuantityText(), l.Unit, " × ", l.RateText(2), " = ", e.Currency.Text(l.Amount)))
	}
	return append(out, e.Currency.Text(e.Price), e.Currency.Text(e.Total))
}
