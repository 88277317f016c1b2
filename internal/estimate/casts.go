package estimate

import (
	"math"

	"meltwright/internal/money"
)

// sumCasts tells what is paid once and what per cast. Lines of the whole
// commission's pour are shared by poured weight; delivery is not part of a cast.
func (r *run) sumCasts() {
	e := r.est
	first := make([]float64, len(e.Pieces)) // of what every cast goes through
	for _, p := range r.pieces {
		first[p.index] = r.firstCast(p)
	}
	shared := money.Amount(0)
	for _, l := range e.Lines {
		switch {
		case l.Piece == Whole && l.Stage == pourStage.ID:
			shared += l.Amount
		case l.Piece == Whole:
		case l.Once:
			e.Pieces[l.Piece].Once += l.Amount
		default:
			e.Pieces[l.Piece].PerCast += l.Amount
		}
	}
	weights := make([]money.Decimal, len(e.Pieces))
	for i, p := range e.Pieces {
		weights[i] = money.Round(float64(p.Poured)*float64(p.Casts), 6)
	}
	for i, a := range money.Split(shared, weights) {
		e.Pieces[i].PerCast += a
		first[i] += float64(a) / float64(e.Pieces[i].Casts)
	}
	for i := range e.Pieces {
		e.Pieces[i].shareCasts(first[i])
	}
}

// firstCast is what the first cast costs in the stages that every cast goes
// through, in the smallest units of money: hours that repeating saves are not
// saved on it, and it has its even part of all else.
func (r *run) firstCast(p *piece) float64 {
	var first, all, recasts [32]float64 // by stage
	for _, l := range r.est.Lines {
		st, _ := StageByID(l.Stage)
		if l.Piece != p.index || l.Once {
			continue
		}
		even := float64(l.Amount) / float64(p.casts)
		switch l.Class {
		case Recast:
			recasts[st.index] += even
			continue
		case Labour:
			first[st.index] += even / p.repeat
		default:
			first[st.index] += even
		}
		all[st.index] += even
	}
	sum := 0.0
	for i := range first {
		sum += first[i]
		if all[i] > 0 {
			sum += recasts[i] * first[i] / all[i] // a cast again costs as much of its own
		}
	}
	return sum
}

// shareCasts divides what the casts cost between the first, with what is paid
// once, and the others, who share the rest evenly; odd cents go to the first.
func (p *PieceResult) shareCasts(first float64) {
	p.AverageCast = share(p.Once+p.PerCast, p.Casts)
	if p.Casts == 1 {
		p.FirstCast, p.NextCast = p.Once+p.PerCast, p.PerCast
		return
	}
	each := (float64(p.PerCast) - first) / float64(p.Casts-1)
	p.NextCast = money.Amount(math.Round(each))
	p.FirstCast = p.Once + p.PerCast - money.Amount(p.Casts-1)*p.NextCast
}

// share is a/n, rounded half away from zero.
func share(a money.Amount, n int) money.Amount {
	return money.Part(a, money.Round(1, 0).DivRound(money.Round(float64(n), 0), 16))
}
