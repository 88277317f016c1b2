package desk

import (
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/risk"
)

// Ranges lists what varies in the quote, with the three points of each, and what
// is wrong with those that were typed. There are none while the quote has faults.
func (s *Sheet) Ranges() ([]risk.Factor, fault.List) {
	list, err := risk.Factors(s.quote.Commission, s.desk.shop)
	return list, fault.All(err)
}

// Range gives the texts typed for low, likely and high of what varies.
func (s *Sheet) Range(f risk.Factor) [3]string {
	in := s.quote.Commission.Ranges
	if f.Piece != estimate.Whole {
		in = s.quote.Commission.Pieces[f.Piece].Ranges
	}
	return risk.Parts(in[f.Key])
}

// SetRange types low, likely and high of what varies; none of them gives it the
// shop book's again. Typing on in the same is one step of undo.
func (s *Sheet) SetRange(f risk.Factor, parts [3]string) {
	c := s.quote.Commission.WithRange(f.Piece, f.Key, risk.Joined(parts))
	s.change(f.Where(), state{c, s.quote.Words})
}

// DropStrayRanges takes away the ranges of what does not vary, which files may
// bring along.
func (s *Sheet) DropStrayRanges() {
	list, faults := s.Ranges()
	known := map[string]bool{}
	for _, f := range list {
		known[f.Where()] = true
	}
	s.EndTyping()
	s.Change("", func(c *estimate.Commission) {
		for _, x := range faults {
			if key, whole := strings.CutPrefix(x.Where, "range."); whole && !known[x.Where] {
				delete(c.Ranges, key)
			}
			for i := range c.Pieces {
				at := risk.Factor{Piece: i}.Where()
				if key, here := strings.CutPrefix(x.Where, at); here && !known[x.Where] {
					delete(c.Pieces[i].Ranges, key)
				}
			}
		}
	})
}

// unranged is a commission without the ranges typed for it: they are what the
// shop thinks, and no part of what it offers.
func unranged(c estimate.Commission) estimate.Commission {
	c = c.Clone()
	c.Ranges = nil
	for i := range c.Pieces {
		c.Pieces[i].Ranges = nil
	}
	return c
}
