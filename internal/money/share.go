package money

import (
	"errors"
	"sort"

	"github.com/shopspring/decimal"
)

var one = decimal.New(1, 0)

// Part is share × a, rounded to the minor unit.
func Part(a Amount, share Decimal) Amount {
	if s, exponent, ok := Small(share); ok && a >= 0 {
		if part, ok := Product(uint64(a), s, -exponent); ok {
			return part
		}
	}
	return whole(share.Mul(decimal.New(int64(a), 0)))
}

// ErrShares is what a price that shares of 100 % or more are taken from gives.
var ErrShares = errors.New("shares of 100 % or more leave nothing of the price")

// ErrTooMuch is what a price beyond Most gives.
var ErrTooMuch = errors.New("the shares leave so little of the price that it is too much money to reckon with")

// GrossUp solves P = cost + share × P: the price that still covers cost when
// share of the price itself has been paid away. It is cost/(1 − share), rounded.
// The error is ErrShares or ErrTooMuch.
func GrossUp(cost Amount, share Decimal) (Amount, error) {
	if p, ok := quickGrossUp(cost, share); ok {
		return p, nil
	}
	left := one.Sub(share)
	if left.Sign() <= 0 {
		return 0, ErrShares
	}
	price := whole(decimal.New(int64(cost), 0).DivRound(left, 0))
	if price > Most || price < -Most {
		return 0, ErrTooMuch
	}
	return price, nil
}

// MarkupOf turns a margin (a share of the price) into the markup (on the cost)
// that gives the same price: m/(1 − m).
func MarkupOf(margin Decimal) (Decimal, error) {
	left := one.Sub(margin)
	if left.Sign() <= 0 {
		return Decimal{}, ErrShares
	}
	return margin.DivRound(left, 12), nil
}

// Step rounds a to a multiple of step: to the nearest, half away from zero, or
// up. A step of zero or less leaves a as it is.
func Step(a, step Amount, up bool) Amount {
	if step <= 0 {
		return a
	}
	if a < 0 && !up {
		return -Step(-a, step, false)
	}
	rest := a % step
	if rest < 0 {
		rest += step
	}
	if rest == 0 || !up && rest < step-rest {
		return a - rest
	}
	return a - rest + step
}

// Split divides total in proportion to weights so that the parts add to total
// exactly: each part rounded down, the cents left over given to the parts with
// the largest remainders, the earlier one first. Weights are not negative and
// not all zero; otherwise the parts are nil.
func Split(total Amount, weights []Decimal) []Amount {
	sum := Decimal{}
	for _, w := range weights {
		if w.Sign() < 0 {
			return nil
		}
		sum = sum.Add(w)
	}
	if sum.Sign() == 0 {
		return nil
	}
	parts := make([]Amount, len(weights))
	rests := make([]Decimal, len(weights))
	order := make([]int, len(weights))
	left := total
	for i, w := range weights {
		q, r := w.Mul(decimal.New(int64(total), 0)).QuoRem(sum, 0)
		if r.Sign() < 0 {
			q, r = q.Sub(one), r.Add(sum)
		}
		parts[i], rests[i], order[i] = Amount(q.IntPart()), r, i
		left -= parts[i]
	}
	sort.SliceStable(order, func(i, j int) bool { return rests[order[i]].GreaterThan(rests[order[j]]) })
	for i := 0; left > 0; i, left = i+1, left-1 {
		parts[order[i]]++
	}
	return parts
}
