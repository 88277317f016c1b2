package desk

import (
	"fmt"
	"slices"

	"meltwright/internal/estimate"
)

// AddPiece adds an empty piece at the end and gives its number.
func (s *Sheet) AddPiece() int {
	n := len(s.quote.Commission.Pieces)
	s.Change("", func(c *estimate.Commission) {
		c.Pieces = append(c.Pieces, estimate.Piece{Name: fmt.Sprintf("Piece %d", n+1)})
	})
	return n
}

// CopyPiece adds a copy of piece i after it and gives the copy's number.
func (s *Sheet) CopyPiece(i int) int {
	s.Change("", func(c *estimate.Commission) {
		p := c.Pieces[i].Clone()
		p.Name = copyOf(p.Name)
		c.Pieces = slices.Insert(c.Pieces, i+1, p)
		addOptionPiece(c, i+1, i)
	})
	return i + 1
}

// RemovePiece takes piece i away; the last one stays, because a commission of
// nothing has no price.
func (s *Sheet) RemovePiece(i int) {
	if len(s.quote.Commission.Pieces) > 1 {
		s.Change("", func(c *estimate.Commission) {
			c.Pieces = slices.Delete(c.Pieces, i, i+1)
			removeOptionPiece(c, i)
			s.keepSizes(c, slices.Delete(counted(len(c.Pieces)+1), i, i+1))
		})
	}
}

// MovePiece moves piece i by so many places, as far as there are, and gives its
// new number.
func (s *Sheet) MovePiece(i, by int) int {
	to := max(0, min(i+by, len(s.quote.Commission.Pieces)-1))
	if to != i {
		s.Change("", func(c *estimate.Commission) {
			move(c.Pieces, i, to)
			moveOptionPiece(c, i, to)
			order := counted(len(c.Pieces))
			move(order, i, to)
			s.keepSizes(c, order)
		})
	}
	return to
}

// counted are the numbers of n pieces, in order.
func counted(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// move takes the element at i to place to; those between close up.
func move[T any](list []T, i, to int) {
	x := list[i]
	copy(list[i:], list[i+1:])
	copy(list[to+1:], list[to:len(list)-1])
	list[to] = x
}

// NamePiece types the name of piece i.
func (s *Sheet) NamePiece(i int, name string) {
	s.Change(fmt.Sprintf("piece.%d.name", i), func(c *estimate.Commission) { c.Pieces[i].Name = name })
}

// AddSolid adds a solid of that shape to piece i and gives its number.
func (s *Sheet) AddSolid(i int, shape string) int {
	n := len(s.quote.Commission.Pieces[i].Solids)
	s.Change("", func(c *estimate.Commission) {
		c.Pieces[i].Solids = append(c.Pieces[i].Solids, map[string]string{"shape": shape})
	})
	return n
}

// SetSolid types into one cell of solid n of piece i: its shape, count, ends or
// a size.
func (s *Sheet) SetSolid(i, n int, key, text string) {
	s.Change(fmt.Sprintf("solid.%d.%d.%s", i, n, key), func(c *estimate.Commission) {
		if text == "" {
			delete(c.Pieces[i].Solids[n], key)
		} else {
			c.Pieces[i].Solids[n][key] = text
		}
	})
}

// RemoveSolid takes solid n of piece i away.
func (s *Sheet) RemoveSolid(i, n int) {
	s.Change("", func(c *estimate.Commission) { c.Pieces[i].Solids = slices.Delete(c.Pieces[i].Solids, n, n+1) })
}

// AddExtra adds an own line to a stage and gives its number. It costs nothing
// until it is given a rate.
func (s *Sheet) AddExtra(stage string) int {
	n := len(s.quote.Commission.Extras)
	s.Change("", func(c *estimate.Commission) {
		c.Extras = append(c.Extras, estimate.Extra{Stage: stage, Item: "Own line", Quantity: "1", Rate: "0"})
	})
	return n
}

// SetExtra changes own line n; change gets the line to change. Part names what
// is changed, so that typing on in it is one step of undo.
func (s *Sheet) SetExtra(n int, part string, change func(*estimate.Extra)) {
	s.Change(fmt.Sprintf("extra.%d.%s", n, part), func(c *estimate.Commission) { change(&c.Extras[n]) })
}

// RemoveExtra takes own line n away.
func (s *Sheet) RemoveExtra(n int) {
	s.Change("", func(c *estimate.Commission) { c.Extras = slices.Delete(c.Extras, n, n+1) })
}
