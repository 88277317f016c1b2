package desk

import (
	"io"

	"meltwright/internal/fault"
)

// ShopPapers writes the papers that the work is done by. Papers that can are
// both; those that cannot have none of these.
type ShopPapers interface {
	// OrderList writes what is to be ordered, by supplier and in whole packs, as PDF.
	OrderList(w io.Writer, p Paper) error
	// OrderSheet writes the same as comma-separated values.
	OrderSheet(w io.Writer, p Paper) error
	// Traveller writes a page for each section on its way through the shop, as PDF.
	Traveller(w io.Writer, p Paper) error
	// Lines writes every line of the estimate as comma-separated values.
	Lines(w io.Writer, p Paper) error
}

// errNoShopPapers is told by a program that cannot write them.
var errNoShopPapers = fault.Fault{Problem: "This program was built without papers for the shop", Remedy: "use one that was built with them"}

// WriteOrderList writes the order list; the faults of the sheet come back as
// error.
func (s *Sheet) WriteOrderList(w io.Writer) error { return s.writeShop(w, ShopPapers.OrderList) }

// WriteOrderSheet writes the order list as comma-separated values.
func (s *Sheet) WriteOrderSheet(w io.Writer) error { return s.writeShop(w, ShopPapers.OrderSheet) }

// WriteTraveller writes a page for each section on its way through the shop.
func (s *Sheet) WriteTraveller(w io.Writer) error { return s.writeShop(w, ShopPapers.Traveller) }

// WriteLines writes every line of the estimate as comma-separated values.
func (s *Sheet) WriteLines(w io.Writer) error { return s.writeShop(w, ShopPapers.Lines) }

// writeShop writes one of the papers that the work is done by.
func (s *Sheet) writeShop(w io.Writer, write func(ShopPapers, io.Writer, Paper) error) error {
	p, err := s.Paper()
	if err != nil {
		return err
	}
	papers, ok := s.desk.papers.(ShopPapers)
	if !ok {
		return errNoShopPapers
	}
	return write(papers, w, p)
}
