package desk

import (
	"fmt"
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/options"
)

// changeOption changes option i in one step of undo; steps of the same part one
// after the other, as in typing, are one.
func (s *Sheet) changeOption(i int, part string, f func(*estimate.Option)) {
	if part != "" {
		part = fmt.Sprintf("option.%d.%s", i, part)
	}
	s.Change(part, func(c *estimate.Commission) { f(&c.Options[i]) })
}

// AddOption adds an option at a height as typed, or at one of the trade's words
// for scales, and gives its number. The first option of a quote comes with one
// of the quote as it stands, to compare with, unless that is the height asked
// for. The error is a fault, and nothing is added.
func (s *Sheet) AddOption(height string) (int, error) {
	rule := s.Weighing().Rule()
	text, err := options.HeightOf(rule, height)
	if err != nil {
		return 0, err
	}
	s.Change("", func(c *estimate.Commission) {
		if h, err := rule.ReadHeight(text); err == nil && len(c.Options) == 0 && h != rule.Height {
			c.Options = append(c.Options, estimate.Option{Height: options.HeightText(rule.Height, rule.System)})
		}
		c.Options = append(c.Options, estimate.Option{Height: text})
	})
	return len(s.quote.Commission.Options) - 1, nil
}

// AddLargest adds an option at the largest height within the budget, and gives
// its number and what was found. The error is a fault, and nothing is added:
// where there is no budget, where not even the smallest height fits, and the
// faults of the quote.
func (s *Sheet) AddLargest() (int, options.Fit, error) {
	w := s.Weighing()
	fit, err := w.Largest()
	if err != nil {
		return 0, fit, err
	}
	if fit.Height == 0 {
		return 0, fit, fault.Fault{
			Where: "price.budget", Field: "Budget of the call", Value: s.quote.Commission.Inputs["price.budget"],
			Problem: "holds no height", Remedy: "give a larger sum, or put less into the work",
		}
	}
	// To the millimetre in either system: a sixteenth of an inch could be over.
	i, err := s.AddOption(fmt.Sprintf("%.3f m", float64(fit.Height)))
	return i, fit, err
}

// CopyOption adds a copy of option i after it and gives the copy's number. The
// copy is not recommended.
func (s *Sheet) CopyOption(i int) int {
	s.Change("", func(c *estimate.Commission) {
		o := c.Options[i].Clone()
		o.Name, o.Recommended, o.Why = copyOf(o.Name), false, ""
		c.Options = slices.Insert(c.Options, i+1, o)
	})
	return i + 1
}

// RemoveOption takes option i away.
func (s *Sheet) RemoveOption(i int) {
	s.Change("", func(c *estimate.Commission) { c.Options = slices.Delete(c.Options, i, i+1) })
}

// MoveOption moves option i by so many places, as far as there are, and gives its
// new number.
func (s *Sheet) MoveOption(i, by int) int {
	to := max(0, min(i+by, len(s.quote.Commission.Options)-1))
	if to != i {
		s.Change("", func(c *estimate.Commission) { move(c.Options, i, to) })
	}
	return to
}

// SetOptionHeight types the height of option i; with an empty text it has the
// quote's own.
func (s *Sheet) SetOptionHeight(i int, text string) {
	s.changeOption(i, "height", func(o *estimate.Option) { o.Height = text })
}

// NameOption types the name of option i; with an empty text it is named by its
// scale or height.
func (s *Sheet) NameOption(i int, name string) {
	s.changeOption(i, "name", func(o *estimate.Option) { o.Name = name })
}

// SetOption types text into an input of option i, of a piece or of the whole
// commission. Empty text takes it back to what the quote has.
func (s *Sheet) SetOption(i, piece int, path, text string) {
	s.changeOption(i, estimate.WhereOf(piece, path), func(o *estimate.Option) {
		if text == "" {
			*o = o.Without(piece, path)
		} else {
			*o = o.With(piece, path, text)
		}
	})
}

// Recommend recommends option i, and no other; or takes that back.
func (s *Sheet) Recommend(i int, on bool) {
	s.Change("", func(c *estimate.Commission) {
		for k := range c.Options {
			c.Options[k].Recommended = on && k == i
		}
	})
}

// ExplainOption types the sentence why option i is recommended.
func (s *Sheet) ExplainOption(i int, why string) {
	s.changeOption(i, "why", func(o *estimate.Option) { o.Why = why })
}

// OptionEntries lists the inputs of some stages as option i has them, of a piece
// and of the whole commission. Typed is what the option has of its own; Start is
// what the quote has. It is empty where the option cannot be read.
func (s *Sheet) OptionEntries(i, piece int, faults fault.List, stages ...*estimate.Stage) (all []estimate.Entry) {
	o := s.quote.Commission.Options[i]
	c, err := o.Apply(s.quote.Commission, s.desk.shop)
	if err != nil {
		return nil
	}
	for _, st := range stages {
		for _, of := range []int{piece, estimate.Whole} {
			all = append(all, s.optionEntries(i, c, st, of, faults)...)
		}
	}
	return all
}

// optionEntries are those of one stage, of option i as the commission c.
func (s *Sheet) optionEntries(i int, c estimate.Commission, st *estimate.Stage, piece int, faults fault.List) []estimate.Entry {
	o := s.quote.Commission.Options[i]
	entries := estimate.Entries(c, s.desk.shop, st, piece, nil)
	for k := range entries {
		e := &entries[k]
		own := e.Typed
		e.Typed, _ = o.Says(piece, e.Field.Path())
		if base := s.typed(piece, e.Field.Path()); base != "" {
			e.Start = base
		}
		if own != e.Typed {
			e.Understood = ""
		}
		if x, ok := faults.At(fmt.Sprintf("options.%d.%s", i, e.Where())); ok {
			e.Fault = &x
		}
	}
	return entries
}

// typed is what the quote has in an input.
func (s *Sheet) typed(piece int, path string) string {
	if piece == estimate.Whole {
		return s.quote.Commission.Inputs[path]
	}
	return s.quote.Commission.Pieces[piece].Inputs[path]
}
