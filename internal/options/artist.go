package options

import (
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// Artist is what a budget leaves for the artist at the commission's own height.
type Artist struct {
	Way    string        // how the fee is taken: estimate.FeeFixed, FeeCost or FeePrice
	Fee    money.Amount  // what is left; 0 where nothing is
	Share  money.Decimal // the fee as the share that Way says; of the price where it is fixed
	Price  money.Amount  // with that fee
	Total  money.Amount
	Short  money.Amount // by how much the budget is too small even without a fee
	Inputs map[string]string
}

// ArtistShare finds the largest fee for the artist that keeps a commission
// within a budget, before tax or with it: a sum to the cent where the
// commission's fee is fixed, else a share to a hundredth of a per cent; of the
// price where the commission has no fee. Inputs are those that make it so. The
// error is the commission's faults.
func ArtistShare(c estimate.Commission, s *shop.Shop, budget money.Amount, beforeTax bool) (Artist, error) {
	c.Options = nil
	m, err := estimate.NewModel(c, s)
	if err != nil {
		return Artist{}, err
	}
	fees, ok := m.Fees()
	if !ok {
		_, err := estimate.Of(c, s)
		return Artist{}, err
	}
	over := func(p estimate.Priced) money.Amount {
		if beforeTax {
			return p.Price - budget
		}
		return p.Total - budget
	}
	a := Artist{Way: fees.Way()}
	scale := int32(4) // shares, to a hundredth of a per cent
	most := int64(9999)
	if a.Way == estimate.FeeFixed {
		scale, most = estimate.RuleOf(c, s).Currency.Digits, int64(max(budget, 0))
	}
	units := func(n int64) money.Decimal { return money.Round(float64(n), 0).Shift(-scale) }
	n := lastFee(most, func(n int64) bool {
		p := fees.Try(units(n))
		return p.Holds && over(p) <= 0
	})
	p := fees.Try(units(max(n, 0)))
	a.Fee, a.Price, a.Total = p.Fee, p.Price, p.Total
	if n < 0 {
		a.Short = over(p)
	}
	a.take(units(max(n, 0)), p)
	return a, nil
}

// lastFee is the largest whole number up to most that fits, which all below it
// do; -1 if not even 0 does.
func lastFee(most int64, fits func(int64) bool) int64 {
	low, high := int64(-1), most+1
	for high-low > 1 {
		if mid := low + (high-low)/2; fits(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// take notes the fee as a share, and the inputs that give it.
func (a *Artist) take(fee money.Decimal, p estimate.Priced) {
	way, sum, share := estimate.FeePaths()
	a.Share = fee
	a.Inputs = map[string]string{way: a.Way, share: fee.Shift(2).String() + " %"}
	if a.Way != estimate.FeeFixed {
		return
	}
	a.Inputs = map[string]string{way: a.Way, sum: fee.String()}
	a.Share = money.Decimal{}
	if p.Price > 0 {
		a.Share = money.Round(float64(p.Fee)/float64(p.Price), 4)
	}
}
