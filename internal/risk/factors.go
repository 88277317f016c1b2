package risk

import (
	"fmt"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// Factor is one uncertain input: what it multiplies, and its three points as
// factors on the estimate's own value.
type Factor struct {
	Name   string
	Points Points
	Origin field.Origin
	// Shared is true for hours, which a shop's good or bad year moves together.
	Shared bool
	apply  func(v *estimate.Variation, x float64)
}

// Factors lists the uncertain inputs of a commission with the three points of
// the shop book, by how well each is known.
func Factors(m *estimate.Model, s *shop.Shop) []Factor {
	var out []Factor
	for i := range m.Pieces() {
		low, high := shop.AreaFormulaLow, shop.AreaFormulaHigh
		switch m.Known(i) {
		case field.Typed:
			low, high = shop.AreaTypedLow, shop.AreaTypedHigh
		case field.Scanned:
			low, high = shop.AreaScanLow, shop.AreaScanHigh
		}
		out = append(out,
			between(s, fmt.Sprintf("Surface of %s", m.Name(i)), low, high, func(v *estimate.Variation, x float64) { v.Area[i] = x }),
			between(s, fmt.Sprintf("Wall as cast of %s", m.Name(i)), shop.WallLow, shop.WallHigh, func(v *estimate.Variation, x float64) { v.Wall[i] = x }))
	}
	for at, st := range estimate.Stages {
		if !m.HasHours(st) {
			continue
		}
		f := between(s, "Hours, "+st.Name, shop.HoursLow, shop.HoursHigh, func(v *estimate.Variation, x float64) { v.Hours[at] = x })
		f.Shared = true
		out = append(out, f)
	}
	return append(out,
		between(s, "Prices of materials", shop.MaterialLow, shop.MaterialHigh, func(v *estimate.Variation, x float64) { v.Material = x }),
		between(s, "Price of ingot", shop.MetalLow, shop.MetalHigh, func(v *estimate.Variation, x float64) { v.Metal = x }),
		between(s, "Freight and travel", shop.FreightLow, shop.FreightHigh, func(v *estimate.Variation, x float64) { v.Freight = x }),
		between(s, "Site and lifting", shop.SiteLow, shop.SiteHigh, func(v *estimate.Variation, x float64) { v.Site = x }))
}

// between is a factor that is most likely 1, with its ends from the shop book.
func between(s *shop.Shop, name string, low, high shop.Key, apply func(*estimate.Variation, float64)) Factor {
	return Factor{Name: name, Points: Points{1 - s.Num(low), 1, 1 + s.Num(high)}, Origin: s.Origin(low), apply: apply}
}
