package desk

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// lettered is what papers for the shop can say of the letters that they lack.
type lettered interface {
	MissingOnCostSheet(p Paper) []rune
	MissingOnOrderList(p Paper) []rune
	MissingOnTraveller(p Paper) []rune
}

// Lost takes from the sheet as it stands all that a paper is made of, and gives
// back what says which of its letters cannot be printed, as LostLetters does;
// that may run on any goroutine while somebody types on. It is nil where all
// letters are usual ones, where the papers cannot tell, and for tables, which have
// every letter. The error is the sheet's faults.
func (s *Sheet) Lost(which Print) (func(context.Context) ([]string, error), error) {
	missing := s.desk.missingOn(which)
	if missing == nil {
		return nil, nil
	}
	p, err := s.Paper()
	if err != nil {
		return nil, err
	}
	if allUsual(p) {
		return nil, nil
	}
	album := s.desk.album
	return func(ctx context.Context) (_ []string, err error) {
		if which == Proposal {
			if p.Pictures, err = album.pictures(ctx, p.Quote.Pictures); err != nil {
				return nil, err
			}
		}
		runes, err := missing(p)
		if which != Proposal {
			p.Quote.Words = nil // they are for the client's paper
		}
		return LostLetters(p, runes), err
	}, nil
}

// usual are letters that every font of the papers has: Latin, and those that the
// program itself writes.
var usual = sync.OnceValue(func() map[rune]bool {
	data, _ := shop.Start().Encode() // what it cannot write is nothing odd
	set := map[rune]bool{}
	for _, r := range string(data) + "–—‘’“”…•€" {
		set[r] = true
	}
	return set
})

// allUsual tells, without setting it, whether a paper has usual letters alone.
func allUsual(p Paper) bool {
	odd := func(r rune) bool { return r > 0x24f && !usual()[r] }
	for _, place := range placesOf(p) {
		if strings.ContainsFunc(place.words, odd) {
			return false
		}
	}
	for _, x := range p.Quote.Pictures {
		if strings.ContainsFunc(x.Caption, odd) {
			return false
		}
	}
	book, err := p.Shop.Book.Encode()
	return err == nil && !strings.ContainsFunc(string(book), odd)
}

// missingOn is what lists the letters that a paper lacks; nil for none.
func (d *Desk) missingOn(which Print) func(Paper) ([]rune, error) {
	show, shows := d.papers.(Preview)
	own, owns := d.papers.(lettered)
	sure := func(list func(Paper) []rune) func(Paper) ([]rune, error) {
		return func(p Paper) ([]rune, error) { return list(p), nil }
	}
	switch {
	case which == Proposal && shows:
		return show.Missing
	case which == CostSheet && owns:
		return sure(own.MissingOnCostSheet)
	case which == OrderList && owns:
		return sure(own.MissingOnOrderList)
	case which == Traveller && owns:
		return sure(own.MissingOnTraveller)
	}
	return nil
}

// LostLetters says where the letters stand that cannot be printed, a sentence
// without its stop for each place, and which they are. Each has its number in
// Unicode, as whoever reads this may lack its drawing too.
func LostLetters(p Paper, missing []rune) (said []string) {
	left := slices.Clone(missing)
	say := func(where string, runes []rune) {
		if len(runes) > 0 {
			said = append(said, where+" letters that the fonts lack: "+namedLetters(runes)+"; a question mark stands for each")
		}
	}
	for _, place := range placesOf(p) {
		var here []rune
		for _, r := range place.words {
			if slices.Contains(missing, r) && !slices.Contains(here, r) {
				here = append(here, r)
				left = slices.DeleteFunc(left, func(x rune) bool { return x == r })
			}
		}
		say(place.where, here)
	}
	say("The paper has", left)
	return said
}

// namedLetters lists letters with their numbers, the first dozen of them.
func namedLetters(runes []rune) string {
	const most = 12
	var names []string
	for _, r := range runes[:min(len(runes), most)] {
		names = append(names, fmt.Sprintf("%c (U+%04X)", r, r))
	}
	text := strings.Join(names, ", ")
	if more := len(runes) - most; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// place is where somebody wrote words that come on papers.
type place struct{ where, words string }

// placesOf lists what a person wrote for a paper, in the order of the quote.
func placesOf(p Paper) []place {
	c := p.Quote.Commission
	all := []place{{"The title has", c.Title}, {"The client’s name has", c.Client}, {"The place has", c.Place}}
	for i, piece := range c.Pieces {
		all = append(all, place{fmt.Sprintf("The name of piece %d has", i+1), piece.Name})
	}
	for i, x := range c.Extras {
		all = append(all, place{fmt.Sprintf("Own line %d has", i+1), x.Item + x.Unit})
	}
	for i, o := range c.Options {
		all = append(all, place{fmt.Sprintf("Option %d has", i+1), o.Name + o.Why})
	}
	for _, key := range slices.Sorted(maps.Keys(p.Quote.Words)) {
		all = append(all, place{"The words of “" + key + "” have", p.Quote.Words[key]})
	}
	n := 0
	for _, x := range p.Pictures {
		if x.Name != quote.Logo {
			n++
			all = append(all, place{fmt.Sprintf("The caption of picture %d has", n), x.Caption})
		}
	}
	return append(all, place{"The shop’s name has", p.Shop.Book.Shop})
}
