package lead

import (
	"math/rand/v2"
	"slices"

	"meltwright/internal/estimate"
)

// trial is what one goroutine needs to run trials.
type trial struct {
	*prepared
	draws   Draws
	scratch floor
	times   times
	vary    estimate.Variation
	varied  varied
	stages  []int     // of each job, its place in estimate.Stages; −1 for none
	counts  [][]int32 // failures of each section, by piece
	pcg     *rand.PCG
	rng     *rand.Rand
}

func (p *prepared) trial(draws Draws) *trial {
	n := len(p.order.Estimate.Pieces)
	tr := &trial{prepared: p, draws: draws, vary: estimate.Still(n), pcg: rand.NewPCG(0, 0)}
	tr.rng = rand.New(tr.pcg)
	for _, j := range p.jobs {
		tr.stages = append(tr.stages, slices.IndexFunc(estimate.Stages, func(st *estimate.Stage) bool { return st.ID == j.stage }))
	}
	for _, x := range p.order.Estimate.Pieces {
		tr.counts = append(tr.counts, make([]int32, x.Sections*x.Casts))
	}
	tr.varied = varied{make([]float64, len(p.jobs)), make([]int32, len(p.jobs)), tr.counts, p.remake}
	return tr
}

// run levels trial i, and again without its failures where it has any that hold
// something up, and gives the ends of both.
func (tr *trial) run(i int) (end, plain int32, ok bool) {
	tr.draws.Vary(i, &tr.vary)
	for k, j := range tr.jobs {
		f := 1.0
		if st := tr.stages[k]; st >= 0 {
			f = tr.vary.Hours[st]
		}
		if j.piece != estimate.Whole && j.stage != "base" {
			f *= tr.vary.Area[j.piece]
		}
		tr.varied.factor[k] = f
	}
	clear(tr.varied.again)
	if plain, ok = tr.end(); !ok {
		return 0, 0, false
	}
	if !tr.spread(i) {
		return plain, plain, true
	}
	end, ok = tr.end()
	return end, plain, ok
}

// end levels the trial as it stands.
func (tr *trial) end() (int32, bool) {
	tr.scratch.copyFrom(tr.floor)
	ok := tr.level(&tr.scratch, tr.from, &tr.times, &tr.varied)
	return tr.times.last, ok
}

// spread lets the trial's failures fall on sections and notes, job by job, how
// often the worst of its castings is made again. Of the ways to share r failures
// among n sections each is as likely: the next falls on a section with chance
// (1 + failures it has)/(n + failures so far), which is Pólya's urn.
func (tr *trial) spread(i int) bool {
	tr.pcg.Seed(tr.draws.Seed()^0x6c656164, uint64(i))
	some := false
	for p, counts := range tr.counts {
		r := tr.vary.Recasts[p]
		if r <= 0 || len(counts) == 0 {
			continue
		}
		some = true
		clear(counts)
		urn := make([]int32, 0, r) // the sections that have failed so far, each as often
		for range r {
			at := tr.rng.IntN(len(counts) + len(urn))
			if at >= len(counts) {
				at = int(urn[at-len(counts)])
			}
			urn = append(urn, int32(at))
			counts[at]++
		}
		for k, j := range tr.jobs {
			if j.piece == p && j.made.to > j.made.from {
				tr.varied.again[k] = slices.Max(counts[j.made.from:min(j.made.to, int32(len(counts)))])
			}
		}
	}
	return some
}
