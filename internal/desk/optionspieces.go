package desk

import (
	"maps"
	"slices"

	"meltwright/internal/estimate"
)

// The options follow what happens to the pieces: what they say of a piece goes
// where the piece goes.

// addOptionPiece makes room in the options for a new piece i; a copy takes over
// what they say of the piece it is a copy of.
func addOptionPiece(c *estimate.Commission, i, copied int) {
	for k := range c.Options {
		o := &c.Options[k]
		var in map[string]string
		if copied >= 0 && copied < len(o.Pieces) {
			in = maps.Clone(o.Pieces[copied])
		}
		if i < len(o.Pieces) || len(in) > 0 {
			for len(o.Pieces) < i {
				o.Pieces = append(o.Pieces, nil)
			}
			o.Pieces = slices.Insert(o.Pieces, i, in)
		}
	}
}

// removeOptionPiece takes what the options say of piece i away.
func removeOptionPiece(c *estimate.Commission, i int) {
	for k := range c.Options {
		if o := &c.Options[k]; i < len(o.Pieces) {
			o.Pieces = slices.Delete(o.Pieces, i, i+1)
		}
	}
}

// moveOptionPiece moves what the options say of piece i to place to.
func moveOptionPiece(c *estimate.Commission, i, to int) {
	for k := range c.Options {
		o := &c.Options[k]
		for len(o.Pieces) > 0 && len(o.Pieces) <= max(i, to) {
			o.Pieces = append(o.Pieces, nil)
		}
		if len(o.Pieces) > 0 {
			move(o.Pieces, i, to)
		}
	}
}

// keepSizes keeps the sizes of the options where another piece has become the
// first, whose height an option's is: from says which piece each was before.
func (s *Sheet) keepSizes(c *estimate.Commission, from []int) {
	was := s.quote.Commission
	if from[0] == 0 {
		return
	}
	for k := range c.Options {
		before, err := was.Options[k].Apply(was, s.desk.shop)
		if err != nil || c.Options[k].Height == "" {
			continue // what cannot be read stays as it was typed
		}
		var want []string
		old := estimate.RuleOf(before, s.desk.shop).Heights()
		for _, i := range from {
			want = append(want, old[i])
		}
		c.Options[k] = s.sized(c.Options[k], *c, want)
	}
}

// sized is an option whose pieces have these heights: by one height of its own,
// from which the others follow, or each by its own where they do not.
func (s *Sheet) sized(o estimate.Option, c estimate.Commission, heights []string) estimate.Option {
	o.Height = heights[0]
	if d, err := o.Apply(c, s.desk.shop); err == nil && slices.Equal(estimate.RuleOf(d, s.desk.shop).Heights(), heights) {
		return o
	}
	o.Height = ""
	for p, text := range heights {
		o = o.With(p, estimate.HeightPath(), text)
	}
	return o
}
