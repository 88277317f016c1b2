package kit

import (
	"fyne.io/fyne/v2"
)

// stripRow is one row of a strip: a few objects that are placed together.
type stripRow interface {
	objects() []fyne.CanvasObject
	place(y, width, height float32)
	dress()
}

// strip is a column of rows of one height, of which only those within a band
// exist; the same few rows serve wherever the band is.
type strip struct {
	make func() stripRow
	fill func(row stripRow, i int)

	count         int
	height, width float32
	top, bottom   float32 // the band
	first, last   int     // rows shown: first up to but not including last
	pool          []stripRow
	seen          []fyne.CanvasObject
}

// row is the pool's row that serves index i.
func (s *strip) row(i int) stripRow { return s.pool[i%len(s.pool)] }

// reach computes which rows the band touches, and sees that there are enough.
// It tells whether other rows are shown than before.
func (s *strip) reach() bool {
	first, last := 0, 0
	if s.height > 0 && s.bottom > s.top {
		first = max(0, int(s.top/s.height))
		last = min(s.count, int(s.bottom/s.height)+1)
		first = min(first, last)
	}
	grown := false
	for len(s.pool) < last-first {
		s.pool = append(s.pool, s.make())
		grown = true
	}
	changed := grown || first != s.first || last != s.last
	s.first, s.last = first, last
	return changed
}

// lay shows the rows that the band touches. Rows that were shown already stay as
// they are unless all is set. It tells whether other objects are shown.
func (s *strip) lay(all bool) bool {
	before, until, many := s.first, s.last, len(s.pool)
	changed := s.reach()
	all = all || len(s.pool) != many
	for i := s.first; i < s.last; i++ {
		row := s.row(i)
		if all || i < before || i >= until {
			s.fill(row, i)
			row.place(float32(i)*s.height, s.width, s.height)
		}
	}
	if changed || s.seen == nil {
		s.gather()
	}
	return changed
}

// gather lists the shown rows' objects.
func (s *strip) gather() {
	s.seen = s.seen[:0]
	for i := s.first; i < s.last; i++ {
		s.seen = append(s.seen, s.row(i).objects()...)
	}
}

// refill says again what row i shows, if it is shown.
func (s *strip) refill(i int) {
	if i >= s.first && i < s.last {
		s.fill(s.row(i), i)
	}
}

// dress gives all rows the theme's colours and sizes.
func (s *strip) dress() {
	for _, row := range s.pool {
		row.dress()
	}
}
