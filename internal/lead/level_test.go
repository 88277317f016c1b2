package lead

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/shop"
)

// openFloor is a shop that works every day, without holidays.
func openFloor(t must, settings ...string) *floor {
	s := bookWith(t, append([]string{"calendar.days", "Monday to Sunday", "calendar.holidays", ""}, settings...)...)
	cal, err := readCalendar(s)
	require.NoError(t, err)
	return newFloor(newAxis(cal, dayOf(monday), 400), s)
}

// again is the floor with nothing booked.
func (f *floor) again() *floor { return &floor{axis: f.axis, room: f.room} }

// randomJobs draws a few jobs of few skills that wait for earlier ones.
func randomJobs(t *rapid.T, most int) []job {
	jobs := make([]job, rapid.IntRange(1, most).Draw(t, "jobs"))
	for i := range jobs {
		j := &jobs[i]
		j.skill = rapid.SampledFrom([]skill{waxer, welder}).Draw(t, "skill")
		j.people = rapid.Int32Range(1, 2).Draw(t, "people")
		j.minutes = rapid.Int32Range(1, 40).Draw(t, "slots") * slotMinutes
		switch rapid.IntRange(0, 5).Draw(t, "sort") {
		case 0:
			j.sort, j.skill, j.days = idle, nobody, 1
		case 1:
			j.sort, j.steps, j.gap = coats, rapid.Int32Range(1, 5).Draw(t, "coats"), 10.5
		}
		for a := range i {
			if rapid.IntRange(0, 2).Draw(t, "after") == 0 {
				j.after = append(j.after, int32(a))
			}
		}
	}
	return jobs
}

func leveled(t must, f *floor, jobs []job) (*plan, times) {
	p, err := newPlan(f, jobs, crew{}, 0)
	require.NoError(t, err)
	var at times
	require.True(t, p.level(f, 0, &at, nil))
	return p, at
}

func TestWithHandsEnoughTheScheduleIsTheCriticalPath(t *testing.T) {
	open := openFloor(t, "people.wax", "400", "people.metal", "400")
	rapid.Check(t, func(t *rapid.T) {
		f := open.again()
		jobs := randomJobs(t, 12)
		list := make([]activity, len(jobs))
		for i := range jobs {
			if jobs[i].sort == coats { // each coat takes its hours, besides its drying
				jobs[i].minutes = jobs[i].steps * slotMinutes
			}
			list[i] = activity{f.ideal(&jobs[i]), jobs[i].after}
		}
		path, err := criticalPath(list)
		require.NoError(t, err)
		_, at := leveled(t, f, jobs)
		for i, j := range jobs {
			slack := 0
			for _, x := range jobs {
				if x.sort == coats {
					slack++ // a coat begins with a whole half hour
				}
			}
			require.InDelta(t, path.earlyFinish[i], at.end[i], float64(slack), "job %d, sort %d", i, j.sort)
		}
		require.GreaterOrEqual(t, at.last, path.length)
	})
}

// orders lists every order of the jobs in which each comes after what it waits for.
func orders(jobs []job, done []int32) (out [][]int32) {
	if len(done) == len(jobs) {
		return [][]int32{append([]int32{}, done...)}
	}
	for i := range jobs {
		free := true
		for _, d := range done {
			free = free && d != int32(i)
		}
		for _, a := range jobs[i].after {
			found := false
			for _, d := range done {
				found = found || d == a
			}
			free = free && found
		}
		if free {
			out = append(out, orders(jobs, append(done, int32(i)))...)
		}
	}
	return out
}

// Every order gives a schedule of the serial scheme, so the best of them all is
// a bound for the one taken. Nobody promises more of a rule; on these five
// hundred networks it is within a half of the best, and mostly the best itself.
func TestTheScheduleIsNeverBetterThanTheBestOfAllOrdersAndSeldomWorse(t *testing.T) {
	open := openFloor(t, "people.wax", "1", "people.metal", "1")
	networks := rapid.Custom(func(t *rapid.T) []job { return randomJobs(t, 5) })
	same := 0
	for seed := range 500 {
		jobs := networks.Example(seed)
		p, at := leveled(t, open.again(), jobs)
		best := int32(1 << 30)
		for _, order := range orders(jobs, nil) {
			q, other := plan{jobs: p.jobs, order: order}, times{}
			require.True(t, q.level(open.again(), 0, &other, nil))
			best = min(best, other.last)
		}
		require.GreaterOrEqual(t, at.last, best)
		require.LessOrEqual(t, float64(at.last), 1.5*float64(best), "network %d", seed)
		if at.last == best {
			same++
		}
	}
	t.Logf("%d of 500 are the best of all orders", same)
	assert.Greater(t, same, 450)
}

