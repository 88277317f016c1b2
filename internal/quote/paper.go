package quote

import (
	"meltwright/internal/estimate"
	"meltwright/internal/lead"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// Paper is what documents are made of: a quote with its estimate, at one date.
type Paper struct {
	Quote    Quote
	Estimate *estimate.Estimate
	Shop     *shop.Shop
	Date     string         // of the document, ISO
	Until    string         // the quote stands until, ISO
	Start    string         // when the work would begin, ISO; empty leaves the timeline out
	Booked   []lead.Booking // what accepted work takes of the shop from then on
	Range    *risk.Range    // where cost and price come to lie; nil where nobody drew it
	Pictures []Picture
}

// Picture is a photograph, or a mark, that goes on papers.
type Picture struct {
	// Name says what it is for: Logo and Cover have their places, and all others
	// are shown in their order. It names the picture in faults.
	Name    string
	Data    []byte // as the file has it: JPEG, PNG, GIF or WebP
	Caption string
}

// The pictures that have places of their own.
const (
	Logo  = "logo"
	Cover = "cover"
)
