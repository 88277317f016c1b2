package options

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

func TestAStepSaysWhatItBrings(t *testing.T) {
	before := estimate.Steps{Sections: []int{8, 2}, Coats: []int{10, 10}, Heats: 5, Days: 2, Loads: 3, Lift: "hoist"}
	change := func(f func(*estimate.Steps)) Step {
		after := before
		after.Sections, after.Coats = []int{8, 2}, []int{10, 10}
		f(&after)
		return Step{Height: 2.31, Before: before, After: after}
	}
	for want, f := range map[string]func(*estimate.Steps){
		"a ninth section of Figure at 2.31 m":                                               func(s *estimate.Steps) { s.Sections[0] = 9 },
		"a ninth section of Figure at 2.31 m brings a pour day":                             func(s *estimate.Steps) { s.Sections[0], s.Days = 9, 3 },
		"a ninth section of Figure and a third section of Dog at 2.31 m bring another heat": func(s *estimate.Steps) { s.Sections[0], s.Sections[1], s.Heats = 9, 3, 6 },
		"another heat at 2.31 m":                                                            func(s *estimate.Steps) { s.Heats = 6 },
		"2 fewer heats at 2.31 m":                                                           func(s *estimate.Steps) { s.Heats = 3 },
		"lifting by city crane at 2.31 m":                                                   func(s *estimate.Steps) { s.Lift = "City crane" },
		"thicker shells for Dog at 2.31 m":                                                  func(s *estimate.Steps) { s.Coats[1] = 12 },
		"thinner shells for Dog at 2.31 m":                                                  func(s *estimate.Steps) { s.Coats[1] = 8 },
		"an inner frame and an engineer's stamp at 2.31 m":                                  func(s *estimate.Steps) { s.Frames, s.Stamps = 1, 1 },
		"2 more pour days and another burn-out load at 2.31 m":                              func(s *estimate.Steps) { s.Loads, s.Days = 4, 4 },
		"": func(*estimate.Steps) {},
	} {
		assert.Equal(t, want, change(f).Words([]string{"Figure", "Dog"}, quantity.Metric))
	}
	assert.Equal(t, `another heat at 7'6 15/16"`, change(func(s *estimate.Steps) { s.Heats = 6 }).Words(nil, quantity.InchPound))
	assert.Empty(t, Step{}.Words(nil, quantity.Metric))
}

func TestOneWorkNeedsNoNameForItsSections(t *testing.T) {
	step := Step{Height: 1, Before: estimate.Steps{Sections: []int{7}}, After: estimate.Steps{Sections: []int{8}}}
	assert.Equal(t, "an eighth section at 1 m", step.Words([]string{"Figure"}, quantity.Metric))
}

func TestArticlesFollowTheSpokenNumber(t *testing.T) {
	for n, want := range map[int]string{
		1: "a first", 8: "an eighth", 11: "an eleventh", 12: "a twelfth", 13: "a 13th", 18: "an 18th", 21: "a 21st", 22: "a 22nd", 23: "a 23rd",
		80: "an 80th", 83: "an 83rd", 101: "a 101st", 110: "a 110th", 111: "a 111th", 180: "a 180th",
	} {
		assert.Equal(t, want, an(n))
	}
}

func TestAFitSaysWhatIsInTheWay(t *testing.T) {
	step := Step{Height: 2.31, Before: estimate.Steps{Sections: []int{8}}, After: estimate.Steps{Sections: []int{9}, Days: 1}}
	fit := Fit{Height: 2.309, NextStep: step}
	assert.True(t, fit.Blocked())
	fit.Height = 2.3
	assert.False(t, fit.Blocked())
}
