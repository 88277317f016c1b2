package lead

import (
	"cmp"
	"slices"
)

// spares is how many slots later each job may end without delaying the whole,
// in the schedule as levelled: a job waits for those before it in the network,
// and for those that kept its pool busy while it stood ready. One that waited for
// the slurry tanks is put off with those that filled them.
func (p *plan) spares(f *floor, t *times) []int32 {
	late := make([]int32, len(p.jobs)) // the latest end
	for i := range late {
		late[i] = t.last
	}
	for _, j := range p.lastFirst(t) {
		if p.jobs[j].sort == pouring {
			late[j] = f.lastPour(late[j], t.end[j])
		}
		start := late[j] - (t.end[j] - t.start[j])
		for _, a := range p.jobs[j].after {
			late[a] = min(late[a], p.before(f, a, start))
		}
		for _, a := range p.kept(j, t) {
			late[a] = min(late[a], p.before(f, a, start))
		}
		if t.tank[j] > 0 {
			for a := range p.jobs {
				if p.jobs[a].dips > 0 && t.end[a] > t.ready[j] && t.start[a] <= t.start[j] {
					late[a] = min(late[a], t.end[a]+late[j]-t.end[j])
				}
			}
		}
	}
	for i := range late {
		late[i] = max(0, late[i]-t.end[i])
	}
	return late
}

// lastPour is the end of the last pour day that is over by a slot, and not
// before the end it has.
func (f *floor) lastPour(by, end int32) int32 {
	by = by / f.slots * f.slots
	for by > end && !f.pourDay(by/f.slots-1) {
		by -= f.slots
	}
	return max(by, end)
}

// before is the latest end of job a that still lets another begin at start.
func (p *plan) before(f *floor, a, start int32) int32 {
	if p.jobs[a].rest {
		return start / f.slots * f.slots
	}
	return start
}

// lastFirst gives the jobs from the last to begin to the first: each comes
// before all that it waited for.
func (p *plan) lastFirst(t *times) []int32 {
	order := slices.Clone(p.order)
	slices.Reverse(order)
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(t.start[b], t.start[a]) })
	return order
}

// kept lists the jobs that kept job j waiting for people or for the kiln: those
// of its pool that ended while it stood ready.
func (p *plan) kept(j int32, t *times) []int32 {
	x := p.jobs[j]
	if t.start[j] <= t.ready[j] || x.skill == nobody {
		return nil
	}
	var out []int32
	for i := range p.jobs {
		same := p.jobs[i].skill == x.skill && p.jobs[i].sort == x.sort
		if same && t.end[i] > t.ready[j] && t.end[i] <= t.start[j] && t.end[i] > t.start[i] {
			out = append(out, int32(i))
		}
	}
	return out
}
