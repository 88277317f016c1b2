package desk

import (
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// refers is what a quote refers to besides its commission and words.
type refers struct {
	client   quote.ClientID
	call     quote.CallID
	pictures []quote.Shown
}

func (s *Sheet) refers() refers { return refers{s.quote.Client, s.quote.Call, s.quote.Pictures} }

// refer takes what the quote refers to. Other pictures are offered, and make what
// was issued a draft again.
func (s *Sheet) refer(to refers) {
	if !slices.Equal(to.pictures, s.quote.Pictures) && s.quote.State != quote.Draft && s.quote.State.May(quote.Draft) {
		s.quote.State = quote.Draft
	}
	s.quote.Client, s.quote.Call, s.quote.Pictures = to.client, to.call, to.pictures
}

// SetClient makes the quote one for a client, by whose name it goes on papers; the
// zero client leaves the name that is typed. One step of undo.
func (s *Sheet) SetClient(c quote.Client) {
	to := s.stands()
	to.client = c.ID
	if c.ID != 0 {
		to.commission = s.quote.Commission.Clone()
		to.commission.Client = c.Name
	}
	s.turn("", to)
}

// SetCall makes the quote an answer to a call: with its client and its site, where
// the quote has none of its own. The zero call makes it one to none. One step of
// undo.
func (s *Sheet) SetCall(c quote.Call, of quote.Client) {
	to := s.stands()
	to.call = c.ID
	to.commission = s.quote.Commission.Clone()
	if c.ID != 0 && to.client == 0 && of.ID != 0 && of.ID == c.Client {
		to.client = of.ID
		if to.commission.Client == "" {
			to.commission.Client = of.Name
		}
	}
	if c.ID != 0 && to.commission.Place == "" {
		to.commission.Place = c.Site
	}
	if c.ID != 0 && to.commission.Title == "" {
		to.commission.Title = c.Title
	}
	s.turn("", to)
}

// SetPlace puts the work at a site, in one step of undo.
func (s *Sheet) SetPlace(site string) {
	s.Change("", func(c *estimate.Commission) { c.Place = site })
}

// signed is the quote with the name of whoever is at the desk.
func (s *Sheet) signed() quote.Quote {
	q := s.quote
	q.By = s.desk.who
	return q
}

// Sign says who is at the desk: the name that steps in a quote's life are kept
// under.
func (d *Desk) Sign(who string) { d.who = who }
