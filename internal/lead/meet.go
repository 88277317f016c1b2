package lead

import (
	"fmt"
	"time"

	"meltwright/internal/shop"
)

// Meeting says whether a required date can be met, and what would have to give.
type Meeting struct {
	Required time.Time
	Ready    time.Time // as planned from the start asked for
	Met      bool
	// Latest is the last working day on which the work may begin and still be
	// ready; zero where none within four years before the required date does.
	Latest time.Time
	// Gives are what would bring the date nearer, where it is not met. Fewer
	// coats is none of them: a shell too thin breaks under the metal.
	Gives []Give
}

// Give is something the shop could do, and when the work would then be ready.
type Give struct {
	What  string // "Pour on Tuesday too"
	Ready time.Time
	Met   bool
}

// Meet schedules an order against a required date.
func Meet(o Order, s *shop.Shop, required time.Time, booked []Booking) (Meeting, error) {
	p, err := prepare(o, s, booked)
	if err != nil {
		return Meeting{}, err
	}
	m := Meeting{Required: dateOf(dayOf(required))}
	if m.Ready, err = p.ready(); err != nil {
		return Meeting{}, err
	}
	m.Met = dayOf(m.Ready) <= dayOf(required)
	if m.Latest, err = latestStart(o, s, dayOf(required), booked); err != nil {
		return Meeting{}, err
	}
	if !m.Met {
		m.Gives, err = gives(o, s, dayOf(required), m.Ready, booked)
	}
	return m, err
}

// ready levels the order on a copy of its floor and gives the day it stands.
func (p *prepared) ready() (time.Time, error) {
	var t times
	if !p.level(p.floor.copy(), p.from, &t, nil) {
		return time.Time{}, tooLong
	}
	return dateOf(dayOf(p.floor.ends(t.last))), nil
}

// yearsBack is how far before the required date a start is looked for.
const yearsBack = 4

// latestStart finds the last working day from which the work is ready by day
// required. It tries every one: what is booked may make a start of a day earlier
// ready weeks before.
func latestStart(o Order, s *shop.Shop, required int32, booked []Booking) (time.Time, error) {
	cal, err := readCalendar(s)
	if err != nil {
		return time.Time{}, err
	}
	f := newFloor(newAxis(cal, required-yearsBack*366, (yearsBack+mostYears)*366), s)
	f.book(booked)
	p, err := prepareOn(f, o, s)
	if err != nil {
		return time.Time{}, err
	}
	var t times
	for from := f.slotAt(required+1) - f.slots; from >= 0; from -= f.slots {
		if p.level(f.copy(), from, &t, nil) && dayOf(f.ends(t.last)) <= required {
			return f.begins(from).Truncate(24 * time.Hour), nil
		}
	}
	return time.Time{}, nil
}

// way is something that would have to give, as a calendar that gives it.
type way struct {
	what string
	cal  calendar
	can  bool
	gain bool // said only where it brings the date nearer
}

// ways are a second pour day, overtime, both, and more dipped a day.
func (c calendar) ways(s *shop.Shop) []way {
	more, name := c, ""
	if d, ok := c.anotherPour(); ok {
		more.pours[d] = true
		name = "Pour on " + time.Weekday(d).String() + " too"
	}
	extra := s.Num(shop.Overtime)
	long, both, twice := c, more, c
	long.setHours(s.Num(shop.WorkHours) + extra)
	long.tank = int32(int64(c.tank) * int64(long.slots) / int64(c.slots)) // the tanks dip longer too
	both.slots, both.tank = long.slots, long.tank
	twice.tank = 2 * c.tank
	hours := "Work " + inHours(extra) + " of overtime a day"
	dips := fmt.Sprintf("Dip %d sections a day, with more slurry tanks", twice.tank)
	return []way{
		{name, more, name != "", false},
		{hours, long, long.slots > c.slots, false},
		{name + "; w" + hours[1:], both, name != "" && long.slots > c.slots, false},
		{dips, twice, true, true},
	}
}

// gives tries each way against a required date; without any, the work is ready
// when plain says.
func gives(o Order, s *shop.Shop, required int32, plain time.Time, booked []Booking) ([]Give, error) {
	cal, err := readCalendar(s)
	if err != nil {
		return nil, err
	}
	var out []Give
	for _, try := range cal.ways(s) {
		if !try.can {
			continue
		}
		f := newFloor(newAxis(try.cal, dayOf(o.Start), mostYears*366), s)
		f.book(booked)
		p, err := prepareOn(f, o, s)
		if err != nil {
			return nil, err
		}
		ready, err := p.ready()
		if err != nil {
			return nil, err
		}
		if !try.gain || ready.Before(plain) {
			out = append(out, Give{try.what, ready, dayOf(ready) <= required})
		}
	}
	return out, nil
}

// anotherPour is the working day farthest in the week from those the shop pours
// on, the earlier of two; false where it pours every working day.
func (c *calendar) anotherPour() (day int, ok bool) {
	best := 0
	for at := range 7 {
		d := (at + 1) % 7 // from Monday
		near := 7
		for e, pours := range c.pours {
			if pours {
				near = min(near, (d-e+7)%7, (e-d+7)%7)
			}
		}
		if c.works[d] && near > best {
			best, day, ok = near, d, true
		}
	}
	return day, ok
}
