package lead

import (
	"cmp"
	"math"
	"slices"
)

// plan is a network of jobs with the order that they are given their time in.
type plan struct {
	jobs  []job
	crew  crew
	order []int32 // each after all that it waits for
}

// newPlan orders jobs by the rule, of three, that gets them done first from a
// slot on. Each rule goes by the critical path with nobody in anybody's way, and
// feeds the serial schedule generation scheme (Kolisch, European Journal of
// Operational Research 90:320–333, 1996).
func newPlan(f *floor, jobs []job, c crew, from int32) (*plan, error) {
	p := &plan{jobs: jobs, crew: c}
	list := make([]activity, len(jobs))
	for i := range jobs {
		list[i] = activity{f.ideal(&jobs[i]), jobs[i].after}
	}
	path, err := criticalPath(list)
	if err != nil {
		return nil, err
	}
	best := int32(math.MaxInt32)
	var t times
	for _, rank := range [][]int32{path.lateStart, path.lateFinish, lessToCome(list, path)} {
		try := plan{jobs: jobs, crew: c, order: path.by(rank)}
		if ok := try.level(f.copy(), from, &t, nil); p.order == nil || ok && t.last < best {
			p.order = try.order
			if ok {
				best = t.last
			}
		}
	}
	return p, nil
}

// by gives the activities in the order of a rank, each after all it waits for.
func (p passes) by(rank []int32) []int32 {
	place := make([]int32, len(p.order))
	for at, i := range p.order {
		place[i] = int32(at)
	}
	order := slices.Clone(p.order)
	slices.SortFunc(order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(rank[a], rank[b]), cmp.Compare(place[a], place[b]))
	})
	return order
}

// lessToCome ranks first what has the most time of its own and right after it
// waiting, but no activity before one that it waits for.
func lessToCome(list []activity, p passes) []int32 {
	rank := make([]int32, len(list))
	for _, i := range slices.Backward(p.order) {
		rank[i] -= list[i].duration
		for _, a := range list[i].after {
			rank[a] -= list[i].duration
		}
	}
	for _, i := range p.order {
		for _, a := range list[i].after {
			rank[i] = max(rank[i], rank[a])
		}
	}
	return rank
}

// times are when the jobs of a plan come to be done, in slots: ready when all
// they wait for is done, start with the first slot, end before a slot.
type times struct {
	ready, start, end []int32
	minutes           []int32 // of people, where the pour days decide them
	tank              []int32 // slots that it waited for the slurry tanks
	last              int32
}

func (t *times) reset(n int) {
	grow := func(s []int32) []int32 { return slices.Grow(s[:0], n)[:n] }
	t.ready, t.start, t.end = grow(t.ready), grow(t.start), grow(t.end)
	t.minutes, t.tank = grow(t.minutes), grow(t.tank)
	t.last = 0
}

// varied is how the jobs of one trial differ: factors on minutes by job, how many
// times over the worst casting of a job was made again, and how often each section
// was, by piece.
type varied struct {
	factor []float64
	again  []int32
	counts [][]int32
	remake remake
}

// level gives every job its time on the floor, one after the other in the plan's
// order, each as early as what it waits for and what is left of its pool allow.
// Nothing is ever booked twice. It is false where the calendar ends too early.
func (p *plan) level(f *floor, from int32, t *times, v *varied) bool {
	t.reset(len(p.jobs))
	t.last = from
	for _, i := range p.order {
		j := &p.jobs[i]
		ready := from
		for _, a := range j.after {
			ready = max(ready, t.end[a])
		}
		minutes := j.minutes
		if v != nil && minutes > 0 {
			minutes = max(1, int32(float64(minutes)*v.factor[i]+0.5))
		}
		f.stood = 0
		start, end, spent, ok := f.place(j, p.crew, ready, from, minutes)
		if !ok {
			return false
		}
		t.tank[i] = f.stood
		if j.rest {
			end = f.nextDay(end)
		}
		if v != nil && v.again[i] > 0 {
			if end, ok = p.recast(f, i, end, v); !ok {
				return false
			}
		}
		t.ready[i], t.start[i], t.end[i], t.minutes[i] = ready, start, end, spent
		t.last = max(t.last, end)
	}
	return t.last <= f.axis.end()
}

// recast makes the failed castings of a job again, and those of them that fail
// once more again after that, and gives when all are there.
func (p *plan) recast(f *floor, i, end int32, v *varied) (int32, bool) {
	j := &p.jobs[i]
	for round := int32(1); round <= v.again[i]; round++ {
		n := int32(0)
		for _, times := range v.counts[j.piece][j.made.from:j.made.to] {
			if times >= round {
				n++
			}
		}
		var ok bool
		if end, ok = f.castAgain(v.remake, p.crew, int32(j.piece), n, end); !ok {
			return 0, false
		}
	}
	return end, true
}

// place finds the time of one job.
func (f *floor) place(j *job, c crew, ready, from, minutes int32) (start, end, spent int32, ok bool) {
	switch j.sort {
	case waiting:
		day := f.base
		switch {
		case ready > from:
			day = f.dates[(ready-1)/f.slots]
		case from < f.axis.end():
			day = f.dates[from/f.slots]
		}
		return ready, f.slotAt(day + j.days), 0, ready < f.axis.end()
	case idle:
		end = ready + j.days*f.slots
		return ready, end, 0, end <= f.axis.end()
	case burning:
		start, end, ok = f.fire(j.loads, ready)
		return start, end, j.loads.loads * j.loads.tending, ok
	case pouring:
		return f.pour(c, j.heats, ready)
	}
	if minutes == 0 {
		return ready, ready, 0, true
	}
	switch j.sort {
	case coats:
		start, end, ok = f.coat(j, minutes, ready)
	case unbroken:
		start, end, ok = f.together(j.skill, f.nextDay(ready), minutes, j.people*slotMinutes)
	default:
		start, end, ok = f.work(j.skill, ready, minutes, j.people*slotMinutes)
	}
	return start, end, minutes, ok
}
