package desk

import (
	"maps"
	"slices"

	"meltwright/internal/estimate"
)

// ChooseOption makes option i the quote, in one step of undo: its inputs become
// the commission's. All other options stay what they are: what they took from
// the quote as it was they now say themselves. The error is the option's faults,
// and nothing is changed.
func (s *Sheet) ChooseOption(i int) error {
	was := s.quote.Commission
	chosen, err := was.Options[i].Apply(was, s.desk.shop)
	if err != nil {
		return err
	}
	if _, err := estimate.Of(chosen, s.desk.shop); err != nil {
		return err
	}
	s.Change("", func(c *estimate.Commission) {
		c.Inputs, c.Pieces = chosen.Inputs, chosen.Pieces
		for k := range c.Options {
			c.Options[k] = s.keepOption(was.Options[k], was, chosen)
		}
	})
	return nil
}

// keepOption gives an option with inputs of its own wherever the commission that
// it belongs to has changed, so that it stays the work it was.
func (s *Sheet) keepOption(o estimate.Option, was, is estimate.Commission) estimate.Option {
	as, err := o.Apply(was, s.desk.shop)
	if err != nil {
		return o
	}
	o = keepInputs(o, estimate.Whole, was.Inputs, is.Inputs)
	height, grown := estimate.HeightPath(), false
	for p := range was.Pieces {
		before, after := was.Pieces[p].Inputs, is.Pieces[p].Inputs
		o = keepInputs(o, p, without(before, height), without(after, height))
		grown = grown || before[height] != after[height]
	}
	if !grown || len(was.Pieces) == 1 && o.Height != "" {
		return o // its own height says all there is to say
	}
	for p := range was.Pieces {
		if text := as.Pieces[p].Inputs[height]; text != "" || is.Pieces[p].Inputs[height] != "" {
			o = o.With(p, height, text)
		}
	}
	return o
}

// keepInputs puts into an option what has changed and it does not say itself.
func keepInputs(o estimate.Option, piece int, was, is map[string]string) estimate.Option {
	for _, path := range slices.Sorted(maps.Keys(both(was, is))) {
		if _, says := o.Says(piece, path); !says && was[path] != is[path] {
			o = o.With(piece, path, was[path])
		}
	}
	return o
}

func both(a, b map[string]string) map[string]string {
	all := maps.Clone(a)
	if all == nil {
		all = map[string]string{}
	}
	maps.Copy(all, b)
	return all
}

func without(in map[string]string, path string) map[string]string {
	out := maps.Clone(in)
	delete(out, path)
	return out
}
