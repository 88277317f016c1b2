package ui

import (
	"context"

	"meltwright/internal/quote"
)

// pageSize is how many quotes are read at once.
const pageSize = 100

// pager reads the quotes that match a filter, those first that are seen: a list
// of ten thousand is there at once.
type pager struct {
	w      *Window
	filter quote.Filter
	turn   int // counted up by every other filter: answers to earlier ones are dropped
	landed int // the last of them that was answered
	pages  map[int][]quote.Summary
	asked  map[int]bool
	total  int
	// told is called on the window's goroutine when there is something new to
	// show, with an error where it could not be read.
	told func(err error)
}

// ask begins anew with a filter.
func (p *pager) ask(f quote.Filter) {
	p.turn++
	p.filter = f
	p.asked = map[int]bool{}
	p.fetch(0)
}

// settled tells whether what is shown answers the last filter.
func (p *pager) settled() bool { return p.landed == p.turn }

// fetch reads one page, unless it was asked for already.
func (p *pager) fetch(page int) {
	if p.asked[page] {
		return
	}
	p.asked[page] = true
	turn, d, f := p.turn, p.w.desk, p.filter
	f.Limit, f.Offset = pageSize, page*pageSize
	p.w.do(func() func() {
		rows, total, err := d.List(context.Background(), f)
		return func() { p.take(turn, page, rows, total, err) }
	})
}

func (p *pager) take(turn, page int, rows []quote.Summary, total int, err error) {
	if turn != p.turn {
		return
	}
	if page == 0 {
		p.landed = turn
	}
	if err == nil {
		if page == 0 {
			p.pages = map[int][]quote.Summary{}
		}
		p.pages[page], p.total = rows, total
	}
	p.told(err)
}

// at gives row i, or false while it is still being read.
func (p *pager) at(i int) (quote.Summary, bool) {
	rows, ok := p.pages[i/pageSize]
	if !ok {
		p.fetch(i / pageSize)
		return quote.Summary{}, false
	}
	if n := i % pageSize; n < len(rows) {
		return rows[n], true
	}
	return quote.Summary{}, false
}
