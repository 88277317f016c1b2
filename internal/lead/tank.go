package lead

import "math"

// reachDips makes room in the books of the slurry tanks for a working day.
func (f *floor) reachDips(day int32) {
	for int32(len(f.dips)) <= day {
		f.dips = append(f.dips, 0)
	}
}

// dipped is how many sections are dipped on a working day.
func (f *floor) dipped(day int32) int32 {
	if int(day) < len(f.dips) {
		return f.dips[day]
	}
	return 0
}

// coat puts on coats, each when the one before has had its time to dry.
func (f *floor) coat(j *job, minutes, ready int32) (start, end int32, ok bool) {
	minutes = max(minutes, j.steps) // a coat takes at least a minute
	dry := float64(ready)
	for i := range j.steps {
		each := minutes / j.steps
		if i < minutes%j.steps {
			each++
		}
		if dry > float64(f.axis.end()) {
			return 0, 0, false
		}
		at, stood := max(int32(math.Ceil(dry-1e-9)), end), f.stood
		first, past, found := f.dip(j.skill, at, each, j.people*slotMinutes, j.dips)
		if !found {
			return 0, 0, false
		}
		if i == 0 {
			start = first
		}
		if first > at {
			dry = float64(first) // a late coat moves those after it
		}
		if f.stood > stood {
			dry = float64(past - 1) // its last section dries as long as the others
		}
		dry, end = dry+j.gap, past
	}
	return start, end, true
}

// dip takes minutes of a pool as work does, to dip so many sections, each on the
// day when its minutes begin: what the tanks cannot take on one day goes on with
// the next.
func (f *floor) dip(k skill, slot, minutes, atOnce, sections int32) (start, end int32, ok bool) {
	start, last := int32(-1), f.axis.end()
	atOnce = min(atOnce, f.room[k])
	for b := (bath{minutes: minutes, sections: sections}); b.spent < minutes || b.done < sections; {
		if slot >= last {
			return 0, 0, false
		}
		hands := min(f.left(k, slot), atOnce, minutes-b.spent)
		if hands < min(minutes-b.spent, slotMinutes) {
			slot++
			continue
		}
		spent, done, full := b.next(hands, f.tank-f.dipped(slot/f.slots))
		if done > 0 {
			f.reachDips(slot / f.slots)
			f.dips[slot/f.slots] += done
		}
		if spent > 0 {
			f.use(k, slot, spent)
		}
		b.spent, b.done = b.spent+spent, b.done+done
		if start < 0 && spent+done > 0 {
			start = slot
		}
		if slot++; full {
			morning := f.nextDay(slot)
			f.stood += morning - slot + 1
			slot = morning
		}
	}
	return start, slot, true
}

// bath is how far sections are through being dipped once, with the minutes of
// people that it takes.
type bath struct{ minutes, sections, spent, done int32 }

// next is what comes with so many more minutes of people where the tanks take so
// many more sections that day, and whether those are too few.
func (b bath) next(hands, room int32) (spent, done int32, full bool) {
	of := int64(b.minutes)
	due := int32((int64(b.sections)*int64(b.spent+hands)+of-1)/of) - b.done
	if due <= room {
		return hands, due, false
	}
	done = max(0, room)
	spent = int32(of*int64(b.done+done)/int64(b.sections)) - b.spent
	return max(0, spent), done, true
}
