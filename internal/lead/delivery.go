package lead

import (
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// deliver has crates, freight, footing, site works and the installation.
func (b *builder) deliver() {
	ready := b.done
	then := func(j job) { ready = []int32{b.add(j)} }
	if b.line(estimate.Whole, "delivery", "Crates") {
		if n := days(b.book(shop.WaitCrates), 1); n > 0 {
			then(job{name: "Crates and loading", sort: idle, piece: estimate.Whole, stage: "delivery", room: baseShop, skill: nobody, days: n, after: ready})
		}
		if n := days(b.whole(distance)/b.book(shop.FreightDay), 1); n > 0 {
			then(job{name: "Freight", sort: idle, piece: estimate.Whole, stage: "delivery", room: road, skill: nobody, days: n, after: ready})
		}
	}
	ready = slices.Concat(ready, b.ground())
	if h := b.hours[len(b.estimate.Pieces)][installing]; h > 0 {
		j := b.hands("Install", estimate.Whole, "delivery", site, installer, h, ready...)
		j.sort, j.people = unbroken, min(count(b.whole(siteCrew)), b.floor.heads(installer))
		then(j)
	}
}

// ground has what is made ready on the site, after engineer and permits: it
// does not wait for the bronze.
func (b *builder) ground() []int32 {
	out := slices.Concat(b.engineer, b.permits)
	if b.line(estimate.Whole, "delivery", "Site works") {
		out = append(out, b.add(b.wait("Site works", estimate.Whole, "delivery", site, days(b.book(shop.WaitSite), 7), b.permits...)))
	}
	for p := range b.estimate.Pieces {
		if b.line(p, "base", "Footing") {
			out = append(out, b.add(b.wait(b.of("Footing", p), p, "base", site, days(b.book(shop.WaitFooting), 7), slices.Concat(b.engineer, b.permits)...)))
		}
	}
	return out
}
