package quote

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestAQuoteIsIssuedBeforeItIsAcceptedDeclinedOrLapses(t *testing.T) {
	for _, answer := range []State{Accepted, Declined, Lapsed} {
		assert.False(t, Draft.May(answer), answer)
		assert.True(t, Issued.May(answer), answer)
		assert.True(t, answer.May(Issued), "%s by mistake can be taken back", answer)
	}
}

func TestEveryQuoteCanBecomeADraftAgainAndNoneIsIssuedByWithdrawingIt(t *testing.T) {
	for _, s := range States() {
		assert.True(t, s.May(Draft), s)
		assert.True(t, s.May(s), s)
	}
	assert.False(t, Withdrawn.May(Issued))
}

func TestAnUnknownStateIsNowhere(t *testing.T) {
	assert.False(t, State("sold").Known())
	assert.False(t, State("sold").May("sold"))
	assert.False(t, State("").May(Draft))
	assert.Empty(t, State("sold").Next())
}

func TestNextListsExactlyTheOtherStatesThatMayFollow(t *testing.T) {
	for _, s := range States() {
		for _, to := range States() {
			assert.Equal(t, to != s && s.May(to), slices.Contains(s.Next(), to), "%s to %s", s, to)
		}
	}
}

func TestLettersRunFromAToZAndOn(t *testing.T) {
	for letter, next := range map[string]string{"": "A", FirstLetter: "B", "Y": "Z", "Z": "AA", "AZ": "BA", "ZZ": "AAA"} {
		assert.Equal(t, next, NextLetter(letter), letter)
	}
}

func TestNoLetterComesTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 2000).Draw(t, "n")
		seen := map[string]bool{}
		for letter := FirstLetter; len(seen) < n; letter = NextLetter(letter) {
			assert.False(t, seen[letter], letter)
			seen[letter] = true
		}
	})
}
