package lead

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A hundred sections in tanks that dip forty a day: two full days and a half
// empty one, whatever few hours they take.
func TestSectionsBeyondADaysTankAreDippedOnTheNext(t *testing.T) {
	f := openFloor(t)
	j := job{sort: coats, skill: sheller, people: 2, steps: 1, gap: 8, dips: 100}
	start, end, ok := f.coat(&j, 10*60, 0)
	require.True(t, ok)
	assert.Zero(t, start)
	assert.Equal(t, []int32{40, 40, 20}, f.dips)
	assert.Equal(t, 2*f.slots+2, end, "the last two hours, of two people")
	assert.EqualValues(t, 600, 2*f.slots*f.room[sheller]+2*f.room[sheller]-left(f, sheller, end), "all its hours")
}

// left sums what a pool has before a slot.
func left(f *floor, k skill, end int32) (minutes int32) {
	for s := range end {
		minutes += f.left(k, s)
	}
	return minutes
}

// The second coat goes on when the last section of the first has dried as long
// as the others.
func TestACoatThatTheTankDividedDriesBeforeTheNext(t *testing.T) {
	f := openFloor(t)
	j := job{sort: coats, skill: sheller, people: 2, steps: 2, gap: 8, dips: 50}
	_, end, ok := f.coat(&j, 2*60, 0)
	require.True(t, ok)
	assert.Equal(t, []int32{40, 40, 20}, f.dips)
	assert.Equal(t, 2*f.slots+1, end)
}

func TestTheMoreTheTanksDipTheLessWaitsForThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := random(t)
		few, many := bookWith(t, "calendar.tank_dips", "5"), bookWith(t, "calendar.tank_dips", "100000")
		for _, x := range planned(t, estimated(t, c, many, monday), many).Tasks {
			require.Zero(t, x.tank, x.Name)
		}
		p := planned(t, estimated(t, c, few, monday), few)
		for _, x := range p.Tasks {
			require.LessOrEqual(t, x.tank, p.Weeks, x.Name)
		}
	})
}

// An edition fills the tanks for weeks; what is dipped after it waits, and is told
// for what.
func TestAQuoteThatWaitsForTheTanksSaysSo(t *testing.T) {
	s := bookWith(t, "calendar.tank_dips", "12")
	var booked []Booking
	for d := range 45 {
		booked = append(booked, Booking{monday.AddDate(0, 0, d), Tank, 12})
	}
	p := planned(t, estimated(t, head(), s, monday), s, booked...)
	iso := func(t time.Time) string { return t.Format(time.DateOnly) }
	assert.Equal(t, "2026-04-16", iso(p.tankFree()), "the first working day with room")
	assert.Regexp(t, `waited for longest: Slurry tank, free from 2026-04-16\.$`, p.After(1, iso))
}

// tankFree is the day of the first dip.
func (s Schedule) tankFree() (day time.Time) {
	for _, b := range s.Bookings {
		if b.What == Tank && (day.IsZero() || b.Date.Before(day)) {
			day = b.Date
		}
	}
	return day
}

// A casting made again is dipped again.
func TestACastingMadeAgainGoesThroughTheTanks(t *testing.T) {
	s := bookWith(t)
	p, err := prepare(estimated(t, head(), s, monday), s, nil)
	require.NoError(t, err)
	f := p.floor.copy()
	_, ok := f.castAgain(p.remake, p.crew, 0, 5, f.slots)
	require.True(t, ok)
	sum, coats := int32(0), int32(p.order.Estimate.Pieces[0].Coats)
	for _, n := range f.dips {
		require.LessOrEqual(t, n, f.tank)
		sum += n
	}
	assert.Equal(t, 5*coats, sum)
}

func TestATankBookedOverIsFullAndNoMore(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, head(), s, monday)
	p := planned(t, o, s, Booking{monday.AddDate(0, 0, 3), Tank, 1e18})
	for _, b := range p.Bookings {
		if b.What == Tank {
			assert.NotEqual(t, monday.AddDate(0, 0, 3), b.Date)
			assert.LessOrEqual(t, b.Amount, 40.0)
		}
	}
}