func TestNoPoolNoTankAndNoPourDayIsEverOverItsCapacity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := bookWith(t, "calendar.tank_dips", rapid.SampledFrom([]string{"8", "17", "40"}).Draw(t, "dips"))
		f := (*floor)(nil)
		for range rapid.IntRange(1, 3).Draw(t, "orders") {
			o := estimated(t, random(t), s, monday)
			p, err := prepare(o, s, nil)
			require.NoError(t, err)
			if f != nil {
				p, err = prepareOn(f, o, s)
				require.NoError(t, err)
			}
			_, err = p.schedule()
			require.NoError(t, err)
			f = p.floor
			checkFloor(t, f, p.crew, s)
		}
	})
}

func checkFloor(t must, f *floor, c crew, s *shop.Shop) {
	for k := range pools {
		for slot, left := range f.free[k] {
			require.GreaterOrEqual(t, left, int16(0), "%s in slot %d", k, slot)
			require.LessOrEqual(t, int32(left), f.room[k])
		}
	}
	for at, n := range f.dips {
		require.LessOrEqual(t, n, f.tank, "dips of day %d", at)
	}
	for at := range f.heats {
		require.LessOrEqual(t, int32(f.heats[at]), f.heatsADay(c))
		if f.heats[at] > 1 {
			require.LessOrEqual(t, f.metal[at], s.Num(shop.WeeklyPour)*1.0001)
		}
		if f.heats[at] > 0 {
			require.True(t, f.pourDay(int32(at)), "the shop pours on Thursdays")
		}
	}
}

func TestAnUnbrokenJobHasItsWholeCrewFromAMorningOn(t *testing.T) {
	f := openFloor(t)
	f.use(installer, 2*f.slots+3, 1) // somebody is away for a minute on the third day
	start, end, ok := f.together(installer, f.nextDay(f.slots+1), 3*8*60, 3*slotMinutes)
	require.True(t, ok)
	assert.Equal(t, 2*f.slots+4, start)
	assert.Equal(t, start+f.slots, end)
}

func TestCoatsOfAShellFollowTheirDrying(t *testing.T) {
	f := openFloor(t)
	j := job{sort: coats, skill: sheller, people: 2, steps: 12, gap: float64(f.slots) / 1.5}
	start, end, ok := f.coat(&j, 12*30, 0)
	require.True(t, ok)
	assert.Zero(t, start)
	// Eleven times two thirds of a day, and the last half hour.
	assert.EqualValues(t, 11*16*2/3+2, end, "twelve coats at 1.5 a day")
}

func TestTwoKilnsBurnTwoLoadsAtATime(t *testing.T) {
	x := firing{loads: 4, slots: 8, tending: 90}
	_, end, ok := openFloor(t).fire(x, 0)
	require.True(t, ok)
	assert.EqualValues(t, 32, end)
	_, end, _ = openFloor(t, "calendar.kilns", "2").fire(x, 0)
	assert.EqualValues(t, 16, end)
}

func TestPoursWaitForTheirWeekdayAndItsMetal(t *testing.T) {
	f := openFloor(t) // from a Monday; Thursday is the fourth day
	c := crew{people: 3, setup: 240, heat: 30, kg: 200}
	start, end, minutes, ok := f.pour(c, []float64{90, 90, 90, 250}, 1)
	require.True(t, ok)
	assert.Equal(t, 3*f.slots, start)
	assert.Equal(t, 18*f.slots, end, "two heats, one, and one over a day's metal by itself: three Thursdays")
	assert.EqualValues(t, 3*(3*240+4*30), minutes)
	assert.Equal(t, []float64{180, 90, 250}, []float64{f.metal[3], f.metal[10], f.metal[17]})
	assert.EqualValues(t, 8, f.heatsADay(c), "four hours, then half an hour a heat")
}
