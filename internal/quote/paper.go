package quote

import (
	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// Paper is what documents are made of: a quote with its estimate, at one date.
type Paper struct {
	Quote    Quote
	Estimate *estimate.Estimate
	Shop     *shop.Shop
	Date     string // of the document, ISO
	Until    string // the quote stands until, ISO
}
