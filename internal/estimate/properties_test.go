package estimate_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// anyCommission draws a commission as a foundry may get it: one to three pieces
// known in any way, in any alloy, any number of casts, any start, any price.
func anyCommission(t *rapid.T) estimate.Commission {
	c := estimate.Commission{Units: rapid.SampledFrom([]string{"", "inch-pound"}).Draw(t, "units"), Inputs: texts{}}
	maybe := func(into texts, path string, values ...string) {
		if v := rapid.SampledFrom(append(values, "")).Draw(t, path); v != "" {
			into[path] = v
		}
	}
	maybe(c.Inputs, "pour.crucible", "Bilge no. 16", "Bilge no. 60", "Bilge no. 90")
	maybe(c.Inputs, "pour.yield", "80 %", "100 %")
	maybe(c.Inputs, "pour.days", "0.5")
	maybe(c.Inputs, "delivery.by", "delivered", "by others")
	maybe(c.Inputs, "delivery.distance", "12 km", "840 km")
	maybe(c.Inputs, "delivery.nights", "2")
	maybe(c.Inputs, "delivery.permits", "350")
	maybe(c.Inputs, "price.overhead_base", "labour")
	maybe(c.Inputs, "price.profit_way", "markup")
	maybe(c.Inputs, "price.fee", "a fixed sum", "a share of cost", "a share of the price")
	maybe(c.Inputs, "price.fee_sum", "4999.99")
	maybe(c.Inputs, "price.agent", "7.5 %")
	maybe(c.Inputs, "price.gallery", "50 %")
	maybe(c.Inputs, "price.step", "0", "0.05", "1", "250")
	maybe(c.Inputs, "price.round", "up")
	maybe(c.Inputs, "price.tax", "Québec", "British Columbia", "Nova Scotia")
	maybe(c.Inputs, "price.payments", "a 33.3; b 33.3; c 33.4", "all 100")
	for i := range rapid.IntRange(1, 3).Draw(t, "pieces") {
		c.Pieces = append(c.Pieces, anyPiece(t, i, maybe))
	}
	if rapid.Bool().Draw(t, "own line") {
		c.Extras = []estimate.Extra{{Stage: "metalwork", Item: "Lettering", Quantity: "24", Unit: "letters", Rate: "18.505"}}
	}
	return c
}

func anyPiece(t *rapid.T, i int, maybe func(texts, string, ...string)) estimate.Piece {
	in := texts{}
	p := estimate.Piece{Name: fmt.Sprintf("Piece %c", 'A'+i), Inputs: in}
	in["form.known_by"] = rapid.SampledFrom([]string{"human figure", "typed area", "animal", "solids", "covered maquette"}).Draw(t, "known by")
	maybe(in, "form.dress", "light clothes", "robes")
	maybe(in, "form.formula", "Mosteller", "Haycock")
	maybe(in, "form.area", "0.35 m²", "6 m²")
	maybe(in, "form.volume", "60 L")
	if in["form.known_by"] == "covered maquette" || in["form.area"] != "6 m²" {
		delete(in, "form.volume") // more than so little surface holds
	}
	maybe(in, "form.animal_mass", "4 kg", "450 kg")
	maybe(in, "form.cover_mass", "20 g", "310 g")
	maybe(in, "form.height_is", "the clay original's")
	maybe(in, "form.alloy", redBrass.name, gunmetal.name)
	maybe(in, "form.casts", "2", "9", "30")
	maybe(in, "form.repeat", "90 %")
	maybe(in, "form.curve", "cumulative average (Wright)")
	maybe(in, "form.start", "their original", "their mould", "their wax", "their digital file")
	maybe(in, "form.difficulty", "0.8", "1.6")
	maybe(in, "form.lugs", "3 kg")
	maybe(in, "form.shrinkage", "0 %")
	maybe(in, "original.made", "print", "milled foam")
	maybe(in, "patina.by", "by others")
	maybe(in, "patina.colours", "3")
	maybe(in, "base.by", "by others")
	maybe(in, "base.plinth", "block", "drum", "tapered block")
	maybe(in, "base.stone", "Marble", "Stainless steel")
	maybe(in, "base.footing", "by us", "by others")
	in["form.height"] = metres(rapid.Float64Range(0.4, 3).Draw(t, "height"))
	in["form.wall"] = metres(rapid.Float64Range(0.003, 0.009).Draw(t, "wall"))
	if in["form.known_by"] == "solids" {
		p.Solids = []map[string]string{
			{"shape": "sphere", "diameter": "0.3 m"},
			{"shape": "frustum", "foot": "0.3 m", "top": "0.2 m", "height": "0.8 m", "ends": "one open"},
			{"shape": "ellipsoid", "count": "2", "length": "0.5 m", "width": "0.2 m", "height": "0.2 m"},
		}
	}
	return p
}

