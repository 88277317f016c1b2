package desk

import (
	"context"
	"io"

	"meltwright/internal/fault"
)

// Print says which paper is meant.
type Print int

// The papers of a quote.
const (
	Proposal Print = iota
	CostSheet
	Workbook
)

// Ready takes all that a paper is made of from the sheet as it stands, and gives
// back what writes it; that may run on any goroutine while somebody types on.
// The error is the sheet's faults.
func (s *Sheet) Ready(which Print) (func(io.Writer) error, error) {
	p, err := s.Paper()
	if err != nil {
		return nil, err
	}
	papers := s.desk.papers
	if papers == nil {
		return nil, fault.Fault{Problem: "This program was built without papers", Remedy: "use one that was built with them"}
	}
	write := papers.Proposal
	switch which {
	case CostSheet:
		write = papers.CostSheet
	case Workbook:
		write = papers.Workbook
	}
	fill := s.filling(which, p)
	return func(w io.Writer) error {
		p, err := fill(context.Background())
		if err != nil {
			return err
		}
		return write(w, p)
	}, nil
}
