package desk_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/desk"
)

// made is how an option makes each piece, by the piece's name: its height to the
// millimetre, its wall and how often it is cast.
func made(o desk.Option) map[string]string {
	out := map[string]string{}
	for _, p := range o.Estimate.Pieces {
		out[p.Name] = fmt.Sprintf("%.0f mm, wall %.2f mm, %d casts", math.Round(float64(p.Height)*1000), float64(p.Wall)*1000, p.Casts)
	}
	return out
}

// otherKeepers are the group with two more options, in which single pieces are
// made otherwise.
func otherKeepers(t require.TestingT, d *desk.Desk) *desk.Sheet {
	for _, q := range desk.Demo() {
		if len(q.Commission.Pieces) == 3 {
			s := d.Put(q)
			_, err := s.AddOption("1.1 m")
			require.NoError(t, err)
			_, err = s.AddOption("2.6 m")
			require.NoError(t, err)
			s.SetOption(1, 1, "form.wall", "6 mm")
			s.SetOption(2, 2, "form.casts", "2")
			return s
		}
	}
	require.Fail(t, "the demo has no group")
	return nil
}

func TestACopyOfAPieceIsMadeInTheOptionsAsThePieceIs(t *testing.T) {
	d, _ := sitDown(t)
	s := otherKeepers(t, d)
	before := s.Options()
	s.CopyPiece(1)
	for i, o := range s.Options() {
		was, is := made(before[i]), made(o)
		require.Len(t, is, 4)
		for name, how := range was {
			assert.Equal(t, how, is[name], "%s of option %d", name, i)
		}
		assert.Equal(t, was[s.Commission().Pieces[1].Name], is[s.Commission().Pieces[2].Name], "the copy in option %d", i)
	}
}

func TestTheDogTakenAwayLeavesTheBenchAsItWasInEveryOption(t *testing.T) {
	d, _ := sitDown(t)
	s := otherKeepers(t, d)
	before := s.Options()
	dog := s.Commission().Pieces[1].Name
	s.RemovePiece(1)
	for i, o := range s.Options() {
		want := made(before[i])
		delete(want, dog)
		assert.Equal(t, want, made(o), "option %d", i)
	}
	require.True(t, s.Undo())
	assert.Equal(t, made(before[1]), made(s.Options()[1]), "and comes back")
}

// An option's height is that of the first piece: where the dog becomes the first,
// it is the dog's, and nothing grows.
func TestWhereverAPieceMovesTheOptionsStayTheWorkTheyWere(t *testing.T) {
	d, _ := sitDown(t)
	rapid.Check(t, func(rt *rapid.T) {
		s := otherKeepers(rt, d)
		if rapid.Bool().Draw(rt, "the bench stays as it is") {
			s.Set(2, "form.in_options", "stays as it is")
		}
		for range rapid.IntRange(1, 4).Draw(rt, "steps") {
			before := s.Options()
			n := len(s.Commission().Pieces)
			i := rapid.IntRange(0, n-1).Draw(rt, "piece")
			gone := ""
			if n > 1 && rapid.IntRange(0, 3).Draw(rt, "remove") == 0 {
				gone = s.Commission().Pieces[i].Name
				s.RemovePiece(i)
			} else {
				s.MovePiece(i, rapid.IntRange(-2, 2).Draw(rt, "by"))
			}
			for k, o := range s.Options() {
				want := made(before[k])
				delete(want, gone)
				require.Empty(rt, o.Faults)
				require.Equal(rt, want, made(o), "option %d", k)
			}
		}
	})
}

func TestWhatIsTypedIntoAPieceOfTheQuoteChangesAllOptionsAlike(t *testing.T) {
	d, _ := sitDown(t)
	s := otherKeepers(t, d)
	before := s.Options()
	s.Set(1, "form.casts", "3")
	dog := s.Commission().Pieces[1].Name
	for i, o := range s.Options() {
		was, is := made(before[i]), made(o)
		assert.Contains(t, is[dog], "3 casts")
		delete(was, dog)
		delete(is, dog)
		assert.Equal(t, was, is, "the others in option %d", i)
	}
}