func metres(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) + " m" }

// made estimates what has no faults.
func made(t *rapid.T, tb testing.TB, c estimate.Commission) *estimate.Estimate {
	e, err := estimate.Of(c, theShop(tb))
	if err != nil {
		t.Fatalf("%v", err)
	}
	return e
}

func TestLinesStepsTaxesAndPaymentsAddUpToTheCent(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		e := made(rt, t, anyCommission(rt))
		direct, stages := money.Amount(0), money.Amount(0)
		for _, l := range e.Lines {
			if l.Amount != e.Currency.Times(l.Quantity, l.Rate) || l.Quantity.Exponent() < -l.Places {
				rt.Fatalf("%s: %s × %s is not %v", l.Item, l.QuantityText(), l.Rate, l.Amount)
			}
			direct += l.Amount
		}
		for _, s := range e.Stages {
			stages += s.Amount
			if s.ByOthers && s.Amount != 0 && s.ID != "delivery" {
				rt.Fatalf("%s is by others and costs %v", s.Name, s.Amount)
			}
		}
		price := direct
		for _, p := range e.PriceLines {
			price += p.Amount
		}
		total := price
		for _, x := range e.Taxes {
			if x.Base != e.Price {
				rt.Fatalf("%s is taken on %v", x.Name, x.Base)
			}
			total += x.Amount
		}
		paid := money.Amount(0)
		for _, p := range e.Payments {
			paid += p.Amount
		}
		if direct != e.Direct || price != e.Price || stages != e.Price || total != e.Total || paid != e.Total {
			rt.Fatalf("direct %v %v, price %v %v, stages %v, total %v %v, paid %v", direct, e.Direct, price, e.Price, stages, total, e.Total, paid)
		}
		checkCasts(rt, e)
	})
}

// checkCasts: what is paid once and what a cast costs add to the lines of the
// pieces and the pour they share.
func checkCasts(t *rapid.T, e *estimate.Estimate) {
	lines, pieces := money.Amount(0), money.Amount(0)
	for _, l := range e.Lines {
		if l.Piece != estimate.Whole || l.Stage == "pour" {
			lines += l.Amount
		}
	}
	for _, p := range e.Pieces {
		pieces += p.Once + p.PerCast
		if all := p.FirstCast + money.Amount(p.Casts-1)*p.NextCast; all != p.Once+p.PerCast {
			t.Fatalf("%s: the first cast and the next add to %v, all are %v", p.Name, all, p.Once+p.PerCast)
		}
		if float64(p.AverageCast) < float64(p.NextCast)-1 {
			t.Fatalf("%s: a cast is %v on average and the next %v", p.Name, p.AverageCast, p.NextCast)
		}
	}
	if lines != pieces {
		t.Fatalf("pieces %v, their lines %v", pieces, lines)
	}
}

// Weights, sections and heats agree with each other.
func TestWeightsAndHeatsHangTogether(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		e := made(rt, t, anyCommission(rt))
		poured, finished, sections := 0.0, 0.0, 0
		for _, p := range e.Pieces {
			poured += float64(p.Poured) * float64(p.Casts)
			finished += float64(p.Finished) * float64(p.Casts)
			sections += p.Sections * p.Casts
		}
		filled, packed := 0.0, 0
		for _, h := range e.Heats {
			filled += h.Kg
			for _, s := range h.Sections {
				packed += s.Count
				if e.Pieces[s.Piece].Alloy != h.Alloy {
					rt.Fatalf("%s in a heat of %s", e.Pieces[s.Piece].Name, h.Alloy)
				}
			}
			if h.Kg > float64(e.Usable)*(1+1e-8) {
				rt.Fatalf("a heat of %v in a crucible of %v", h.Kg, e.Usable)
			}
		}
		if math.Abs(filled-poured) > 1e-6*poured || packed != sections || sections != e.Sections || float64(e.Charged) < poured || float64(e.MetalUsed) < finished {
			rt.Fatalf("poured %v, in heats %v; sections %d, packed %d; used %v of %v", poured, filled, sections, packed, e.MetalUsed, finished)
		}
	})
}

