package options

import (
	"math"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/quantity"
)

// Scale is a size that the trade has a word for.
type Scale struct {
	Of   float64 // of life
	Key  string  // its name in templates: "life-and-a-half"
	Name string
}

// Scales are the trade's words for sizes, from the smallest up (common practice,
// no source).
var Scales = []Scale{
	{0.25, "quarter", "Quarter life size"},
	{1.0 / 3, "third", "One-third life size"},
	{0.5, "half", "Half life size"},
	{2.0 / 3, "two-thirds", "Two-thirds life size"},
	{0.75, "three-quarters", "Three-quarter life size"},
	{1, "life", "Life size"},
	{1.25, "life-and-a-quarter", "Life and a quarter"},
	{1.5, "life-and-a-half", "Life and a half"},
	{2, "twice", "Twice life size"},
}

// ScaleOf is the size of a commission's first piece in the trade's words, where
// one fits within a hundredth; false where none does. Only what lives is named by
// life.
func ScaleOf(rule estimate.Rule) (Scale, bool) {
	if rule.Living && rule.Life > 0 {
		for _, n := range Scales {
			if math.Abs(float64(rule.Height/rule.Life)/n.Of-1) < 0.01 {
				return n, true
			}
		}
	}
	return Scale{}, false
}

// ScaleName is the trade's word for the size of a commission's first piece, and
// its height where there is none.
func ScaleName(rule estimate.Rule) string {
	if s, ok := ScaleOf(rule); ok {
		return s.Name
	}
	return quantity.Print(quantity.KindLength, float64(rule.Height), rule.System)
}

// HeightOf reads a height for an option as typed: a length, or one of the words
// in Scales for what lives. It gives the text that the option keeps. The error
// is a fault.Fault.
func HeightOf(rule estimate.Rule, text string) (string, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	for _, n := range Scales {
		if word != strings.ToLower(n.Name) {
			continue
		}
		if !rule.Living {
			return "", fault.Fault{
				Where: "height", Field: "Height", Value: text, Problem: "is said of people and animals",
				Remedy: "give a height, such as " + quantity.Print(quantity.KindLength, float64(rule.Height), rule.System),
			}
		}
		return HeightText(rule.Life*quantity.Length(n.Of), rule.System), nil
	}
	if _, err := rule.ReadHeight(text); err != nil {
		f := fault.All(err)[0]
		f.Where, f.Field = "height", "Height"
		if rule.Living {
			f.Remedy += ", or a word such as life and a half"
		}
		return "", f
	}
	return strings.TrimSpace(text), nil
}

// HeightText is a height as it is typed in a system of units: to a tenth of a
// millimetre, or to a sixteenth of an inch.
func HeightText(h quantity.Length, sys quantity.System) string {
	if sys == quantity.InchPound {
		return quantity.Print(quantity.KindLength, float64(h), sys)
	}
	return quantity.Number(float64(h), 4) + " m"
}
