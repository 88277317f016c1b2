package options

import (
	"fmt"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// ordinals are written out as far as people do.
var ordinals = []string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"}

func ordinal(n int) string {
	if n < len(ordinals) {
		return ordinals[n]
	}
	switch {
	case n%100/10 == 1:
	case n%10 == 1:
		return fmt.Sprintf("%dst", n)
	case n%10 == 2:
		return fmt.Sprintf("%dnd", n)
	case n%10 == 3:
		return fmt.Sprintf("%drd", n)
	}
	return fmt.Sprintf("%dth", n)
}

// an puts the article before the nth: an eighth, an 18th, an 80th.
func an(n int) string {
	word := ordinal(n)
	if strings.HasPrefix(word, "e") || strings.HasPrefix(word, "8") || n == 18 {
		return "an " + word
	}
	return "a " + word
}

// Words says what happens at the step: "a ninth section at 2.31 m brings a pour
// day". Names are those of the commission's pieces.
func (s Step) Words(names []string, sys quantity.System) string {
	causes, effects := s.causes(names), s.effects()
	at := " at " + quantity.Print(quantity.KindLength, float64(s.Height), sys)
	switch {
	case len(causes) == 0 && len(effects) == 0:
		return ""
	case len(causes) == 0:
		return and(effects) + at
	case len(effects) == 0:
		return and(causes) + at
	}
	verb := " brings "
	if len(causes) > 1 {
		verb = " bring "
	}
	return and(causes) + at + verb + and(effects)
}

// and joins what is said of one thing: "a, b and c".
func and(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// causes are what the size itself asks for.
func (s Step) causes(names []string) (out []string) {
	for i, n := range s.After.Sections {
		if n <= s.Before.Sections[i] {
			continue
		}
		c := an(n) + " section"
		if len(names) > 1 {
			c += " of " + names[i]
		}
		out = append(out, c)
	}
	for i, n := range s.After.Coats {
		c := "thicker shells"
		switch {
		case n == s.Before.Coats[i]:
			continue
		case n < s.Before.Coats[i]:
			c = "thinner shells"
		}
		if len(names) > 1 {
			c += " for " + names[i]
		}
		out = append(out, c)
	}
	return out
}

// effects are what follows in the foundry and on site.
func (s Step) effects() (out []string) {
	out = append(out, more(s.Before.Days, s.After.Days, "a pour day", "pour days")...)
	out = append(out, more(s.Before.Heats, s.After.Heats, "another heat", "heats")...)
	out = append(out, more(s.Before.Loads, s.After.Loads, "another burn-out load", "burn-out loads")...)
	out = append(out, more(s.Before.Frames, s.After.Frames, "an inner frame", "inner frames")...)
	out = append(out, more(s.Before.Stamps, s.After.Stamps, "an engineer's stamp", "engineer's stamps")...)
	if s.Before.Lift != s.After.Lift {
		out = append(out, "lifting by "+lower(s.After.Lift))
	}
	return out
}

func more(before, after int, one, many string) []string {
	switch n := after - before; {
	case n == 1:
		return []string{one}
	case n > 1:
		return []string{fmt.Sprintf("%d more %s", n, many)}
	case n < 0:
		return []string{fmt.Sprintf("%d fewer %s", -n, many)}
	}
	return nil
}

func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// Names are the names of a commission's pieces, as its estimate has them.
func Names(e *estimate.Estimate) []string {
	out := make([]string, len(e.Pieces))
	for i, p := range e.Pieces {
		out[i] = p.Name
	}
	return out
}
