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
	OrderList  // what is to be ordered, as PDF
	OrderSheet // the same as comma-separated values
	Traveller  // a page a section
	Lines      // every line, as comma-separated values
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
	write, err := writerOf(papers, which)
	if err != nil {
		return nil, err
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

// writerOf is what writes a paper. The error is told by papers that cannot.
func writerOf(papers Papers, which Print) (func(io.Writer, Paper) error, error) {
	switch which {
	case CostSheet:
		return papers.CostSheet, nil
	case Workbook:
		return papers.Workbook, nil
	case OrderList, OrderSheet, Traveller, Lines:
		own, ok := papers.(ShopPapers)
		if !ok {
			return nil, errNoShopPapers
		}
		return map[Print]func(io.Writer, Paper) error{
			OrderList: own.OrderList, OrderSheet: own.OrderSheet, Traveller: own.Traveller, Lines: own.Lines,
		}[which], nil
	}
	return papers.Proposal, nil
}
