package lead

import (
	"time"
)

// axis counts the working days of a calendar from a first date on, and with
// them the slots: half hours of working time.
type axis struct {
	calendar
	base  int32   // the first date
	dates []int32 // of each working day
	next  []int32 // the first working day at or after base + i days
}

// newAxis lays the working days out from base over so many days.
func newAxis(c calendar, base, days int32) *axis {
	a := &axis{calendar: c, base: base, dates: make([]int32, 0, days), next: make([]int32, days)}
	closed := c.holidays(base, base+days)
	shut := int32(-1 << 30) // the last closed day so far
	for i := range days {
		day := base + i
		for len(closed) > 0 && closed[0].from <= day {
			shut = max(shut, closed[0].to)
			closed = closed[1:]
		}
		a.next[i] = int32(len(a.dates))
		if c.works[weekdayOf(day)] && day > shut {
			a.dates = append(a.dates, day)
		}
	}
	return a
}

// end is the first slot that is beyond the axis.
func (a *axis) end() int32 { return int32(len(a.dates)) * a.slots }

// slotAt is the first working slot at or after a date, or beyond the axis.
func (a *axis) slotAt(day int32) int32 {
	i := max(0, day-a.base)
	if int(i) >= len(a.next) {
		return a.end()
	}
	return a.next[i] * a.slots
}

// nextDay is slot itself if a day begins with it, else the next day's first.
func (a *axis) nextDay(slot int32) int32 { return (slot + a.slots - 1) / a.slots * a.slots }

// later is the first working slot when so many days have passed since the day
// that ends with, or holds, the half hour before slot. A wait that begins with
// the axis runs from its first date.
func (a *axis) later(slot, days int32) int32 {
	from := a.base
	if slot > 0 {
		from = a.dates[(slot-1)/a.slots]
	}
	return a.slotAt(from + days)
}

// pourDay tells whether the shop pours on a working day.
func (a *axis) pourDay(workday int32) bool { return a.pours[weekdayOf(a.dates[workday])] }

// dawn is when a working day begins: with the shop's hours about noon.
func (a *axis) dawn(workday int32) time.Time {
	idle := 24*60 - int(a.slots)*slotMinutes
	return dateOf(a.dates[workday]).Add(time.Duration(idle/2) * time.Minute)
}

// begins is when a slot begins; ends is when the one before it does.
func (a *axis) begins(slot int32) time.Time {
	return a.dawn(slot / a.slots).Add(time.Duration(slot%a.slots*slotMinutes) * time.Minute)
}

func (a *axis) ends(slot int32) time.Time {
	if slot == 0 {
		return a.begins(0)
	}
	return a.begins(slot - 1).Add(slotMinutes * time.Minute)
}
