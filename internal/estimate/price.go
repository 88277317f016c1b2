package estimate

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

var priceStage = &Stage{ID: "price", Name: "Price", Does: "Overhead, contingency, fee, margin, shares, tax, payments", byOthers: never}

const (
	feeNone  = "none"
	feeFixed = "a fixed sum"
	feeCost  = "a share of cost"
	feePrice = "a share of the price"
	noTax    = "none"
)

// The names of price lines that other rooms look for.
const (
	overheadName = "Overhead"
	feeName      = "Artist's fee"
)

var (
	overheadField     = fromBookWhole("price", "overhead", Choices, shop.Overhead)
	overheadBaseField = fromBookWhole("price", "overhead_base", Choices, shop.OverheadBase)
	contingencyField  = fromBookWhole("price", "contingency", Choices, shop.Contingency)
	feeWayField       = choiceWhole("price", "fee", "Artist's fee is", feeNone, feeFixed, feeCost, feePrice)
	feeSumField       = sum("price", "fee_sum", "Artist's fee").when(func(in *inputs) bool { return in.word(feeWayField) == feeFixed })
	feeShareField     = askedWhole("price", "fee_share", "Artist's fee, share", quantity.KindShare, field.PartOf1, "15 %", "").when(func(in *inputs) bool {
		w := in.word(feeWayField)
		return w == feeCost || w == feePrice
	})
	profitWayField  = fromBookWhole("price", "profit_way", Choices, shop.ProfitWay)
	profitField     = fromBookWhole("price", "profit", Choices, shop.Profit)
	insuranceField  = fromBookWhole("price", "insurance", Choices, shop.InsurancePart)
	bondField       = askedWhole("price", "bond", "Bond, of the price", quantity.KindShare, field.PartOf1, "0 %", "")
	agentField      = askedWhole("price", "agent", "Agent, of the price", quantity.KindShare, field.PartOf1, "0 %", "")
	galleryField    = askedWhole("price", "gallery", "Gallery, of the price", quantity.KindShare, field.PartOf1, "0 %", "")
	stepField       = fromBookWhole("price", "step", Choices, shop.RoundStep)
	roundField      = fromBookWhole("price", "round", Choices, shop.RoundWay)
	taxField        = choiceWhole("price", "tax", "Tax of", noTax).picks(taxPlaces)
	paymentsField   = fromBookWhole("price", "payments", Choices, shop.Payments)
	validField      = fromBookWhole("price", "valid_days", Choices, shop.ValidDays)
	metalBasisField = askedWhole("price", "metal_clause", "Metal clause", quantity.KindShare, field.ZeroUp, "5 %", "").hint("the price follows the metal beyond this change")
	budgetField     = sum("price", "budget", "Budget of the call")
	budgetIsField   = choiceWhole("price", "budget_is", "That budget is", "with tax", "before tax")
	exchangeField   = askedWhole("price", "exchange", "Exchange rate", quantity.KindFactor, field.AboveZero, "", "1 in the shop book's currency").hint("this quote's money for one of the shop book's").when(func(in *inputs) bool { return in.foreign })
)

func taxPlaces(s *shop.Shop) []string {
	names := []string{noTax}
	for _, t := range s.Taxes {
		if !slices.Contains(names, t.Place) {
			names = append(names, t.Place)
		}
	}
	return names
}

// PriceLine is one step from the direct cost to the price.
type PriceLine struct {
	Name    string // "Overhead"
	Share   string // "22 %", or empty
	Of      string // what the share is of: "direct cost"
	Amount  money.Amount
	Working string
}

// Tax is one tax on the price.
type Tax struct {
	Name   string
	Rate   money.Decimal // a share
	Base   money.Amount
	Amount money.Amount
	Dated  string
	Source string
}

// Payment is one part of the payment plan.
type Payment struct {
	When   string
	Share  money.Decimal // of the total
	Amount money.Amount
}

