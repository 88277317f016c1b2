package lead

import (
	"math"
	"slices"
	"time"
)

// Booking is capacity of the shop that is taken on one day: hours of a skill or
// of the kiln, sections dipped in the slurry tanks, kilograms of metal charged,
// or heats.
type Booking struct {
	Date   time.Time `json:"date"`
	What   string    `json:"what"` // a Task's Skill, or one of Kiln, Tank, Metal, Heats
	Amount float64   `json:"amount"`
}

// What is booked besides the hours of people.
const (
	Kiln  = "Kiln"
	Tank  = "Slurry tank"
	Metal = "Metal"
	Heats = "Heats"
)

// book takes bookings off the floor. Those of days before it, or on which the
// shop does not work, do not matter. Within a day what is booked comes first.
func (f *floor) book(list []Booking) {
	for _, b := range list {
		day := dayOf(b.Date)
		i := day - f.base
		if i < 0 || int(i) >= len(f.next) || int(f.next[i]) >= len(f.dates) || f.dates[f.next[i]] != day || !(b.Amount > 0) {
			continue
		}
		switch at := f.next[i]; b.What {
		case Metal:
			f.reachDay(at)
			f.metal[at] += b.Amount
		case Tank:
			f.reachDips(at)
			f.dips[at] = int32(min(1<<30, float64(f.dips[at])+math.Round(b.Amount)))
		case Heats:
			f.reachDay(at)
			f.heats[at] = int16(min(1<<14, float64(f.heats[at])+b.Amount))
		default:
			f.bookHours(b.What, at, toMinutes(b.Amount))
		}
	}
}

// reachDay makes room in the books of the furnace for a working day.
func (f *floor) reachDay(day int32) {
	for int32(len(f.heats)) <= day {
		f.heats, f.metal = append(f.heats, 0), append(f.metal, 0)
	}
}

// bookHours takes minutes of a pool from the morning on. What is over the day's
// capacity is not carried on: that day is full.
func (f *floor) bookHours(what string, day, minutes int32) {
	k := skill(slices.IndexFunc(skills[:], func(p pool) bool { return p.name == what }))
	if k == nobody {
		return
	}
	for s := day * f.slots; s < (day+1)*f.slots && minutes > 0; s++ {
		m := min(f.left(k, s), minutes)
		f.use(k, s, m)
		minutes -= m
	}
}

// bookings are what a floor has booked from a slot on, more than another that it
// was copied from, day by day.
func (f *floor) bookings(before *floor, from int32) []Booking {
	var out []Booking
	put := func(day int32, what string, amount float64) {
		if amount > 0 {
			out = append(out, Booking{dateOf(f.dates[day]), what, amount})
		}
	}
	last := max(len(f.heats), len(f.dips))
	for k := range pools {
		last = max(last, (len(f.free[k])+int(f.slots)-1)/int(f.slots))
	}
	for day := from / f.slots; int(day) < last; day++ {
		for k := range pools {
			put(day, k.String(), float64(f.dayLeft(before, k, day))/60)
		}
		put(day, Tank, float64(f.dipped(day)-before.dipped(day)))
		if int(day) < len(f.heats) {
			was, n := before.poured(day)
			put(day, Metal, f.metal[day]-was)
			put(day, Heats, float64(f.heats[day]-n))
		}
	}
	return out
}

// dayLeft is how many minutes of a pool less a floor has left on a day than
// before.
func (f *floor) dayLeft(before *floor, k skill, day int32) (minutes int32) {
	free, was := f.free[k], before.free[k]
	for s := int(day * f.slots); s < min(int((day+1)*f.slots), len(free)); s++ {
		if s < len(was) {
			minutes += int32(was[s] - free[s])
		} else {
			minutes += f.room[k] - int32(free[s])
		}
	}
	return minutes
}

// poured is the metal and the heats of a working day.
func (f *floor) poured(day int32) (kg float64, heats int16) {
	if int(day) < len(f.heats) {
		return f.metal[day], f.heats[day]
	}
	return 0, 0
}

// firstPour is the first day from the start on that has room for the first heat,
// zero where nothing is poured.
func (p *prepared) firstPour() time.Time {
	if len(p.batches) == 0 {
		return time.Time{}
	}
	f := p.floor.copy()
	for day := f.nextDay(p.from) / f.slots; int(day) < len(f.dates); day++ {
		if !f.pourDay(day) {
			continue
		}
		if n, _ := f.pourOn(p.crew, p.batches[0].heats[:1], day); n > 0 {
			return dateOf(f.dates[day])
		}
	}
	return time.Time{}
}
