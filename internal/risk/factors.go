package risk

import (
	"strconv"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// Factor is one uncertain input: what it multiplies, and its three points as
// factors on the estimate's own value.
type Factor struct {
	Key    string // under which the user types its range: "hours.metalwork"
	Piece  int    // whose Ranges that is in, or estimate.Whole
	Name   string // "Hours, Metalwork"
	Points Points
	Usual  Points // the shop book's
	Origin field.Origin
	Typed  string // as typed for this commission; empty takes the shop book's
	// Shared is true for hours, which a shop's good or bad year moves together.
	Shared bool
	apply  func(v *estimate.Variation, x float64)
}

// The keys of what a commission's ranges are typed under; hours have that of
// their stage behind them.
const (
	AreaKey     = "area"
	WallKey     = "wall"
	HoursKey    = "hours."
	MaterialKey = "material"
	MetalKey    = "metal"
	FreightKey  = "freight"
	SiteKey     = "site"
)

// Factors lists the uncertain inputs of a commission with the three points that
// are typed for it, or those of the shop book by how well each is known. The
// error is a fault.List: of the commission, and then there are no factors, or of
// its ranges, each by its field, and then those that cannot be read are the shop
// book's.
func Factors(c estimate.Commission, s *shop.Shop) ([]Factor, error) {
	m, err := estimate.NewModel(c, s)
	if err != nil {
		return nil, err
	}
	return factors(m, c, s)
}

func factors(m *estimate.Model, c estimate.Commission, s *shop.Shop) ([]Factor, error) {
	out := append(pieceFactors(m, s), hoursFactors(m, s)...)
	price := func(key, name string, low, high shop.Key, apply func(*estimate.Variation, float64)) {
		out = append(out, between(s, estimate.Whole, key, name, low, high, apply))
	}
	price(MaterialKey, "Prices of materials", shop.MaterialLow, shop.MaterialHigh, func(v *estimate.Variation, x float64) { v.Material = x })
	price(MetalKey, "Price of ingot", shop.MetalLow, shop.MetalHigh, func(v *estimate.Variation, x float64) { v.Metal = x })
	price(FreightKey, "Freight and travel", shop.FreightLow, shop.FreightHigh, func(v *estimate.Variation, x float64) { v.Freight = x })
	price(SiteKey, "Site and lifting", shop.SiteLow, shop.SiteHigh, func(v *estimate.Variation, x float64) { v.Site = x })
	return out, typeRanges(out, m, c)
}

// pieceFactors are the surface of each piece, as sure as the way it is known,
// and its wall as cast.
func pieceFactors(m *estimate.Model, s *shop.Shop) (out []Factor) {
	for i := range m.Pieces() {
		low, high := shop.AreaFormulaLow, shop.AreaFormulaHigh
		switch m.Known(i) {
		case field.Typed:
			low, high = shop.AreaTypedLow, shop.AreaTypedHigh
		case field.Scanned:
			low, high = shop.AreaScanLow, shop.AreaScanHigh
		}
		out = append(out,
			between(s, i, AreaKey, "Surface of "+m.Name(i), low, high, func(v *estimate.Variation, x float64) { v.Area[i] = x }),
			between(s, i, WallKey, "Wall as cast of "+m.Name(i), shop.WallLow, shop.WallHigh, func(v *estimate.Variation, x float64) { v.Wall[i] = x }))
	}
	return out
}

// hoursFactors are the hours of each stage that the shop works in.
func hoursFactors(m *estimate.Model, s *shop.Shop) (out []Factor) {
	for at, st := range estimate.Stages {
		if m.HasHours(st) {
			f := between(s, estimate.Whole, HoursKey+st.ID, "Hours, "+st.Name, shop.HoursLow, shop.HoursHigh, func(v *estimate.Variation, x float64) { v.Hours[at] = x })
			f.Shared = true
			out = append(out, f)
		}
	}
	return out
}

// between is a factor that is most likely 1, with its ends from the shop book.
func between(s *shop.Shop, piece int, key, name string, low, high shop.Key, apply func(*estimate.Variation, float64)) Factor {
	usual := Points{1 - s.Num(low), 1, 1 + s.Num(high)}
	return Factor{Key: key, Piece: piece, Name: name, Points: usual, Usual: usual, Origin: s.Origin(low), apply: apply}
}

// Where is the path of faults in the factor's range: "range.material", or
// "0.range.area" of piece 0.
func (f Factor) Where() string { return where(f.Piece, f.Key) }

func where(piece int, key string) string {
	if piece == estimate.Whole {
		return "range." + key
	}
	return strconv.Itoa(piece) + ".range." + key
}