// takePrice goes from the direct cost to the price, the taxes and the payments,
// every step on a line of its own, in the order of the trade.
func (r *run) takePrice() {
	e := r.est
	direct, labour := money.Amount(0), money.Amount(0)
	for _, l := range e.Lines {
		direct += l.Amount
		if l.Class == Labour {
			labour += l.Amount
		}
	}
	e.Direct = direct
	base, of := direct, "direct cost"
	if r.whole.word(overheadBaseField) == "labour" {
		base, of = labour, "labour"
	}
	cost := direct
	cost += r.step(overheadName, overheadField, base, of)
	cost += r.step("Contingency", contingencyField, cost, "cost so far")
	cost += r.fee(cost)
	cost += r.profit(cost)
	r.sharesOfPrice(cost)
	r.taxes()
	if r.vary == nil {
		r.payments()
	}
}

// step adds a share of base as a line of the price.
func (r *run) step(name string, f *Field, base money.Amount, of string) money.Amount {
	share := r.whole.value(f).Dec
	a := money.Part(base, share)
	r.priceLine(name, share, of, a, func() string {
		return fmt.Sprintf("%s × %s = %s", r.currency.Text(base), percent(share), r.currency.Text(a))
	})
	return a
}

func (r *run) priceLine(name string, share money.Decimal, of string, a money.Amount, how func() string) {
	if a == 0 {
		return
	}
	l := PriceLine{Name: name, Of: of, Amount: a}
	if !r.bare {
		if share.Sign() != 0 {
			l.Share = percent(share)
		}
		l.Working = how()
	}
	r.est.PriceLines = append(r.est.PriceLines, l)
}

// percent prints a share: "9.975 %".
func percent(share money.Decimal) string { return share.Shift(2).String() + " %" }

func (r *run) fee(cost money.Amount) money.Amount {
	switch r.whole.word(feeWayField) {
	case feeFixed:
		a := r.currency.Of(r.whole.value(feeSumField).Dec)
		r.priceLine(feeName, money.Decimal{}, "", a, func() string { return "as agreed" })
		return a
	case feeCost:
		return r.step(feeName, feeShareField, cost, "cost so far")
	}
	return 0
}

// profit is a margin, a share of what it is part of, or a markup on the cost.
func (r *run) profit(cost money.Amount) money.Amount {
	share := r.whole.value(profitField).Dec
	if r.whole.word(profitWayField) == "markup" {
		return r.step("Markup", profitField, cost, "cost so far")
	}
	total, err := money.GrossUp(cost, share)
	if errors.Is(err, money.ErrTooMuch) {
		r.tooMuch()
		return 0
	}
	if err != nil {
		r.fault(nil, profitField, "of 100 % or more leaves nothing of the price for the cost", "give a margin below 100 %, or choose a markup")
		return 0
	}
	a := total - cost
	r.priceLine("Margin", share, "cost and margin", a, func() string {
		return fmt.Sprintf("%s ÷ (1 − %s) − %s = %s", r.currency.Text(cost), percent(share), r.currency.Text(cost), r.currency.Text(a))
	})
	return a
}

// shareOfPrice is a part of the price itself.
type shareOfPrice struct {
	name  string
	share money.Decimal
}

