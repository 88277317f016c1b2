package lead

import (
	"math"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// Schedule is when the work of a commission is done, if no casting fails and
// every task takes the hours of the estimate.
type Schedule struct {
	Start      time.Time
	Ready      time.Time
	Weeks      float64 // of the calendar, both days counted
	WaxToMetal float64 // weeks of the calendar, from the first wax to the last pour
	Tasks      []Task  // in the order of the work
	Milestones []Milestone
	Bookings   []Booking // what it takes of the shop
	// Unbooked is when it would have been ready in an empty shop, as Plan finds
	// out where something is booked; else zero. FirstPour is then the first day
	// from the start on that has metal, heats and hands left for its first heat;
	// zero where it pours nothing.
	Unbooked, FirstPour time.Time
	Currency            money.Currency // of the milestones' payments
}

// Week is how many weeks after the schedule's first day t is, for drawings.
func (s Schedule) Week(t time.Time) float64 {
	return t.Sub(dateOf(dayOf(s.Start))).Hours() / (7 * 24)
}

// mostYears is how far a schedule reaches from its start.
const mostYears = 10

// Order is a commission to be scheduled: estimated without faults, and to be
// begun on a date.
type Order struct {
	Commission estimate.Commission
	Estimate   *estimate.Estimate
	Start      time.Time
}

// Plan schedules a commission from a date on, in what the shop has not booked.
// The error is a fault.List or a fault.Fault: of the commission, of the shop
// book's calendar, or that it would take over ten years.
func Plan(c estimate.Commission, e *estimate.Estimate, s *shop.Shop, start time.Time, booked []Booking) (Schedule, error) {
	p, err := prepare(Order{c, e, start}, s, booked)
	if err != nil {
		return Schedule{}, err
	}
	first := p.firstPour()
	out, err := p.schedule()
	if err != nil {
		return Schedule{}, err
	}
	if len(booked) > 0 {
		out.FirstPour = first
		empty, err := Plan(c, e, s, start, nil)
		if err != nil {
			return Schedule{}, err
		}
		// A rule may order the tasks better beside others than alone.
		out.Unbooked = empty.Ready
		if out.Ready.Before(out.Unbooked) {
			out.Unbooked = out.Ready
		}
	}
	return out, nil
}

// Fit schedules orders one after the other, each in what those before it have
// left of the shop: a year of accepted quotes, in the order they were accepted.
// One that cannot be scheduled takes nothing, and its Schedule is zero. The error
// is of the shop book's calendar.
func Fit(orders []Order, s *shop.Shop) ([]Schedule, error) {
	if len(orders) == 0 {
		return nil, nil
	}
	first, last := dayOf(orders[0].Start), dayOf(orders[0].Start)
	for _, o := range orders {
		first, last = min(first, dayOf(o.Start)), max(last, dayOf(o.Start))
	}
	cal, err := readCalendar(s)
	if err != nil {
		return nil, err
	}
	f := newFloor(newAxis(cal, first, last-first+mostYears*366), s)
	out := make([]Schedule, len(orders))
	for i, o := range orders {
		if p, err := prepareOn(f, o, s); err == nil {
			out[i], _ = p.schedule()
		}
	}
	return out, nil
}

// prepared is an order whose jobs are known, and the floor it is to be done on.
type prepared struct {
	*plan
	order   Order
	from    int32 // the first slot
	floor   *floor
	batches []batch
	remake  remake
}

func prepare(o Order, s *shop.Shop, booked []Booking) (*prepared, error) {
	cal, err := readCalendar(s)
	if err != nil {
		return nil, err
	}
	f := newFloor(newAxis(cal, dayOf(o.Start), mostYears*366), s)
	f.book(booked)
	return prepareOn(f, o, s)
}

func prepareOn(f *floor, o Order, s *shop.Shop) (*prepared, error) {
	m, err := estimate.NewModel(o.Commission, s)
	if err != nil {
		return nil, err
	}
	if o.Estimate == nil || len(o.Estimate.Pieces) != m.Pieces() {
		return nil, fault.Fault{Field: "Schedule", Problem: "has no estimate of the commission", Remedy: "estimate it first"}
	}
	b := &builder{model: m, estimate: o.Estimate, shop: s, floor: f}
	if err := b.build(); err != nil {
		return nil, err
	}
	from := f.slotAt(dayOf(o.Start))
	p, err := newPlan(f, b.jobs, b.crew, from)
	if err != nil {
		return nil, err
	}
	again := b.redoes(b.whole(pourLoss), days(s.Num(shop.WaitRecast), 7))
	return &prepared{plan: p, order: o, from: from, floor: f, batches: b.batches, remake: again}, nil
}

// schedule gives the jobs their times and puts them into words and dates. The
// prepared floor is left with all of it booked, or as it was.
func (p *prepared) schedule() (Schedule, error) {
	before := p.floor.copy()
	var t times
	if !p.level(p.floor, p.from, &t, nil) {
		p.floor.copyFrom(before)
		return Schedule{}, tooLong
	}
	f := p.floor
	s := Schedule{Start: dateOf(dayOf(p.order.Start)), Ready: f.ends(t.last), Currency: p.order.Estimate.Currency}
	s.Tasks = p.tasks(&t)
	s.Weeks = float64(dayOf(s.Ready)-dayOf(s.Start)+1) / 7
	s.WaxToMetal = waxToMetal(s.Tasks)
	s.Milestones = milestones(p.order.Estimate.Payments, s)
	s.Bookings = f.bookings(before, p.from)
	return s, nil
}

// tasks puts the jobs into words and dates. Those of no time are left out, and
// what waits for them waits for what they waited for.
func (p *prepared) tasks(t *times) []Task {
	f := p.floor
	spare := p.spares(f, t)
	week := 0
	for _, works := range f.works {
		if works {
			week++
		}
	}
	out := make([]Task, 0, len(p.jobs))
	place := make([][]int, len(p.jobs)) // the tasks that a job stands for
	for i, j := range p.jobs {
		var after []int
		for _, a := range j.after {
			after = append(after, place[a]...)
		}
		if t.end[i] == t.start[i] {
			place[i] = after
			continue
		}
		place[i] = []int{len(out)}
		out = append(out, Task{
			Name: j.name, Piece: j.piece, Stage: j.stage, Room: j.room, Skill: j.skill.String(), People: int(j.people),
			Hours: math.Round(float64(t.minutes[i])/60*100) / 100, Start: f.begins(t.start[i]), End: f.ends(t.end[i]),
			tank: float64(t.tank[i]) / float64(int(f.slots)*week),
			Wait: j.skill == nobody, Critical: spare[i] < f.slots, Spare: float64(spare[i]) / float64(int(f.slots)*week), After: after,
		})
	}
	return out
}

// waxToMetal is how long the castings were between wax and metal, in weeks.
func waxToMetal(tasks []Task) float64 {
	var first, last time.Time
	for _, t := range tasks {
		switch {
		case (t.Stage == "wax" || t.Stage == "gating") && (first.IsZero() || t.Start.Before(first)):
			first = t.Start
		case t.Stage == "pour" && t.End.After(last):
			last = t.End
		}
	}
	if first.IsZero() || last.IsZero() {
		return 0
	}
	return float64(dayOf(last)-dayOf(first)+1) / 7
}