// Lengths × s, areas × s².
func TestTheSurfaceGrowsWithTheSquareOfTheHeight(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		k := rapid.Float64Range(1, 2).Draw(rt, "times")
		a := made(rt, t, c).Pieces[0]
		b := made(rt, t, c.With(0, "form.height", metres(k*heightOf(rt, c, 0)))).Pieces[0]
		s := float64(b.Height / a.Height)
		if math.Abs(float64(b.Area)/float64(a.Area)-s*s) > 1e-9 || math.Abs(float64(b.OriginalArea)/float64(a.OriginalArea)-s*s) > 1e-9 || math.Abs(s-k) > 1e-5 {
			rt.Fatalf("× %v: %v and %v", k, a.Area, b.Area)
		}
	})
}

func heightOf(t *rapid.T, c estimate.Commission, piece int) float64 {
	return lengthOf(t, c, piece, "form.height")
}

func lengthOf(t *rapid.T, c estimate.Commission, piece int, path string) float64 {
	text := c.Pieces[piece].Inputs[path]
	v, err := strconv.ParseFloat(text[:len(text)-2], 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// cheaper tells by how much b costs less than a, beyond what rounding of
// quantities and of rates of recasts takes, and what fewer heats and pour days
// save: their hours and flux, and their part of the recasts.
func cheaper(a, b *estimate.Estimate) float64 {
	rounding := 0.0
	for _, e := range []*estimate.Estimate{a, b} {
		for _, l := range e.Lines {
			if l.Class == estimate.Recast {
				rounding += 0.01*e.Recasts + 0.005*l.Rate.InexactFloat64()
			}
		}
	}
	saved := float64(max(0, len(a.Heats)-len(b.Heats))) * (3*0.5*58 + 18)
	saved += float64(max(0, a.PourDays-b.PourDays)) * 3 * 4 * 58
	saved *= 1 + a.Recasts/math.Max(1, float64(a.Sections))
	return float64(a.Direct-b.Direct)/100 - saved - rounding
}

// Taller is never cheaper, but for the heats that it saves: where one more
// section lets two share a crucible that each had to itself, the next millimetre
// may take fewer heats and so cost less.
func TestTallerIsNeverCheaperButForTheHeatsItSaves(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		at := rapid.IntRange(0, len(c.Pieces)-1).Draw(rt, "piece")
		a := made(rt, t, c)
		h := heightOf(rt, c, at) + rapid.OneOf(rapid.Float64Range(0, 0.02), rapid.Float64Range(0, 1)).Draw(rt, "taller by")
		b := made(rt, t, c.With(at, "form.height", metres(h)))
		if less := cheaper(a, b); less > 0 {
			rt.Fatalf("%v metres: %v cheaper", h, less)
		}
		if slices.Equal(sectionsOf(a), sectionsOf(b)) && len(b.Heats) < len(a.Heats) {
			rt.Fatalf("the same sections, all heavier, in %d heats for %d", len(b.Heats), len(a.Heats))
		}
	})
}

func sectionsOf(e *estimate.Estimate) (n []int) {
	for _, p := range e.Pieces {
		n = append(n, p.Sections)
	}
	return n
}

// Thicker is never cheaper, but for the heats that it saves, and for the inside
// that is not dipped where a solid's wall leaves less of it.
func TestThickerIsNeverCheaperButForTheHeatsItSaves(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		at := rapid.IntRange(0, len(c.Pieces)-1).Draw(rt, "piece")
		a := made(rt, t, c)
		w := lengthOf(rt, c, at, "form.wall") + rapid.OneOf(rapid.Float64Range(0, 0.0002), rapid.Float64Range(0, 0.006)).Draw(rt, "thicker by")
		b := made(rt, t, c.With(at, "form.wall", metres(w)))
		if less := cheaper(a, b); less > 0 {
			rt.Fatalf("%v mm: %v cheaper", w*1000, less)
		}
	})
}