// sharesOfPrice solves the price that still covers cost when all shares of the
// price have been paid: cost ÷ (1 − Σ). The price is rounded to the shop's step;
// shares are taken of the rounded price, and the rounding has its own line.
func (r *run) sharesOfPrice(cost money.Amount) {
	var shares []shareOfPrice
	sum := money.Decimal{}
	add := func(name string, f *Field) {
		if s := r.whole.value(f).Dec; s.Sign() > 0 {
			shares, sum = append(shares, shareOfPrice{name, s}), sum.Add(s)
		}
	}
	if r.whole.word(feeWayField) == feePrice {
		add(feeName, feeShareField)
	}
	add("Insurance", insuranceField)
	add("Bond", bondField)
	add("Agent", agentField)
	add("Gallery", galleryField)
	price, err := money.GrossUp(cost, sum)
	switch {
	case errors.Is(err, money.ErrTooMuch):
		r.tooMuch()
		price = cost
	case err != nil:
		r.faults = append(r.faults, fault.Fault{
			Where: insuranceField.Path(), Field: "Shares of the price", Value: percent(sum),
			Problem: "leave nothing of the price", Remedy: "fee, insurance, bond, agent and gallery together must stay below 100 %",
		})
		price = cost
	}
	step := r.currency.Of(money.Round(r.whole.num(stepField), 6))
	rounded := money.Step(price, step, r.whole.word(roundField) == "up")
	r.est.Price = rounded
	left := rounded - cost
	for _, s := range shares {
		a := money.Part(rounded, s.share)
		left -= a
		r.priceLine(s.name, s.share, "price", a, func() string {
			return fmt.Sprintf("%s of the price %s = %s; the price is %s ÷ (1 − %s)", percent(s.share), r.currency.Text(rounded), r.currency.Text(a), r.currency.Text(cost), percent(sum))
		})
	}
	r.priceLine("Rounding", money.Decimal{}, "", left, func() string { return "to the shop's step of " + r.currency.Text(step) })
}

// tooMuch tells, once, of a price beyond what can be reckoned with.
func (r *run) tooMuch() {
	if _, told := r.faults.At(priceStage.ID); !told {
		r.faults = append(r.faults, fault.Fault{
			Where: priceStage.ID, Field: priceStage.Name,
			Problem: "comes to more money than can be reckoned with", Remedy: "look for a zero too many among hours, rates and numbers",
		})
	}
}

// taxes are taken on the price, each with its own rate and date.
func (r *run) taxes() {
	e := r.est
	e.Total = e.Price
	for _, t := range r.shop.Taxes {
		if t.Place == r.whole.word(taxField) {
			a := money.Part(e.Price, t.Rate)
			e.Taxes = append(e.Taxes, Tax{t.Name, t.Rate, e.Price, a, t.Dated, t.Source})
			e.Total += a
		}
	}
}

// payments splits the total by the plan, to the cent.
func (r *run) payments() {
	plan, err := ParsePayments(r.whole.word(paymentsField))
	if err != nil {
		r.fault(nil, paymentsField, err.Error(), "give parts that add to 100, such as Agreement signed 30; Bronze cast 60; Installed 10")
		return
	}
	shares := make([]money.Decimal, len(plan))
	for i, p := range plan {
		shares[i] = p.Share
	}
	for i, a := range money.Split(r.est.Total, shares) {
		plan[i].Amount = a
		plan[i].When = r.happens(plan[i].When)
	}
	r.est.Payments = plan
}

// ParsePayments reads a plan such as "Agreement signed 30; Bronze cast 60 %;
// Installed 10", whose parts add to a hundred.
func ParsePayments(text string) ([]Payment, error) {
	var plan []Payment
	sum := money.Decimal{}
	for _, part := range strings.FieldsFunc(text, func(c rune) bool { return c == ';' || c == '\n' }) {
		part = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(part), "%"))
		if part == "" {
			continue
		}
		at := strings.LastIndexByte(part, ' ')
		share, err := money.ParseDecimal(part[at+1:])
		if at < 0 || err != nil || share.Sign() <= 0 {
			return nil, fault.Fault{Problem: "has a part without a share, “" + part + "”"}
		}
		plan = append(plan, Payment{When: strings.TrimSpace(part[:at]), Share: share.Shift(-2)})
		sum = sum.Add(share)
	}
	if !sum.Equal(money.Round(100, 0)) {
		return nil, fault.Fault{Problem: "adds to " + sum.String() + " %, not to 100 %"}
	}
	return plan, nil
}

// MetalPrice moves a price with the metal: metal used up × (price of the day −
// price it was reckoned at), both for a kilogram.
func MetalPrice(c money.Currency, price money.Amount, usedKg float64, basis, today money.Decimal) money.Amount {
	return price + c.Times(money.Round(usedKg, 2), today.Sub(basis))
}
