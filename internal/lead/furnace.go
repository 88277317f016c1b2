package lead

// firing is one batch's way through the kiln: so many loads, each so many slots
// in a kiln, with somebody of the pour crew to tend it for so many minutes.
type firing struct {
	loads, slots, tending int32
}

// fire burns the loads out one after the other, each in the first kiln that is
// free for all its slots and can be tended meanwhile.
func (f *floor) fire(x firing, slot int32) (start, end int32, ok bool) {
	start = -1
	// However long the tending, the crew can do it in the load's time.
	slots := max(x.slots, (x.tending+f.room[pourer]-1)/f.room[pourer])
	for range x.loads {
		at, found := f.kilnFree(slot, slots, x.tending)
		if !found {
			return 0, 0, false
		}
		tending := x.tending
		for s := at; s < at+slots; s++ {
			f.use(kiln, s, slotMinutes)
			m := min(f.left(pourer, s), tending)
			f.use(pourer, s, m)
			tending -= m
		}
		if start < 0 {
			start = at
		}
		slot, end = at, max(end, at+slots)
	}
	return start, end, true
}

// kilnFree is the first slot from which one kiln is free for so many slots with
// so many minutes of the pour crew in them.
func (f *floor) kilnFree(slot, slots, tending int32) (int32, bool) {
	last := f.axis.end()
	for at := slot; at+slots <= last; at++ {
		run, hands := int32(0), int32(0)
		for run < slots && f.left(kiln, at+run) >= slotMinutes {
			hands += f.left(pourer, at+run)
			run++
		}
		if run == slots && hands >= tending {
			return at, true
		}
		if run < slots {
			at += run
		}
	}
	return 0, false
}

// crew is what pouring takes of the shop.
type crew struct {
	people      int32
	setup, heat int32   // minutes each, a pour day and a heat
	kg          float64 // most metal charged on a pour day
}

// heatsADay is how many heats a pour day holds; one even where it takes overtime.
func (f *floor) heatsADay(c crew) int32 {
	day := f.slots * slotMinutes
	if c.heat <= 0 {
		return 1 << 14
	}
	return max(1, (day-c.setup)/c.heat)
}

// pour pours heats, each so many kilograms charged, on the first pour days at or
// after slot whose metal, heats and crew are not all booked. Minutes is what the
// crew spent in all.
func (f *floor) pour(c crew, heats []float64, slot int32) (start, end, minutes int32, ok bool) {
	start = -1
	first := f.nextDay(slot) / f.slots
	for day := first; len(heats) > 0; day++ {
		if int(day) >= len(f.dates) {
			return 0, 0, 0, false
		}
		if !f.pourDay(day) {
			continue
		}
		n, spent := f.pourOn(c, heats, day)
		if n == 0 {
			continue
		}
		heats, minutes = heats[n:], minutes+spent
		if start < 0 {
			start = day * f.slots
		}
		end = (day + 1) * f.slots
	}
	return start, end, minutes, true
}

// pourOn pours as many of the heats as a pour day has metal, heats and crew for,
// and gives how many those were, and the crew's minutes.
func (f *floor) pourOn(c crew, heats []float64, day int32) (n int, minutes int32) {
	f.reachDay(day)
	hands := int32(0)
	for s := day * f.slots; s < (day+1)*f.slots; s++ {
		hands += f.left(pourer, s)
	}
	whole := f.room[pourer] * f.slots
	for _, kg := range heats {
		need := c.people * c.heat
		if f.heats[day] == 0 {
			need += c.people * c.setup
		}
		need = min(need, whole)
		// A heat over a day's metal is poured on a day of its own.
		full := f.metal[day]+kg > c.kg*(1+1e-6) && f.metal[day] > 0
		if full || int32(f.heats[day]) >= f.heatsADay(c) || minutes+need > hands {
			break
		}
		f.metal[day] += kg
		f.heats[day]++
		minutes += need
		n++
	}
	left := minutes
	for s := day * f.slots; left > 0; s++ {
		m := min(f.left(pourer, s), left)
		f.use(pourer, s, m)
		left -= m
	}
	return n, minutes
}
