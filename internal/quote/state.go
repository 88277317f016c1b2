package quote

import (
	"slices"
	"time"
)

// moves is which states a quote may go to from each. A quote that is issued
// becomes a draft again when it is changed: its next letter is being worked
// on. Accepted, declined and lapsed may go back to issued, because the wrong
// button gets pressed.
var moves = map[State][]State{
	Draft:     {Issued, Withdrawn},
	Issued:    {Draft, Accepted, Declined, Lapsed, Withdrawn},
	Accepted:  {Draft, Issued, Withdrawn},
	Declined:  {Draft, Issued},
	Lapsed:    {Draft, Issued},
	Withdrawn: {Draft},
}

// States lists every state, in the order of a quote's life.
func States() []State {
	return []State{Draft, Issued, Accepted, Declined, Lapsed, Withdrawn}
}

// Known tells whether s is one of States.
func (s State) Known() bool { return slices.Contains(States(), s) }

// May tells whether a quote in state s may go to another. Every known state may
// stay what it is.
func (s State) May(to State) bool {
	return s.Known() && s == to || slices.Contains(moves[s], to)
}

// Next lists the states that a quote in state s may go to, in the order of a
// quote's life.
func (s State) Next() []State { return slices.Clone(moves[s]) }

// FirstLetter is the letter of a quote's first revision.
const FirstLetter = "A"

// NextLetter gives the letter after one: B after A, AA after Z, AB after AA.
func NextLetter(letter string) string {
	digits := []byte(letter)
	for i := len(digits) - 1; i >= 0; i-- {
		if digits[i] != 'Z' {
			digits[i]++
			return string(digits)
		}
		digits[i] = 'A'
	}
	return "A" + string(digits)
}

// Step is one step in a quote's life: when it came into a state, which letter
// that was about, and who did it; nobody where it lapsed by its date.
type Step struct {
	At     time.Time
	State  State
	Letter string
	By     string
}
