package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/money"
)

// The ways an artist's fee is taken, as the input for it has them.
const (
	FeeNone  = feeNone
	FeeFixed = feeFixed
	FeeCost  = feeCost
	FeePrice = feePrice
)

// FeePaths are the paths of the inputs of the artist's fee: the way it is taken,
// its sum where it is fixed, and its share where it is one.
func FeePaths() (way, sum, share string) {
	return feeWayField.Path(), feeSumField.Path(), feeShareField.Path()
}

// Fees tries one commission with other fees for the artist; all else, and so the
// direct cost, stays as it is.
type Fees struct {
	run *run
	way string
}

// Priced is a price with the artist's fee in it.
type Priced struct {
	Fee, Price, Total money.Amount
	Holds             bool // the shares leave something of the price
}

// Fees reckons the commission for trials of its artist's fee, taken as the
// commission has it, or as a share of the price where it has none. It is false
// where the commission cannot be made.
func (m *Model) Fees() (*Fees, bool) {
	r := m.fresh()
	r.whole.values, r.whole.given = append([]field.Value(nil), r.whole.values...), append([]bool(nil), r.whole.given...)
	r.estimate()
	f := &Fees{r, r.whole.word(feeWayField)}
	if f.way == feeNone {
		f.way = feePrice
		r.whole.values[feeWayField.id].Text = feePrice
	}
	return f, len(r.faults) == 0
}

// Way is how the fee is taken: FeeFixed, FeeCost or FeePrice.
func (f *Fees) Way() string { return f.way }

// Try prices the commission with a fee: a sum where it is fixed, else a share,
// such as 0.15.
func (f *Fees) Try(fee money.Decimal) Priced {
	r := f.run
	v := field.Value{Num: fee.InexactFloat64(), Dec: fee}
	if f.way == feeFixed {
		r.whole.values[feeSumField.id] = v
	} else {
		r.whole.values[feeShareField.id] = v
	}
	r.faults, r.est.PriceLines, r.est.Taxes = nil, nil, nil
	r.takePrice()
	p := Priced{Price: r.est.Price, Total: r.est.Total, Holds: len(r.faults) == 0}
	for _, l := range r.est.PriceLines {
		if l.Name == feeName {
			p.Fee = l.Amount
		}
	}
	return p
}
