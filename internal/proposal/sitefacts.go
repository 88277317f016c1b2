package proposal

import (
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// site gathers what is said of delivery, site and lifting.
func (o *offer) site(f *facts) {
	p, e, l := o.paper, o.paper.Estimate, o.language
	a := answersOf(p, estimate.Whole, "delivery")
	f.Delivery, f.Reach, f.Site = a["delivery.by"], l.fixed(a["delivery.reach"]), l.number(a["delivery.days"])
	if v := exactInput(p, estimate.Whole, "delivery.distance"); v.Num > 0 {
		f.Distance = l.fixed(a["delivery.distance"])
	}
	f.Heaviest = l.size(quantity.KindMass, e.Lift.Kg, e.System)
	f.Heavy = e.Lift.Kg > p.Shop.Num(shop.HandsLimit)
	for _, line := range e.Lines {
		switch {
		case line.Stage == "base" && line.Item == itemEngineer:
			f.Engineer = true
		case line.Stage == "delivery" && line.Item == e.Lift.By:
			f.Crane = line.Item
		case line.Item == itemPermits:
			f.Permits = true
		case line.Item == itemSiteWorks:
			f.SiteWorks = true
		case line.Item == itemRecords:
			f.Records = true
		}
	}
	f.BaseParts, f.DeliveryParts = o.partsOf("base"), o.partsOf("delivery")
	f.Frame, f.Anchors = has(e, itemFrame), has(e, itemAnchors)
	for _, x := range p.Quote.Commission.Extras {
		f.Extras = append(f.Extras, x.Item)
	}
	footings := map[string]bool{}
	for _, pc := range f.Pieces {
		footings[pc.Footing] = true
	}
	for _, by := range []string{"by others", "by us"} {
		if footings[by] {
			f.Footing = by
		}
	}
}

// The estimate's names of lines that a proposal speaks of; a test holds that
// the estimate has them.
const (
	itemEngineer  = "Engineer's design and stamp"
	itemPermits   = "Permits"
	itemSiteWorks = "Site works"
	itemRecords   = "Photographs and records"
	itemFrame     = "Inner frame, stainless steel"
	itemAnchors   = "Anchors"
	itemFooting   = "Footing, dug, formed and poured"
	itemCrates    = "Crates"
	itemCrew      = "Installation crew"
	itemMounting  = "Mounting on the plinth"
	itemMetal     = "Bronze used up, " // and the alloy
)

// contents are the lines of base and delivery that a price names as covered, by
// the words for them.
var contents = []struct{ item, words string }{
	{itemMounting, "plinth"},
	{itemFrame, "frame"},
	{itemAnchors, "anchors"},
	{itemFooting, "footing"},
	{itemEngineer, "engineer"},
	{itemCrates, "crates"},
	{"Freight by weight", "freight"},
	{"Freight by distance", "freight"},
	{"Hoist", "lifting"},
	{craneLine, "lifting"},
	{itemCrew, "crew"},
	{itemPermits, "permits"},
	{itemSiteWorks, "site"},
	{itemRecords, "records"},
}

// craneLine stands for the line of whatever crane lifts the work.
const craneLine = "crane"

// partsOf says what of a stage is in the price, by its lines, so that nothing is
// named that nobody is paid for.
func (o *offer) partsOf(stage string) string {
	var words []string
	for _, c := range contents {
		item := c.item
		if item == craneLine {
			item = o.paper.Estimate.Lift.By
		}
		label := o.label("has-" + c.words)
		isThere := slices.ContainsFunc(o.paper.Estimate.Lines, func(l estimate.Line) bool { return l.Stage == stage && l.Item == item })
		if isThere && !slices.Contains(words, label) {
			words = append(words, label)
		}
	}
	return strings.Join(words, ", ")
}

// has is true where some line is of an item.
func has(e *estimate.Estimate, item string) bool {
	return slices.ContainsFunc(e.Lines, func(l estimate.Line) bool { return l.Item == item })
}

// leaded lists those of the estimate's alloys that hold lead.
func leaded(s *shop.Shop, e *estimate.Estimate) (out []string) {
	for _, a := range s.Alloys {
		poured := slices.ContainsFunc(e.Pieces, func(p estimate.PieceResult) bool { return p.Alloy == a.Name })
		if poured && strings.Contains(a.Caution, "lead") {
			out = append(out, a.Name)
		}
	}
	return out
}