// Twice the casts never cost less in all, and never much more than twice.
func TestTwiceTheCastsCostNoLessAndNoMoreThanTwice(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		at := rapid.IntRange(0, len(c.Pieces)-1).Draw(rt, "piece")
		n := rapid.IntRange(1, 12).Draw(rt, "casts")
		delete(c.Pieces[at].Inputs, "form.repeat")
		a := made(rt, t, c.With(at, "form.casts", strconv.Itoa(n)))
		b := made(rt, t, c.With(at, "form.casts", strconv.Itoa(2*n)))
		if cheaper(a, b) > 0 || b.Total < a.Total {
			rt.Fatalf("%d casts %v, %d casts %v", n, a.Total, 2*n, b.Total)
		}
		rounding := -2 * cheaper(a, a)
		for _, l := range a.Lines {
			rounding += 0.01*l.Rate.InexactFloat64() + 0.01 // quantities are printed to the hundredth
		}
		if float64(b.Direct-2*a.Direct)/100 > rounding {
			rt.Fatalf("%d casts %v, %d casts %v", n, a.Direct, 2*n, b.Direct)
		}
		was, is := a.Pieces[at].AverageCast, b.Pieces[at].AverageCast
		if len(c.Pieces) == 1 && float64(is) > 1.001*float64(was)+100 {
			rt.Fatalf("a cast of %d is %v on average, of %d %v", n, was, 2*n, is)
		}
	})
}

// Why taller may be cheaper: fourteen sections of just over half a crucible take
// a heat each; cut in fifteen, two go into one.
func TestOneMoreSectionMaySaveMoreHeatsThanItCosts(t *testing.T) {
	at := func(height string) *estimate.Estimate {
		return one(t, theShop(t), texts{"form.known_by": "typed area", "form.area": "4.9 m²", "form.wall": "4.29 mm", "form.height": height}, nil)
	}
	a, b := at("1 m"), at("1.0001 m")
	require.Equal(t, []int{14, 14, 15, 8}, []int{a.Sections, len(a.Heats), b.Sections, len(b.Heats)})
	require.Less(t, b.Direct, a.Direct)
	require.LessOrEqual(t, cheaper(a, b), 0.0)
}

// Why thicker may be cheaper: a plate that two walls fill has no inside to dip.
func TestAPlateThatCastsSolidIsNotDippedInside(t *testing.T) {
	at := func(wall string) *estimate.Estimate {
		e, err := estimate.Of(estimate.Commission{Pieces: []estimate.Piece{{
			Inputs: texts{"form.known_by": "solids", "form.wall": wall, "form.measured_height": "1 m"},
			Solids: []map[string]string{{"shape": "plate", "length": "1 m", "width": "1 m", "thickness": "20 mm"}, {"shape": "sphere", "diameter": "0.1 m"}},
		}}}, theShop(t))
		require.NoError(t, err)
		return e
	}
	hollow, solid := at("9.9 mm"), at("10 mm")
	require.InDelta(t, 0.92, float64(hollow.Pieces[0].Inside/hollow.Pieces[0].Area), 0.005)
	require.Less(t, float64(solid.Pieces[0].Inside), 0.03)
	require.Less(t, solid.Direct, hollow.Direct)
	require.Equal(t, []string{"99 % of the metal"}, solid.Pieces[0].SolidParts)
}

// A stage that somebody else does costs nothing, whoever does the others.
func TestAStageByOthersCostsNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		c.Extras = nil
		delete(c.Inputs, "delivery.permits")
		c.Inputs["delivery.by"] = "by others"
		for i := range c.Pieces {
			for path, v := range map[string]string{"form.start": "their wax", "patina.by": "by others", "base.by": "by others"} {
				c.Pieces[i].Inputs[path] = v
			}
		}
		e := made(rt, t, c)
		for _, s := range e.Stages {
			others := slices.Contains([]string{"original", "mould", "wax", "patina", "base", "delivery"}, s.ID)
			if s.ByOthers != others || others && (s.Amount != 0 || s.Hours != 0) || !others && s.ID != "form" && s.Amount == 0 {
				rt.Fatalf("%s: by others %v, %v", s.Name, s.ByOthers, s.Amount)
			}
		}
	})
}

// The same commission and the same book give the same estimate, and reading it
// changes neither.
func TestAnEstimateIsRepeatable(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		kept := c.Clone()
		a, b := made(rt, t, c), made(rt, t, kept)
		require.Equal(rt, a.Lines, b.Lines)
		require.Equal(rt, a.Pieces, b.Pieces)
		require.Equal(rt, a.Cautions, b.Cautions)
		require.Equal(rt, kept, c)
	})
}

// theShop is the starting shop, read once.
func theShop(t testing.TB) *shop.Shop {
	onceShop.Do(func() { sharedShop = startingShop(t) })
	return sharedShop
}

var (
	onceShop   sync.Once
	sharedShop *shop.Shop
)
