package lead

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/shop"
)

func TestWhatAScheduleBooksIsItsHours(t *testing.T) {
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	booked, hours := map[string]float64{}, map[string]float64{}
	for i, b := range p.Bookings {
		booked[b.What] += b.Amount
		if i > 0 {
			assert.False(t, b.Date.Before(p.Bookings[i-1].Date), "in the order of days")
		}
	}
	for _, x := range p.Tasks {
		if !x.Wait {
			hours[x.Skill] += x.Hours
		}
	}
	for skill, h := range hours {
		assert.InDelta(t, h, booked[skill], 0.5, skill)
	}
	e := estimated(t, group(), s, monday).Estimate
	assert.InDelta(t, float64(e.Charged), booked[Metal], 1e-6)
	assert.EqualValues(t, len(e.Heats), booked[Heats])
	assert.Greater(t, booked[Kiln], 10.0)
	dips := 0
	for _, x := range e.Pieces {
		dips += x.Sections * x.Casts * x.Coats
	}
	assert.EqualValues(t, dips, booked[Tank], "every coat of every section is a dip")
}

// Accepted quotes come first: on no day is more booked than the shop has.
func TestWithWhatIsBookedNoDayIsOverItsCapacity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := bookWith(t, "calendar.tank_dips", rapid.SampledFrom([]string{"8", "17", "40"}).Draw(t, "dips"))
		var booked []Booking
		var last Schedule
		for i := range 3 {
			last = planned(t, estimated(t, random(t), s, monday.AddDate(0, 0, 3*i)), s, booked...)
			booked = append(booked, last.Bookings...)
			require.False(t, last.Ready.Before(last.Unbooked), "a delay is never negative")
		}
		type key struct {
			day  time.Time
			what string
		}
		sums := map[key]float64{}
		for _, b := range booked {
			sums[key{b.Date, b.What}] += b.Amount
		}
		for k, amount := range sums {
			switch k.what {
			case Metal:
				if n := sums[key{k.day, Heats}]; n > 1 {
					require.LessOrEqual(t, amount, 450*0.45359237*1.0001)
				}
				require.Equal(t, time.Thursday, k.day.Weekday())
			case Heats:
				require.LessOrEqual(t, amount, 8.0)
			case Tank:
				require.LessOrEqual(t, amount, s.Num(shop.TankDips), k.day.Format(time.DateOnly))
			default:
				require.LessOrEqual(t, amount, 8*heads(t, s, k.what)+1e-9, "%s on %s", k.what, k.day.Format(time.DateOnly))
			}
		}
	})
}

func TestANewQuoteIsScheduledAfterWhatIsBookedAndSaysSo(t *testing.T) {
	s := bookWith(t)
	first := planned(t, estimated(t, group(), s, monday), s)
	second := planned(t, estimated(t, group(), s, monday), s, first.Bookings...)
	assert.Equal(t, first.Ready, second.Unbooked)
	assert.True(t, second.Ready.After(first.Ready))
	iso := func(t time.Time) string { return t.Format(time.DateOnly) }
	assert.Regexp(t, `^After 3 accepted quotes; the first pour day free is 2026-03-05\. Ready \d+ weeks later than in an empty shop; waited for longest: Sculptor, free from 2026-\d\d-\d\d\.$`, second.After(3, iso))
	assert.Empty(t, first.After(0, iso))
	beside := planned(t, estimated(t, head(), s, monday), s, Booking{monday, "Sculptor", 8})
	assert.Equal(t, "After 1 accepted quote; the first pour day free is 2026-03-05. It fits in beside them without delay.", beside.After(1, iso))
}

// A pour day is free when metal, heats and hands are left for the first heat.
func TestTheFirstPourDayFreeIsTheOneWithRoomForTheFirstHeat(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	first, second := monday.AddDate(0, 0, 3), monday.AddDate(0, 0, 10)
	for what, b := range map[string]Booking{
		"metal": {first, Metal, 200}, "heats": {first, Heats, 8}, "hands": {first, "Pour crew", 24},
	} {
		assert.Equal(t, second, planned(t, o, s, b).FirstPour, what)
	}
	assert.Equal(t, first, planned(t, o, s, Booking{first, Heats, 1}).FirstPour, "it shares the day")
	assert.Zero(t, planned(t, o, s).FirstPour, "nothing is booked")
}

func TestBookingsThatCannotMatterAreLeftAlone(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, head(), s, monday)
	plain := planned(t, o, s)
	odd := planned(t, o, s,
		Booking{monday.AddDate(0, 0, -3), "Wax worker", 16},
		Booking{monday.AddDate(0, 0, 5), "Wax worker", 16}, // a Saturday
		Booking{monday, "Astronomer", 8}, Booking{monday, "Wax worker", -8}, Booking{day(3026, 1, 1), "Wax worker", 8})
	assert.Equal(t, plain.Ready, odd.Ready)
	full := planned(t, o, s, Booking{monday, "Wax worker", 1e9})
	assert.Equal(t, monday.AddDate(0, 0, 1), dateOf(dayOf(full.Tasks[0].Start)), "a day booked over is full, and no more")
}

func TestAYearIsLevelledAsEachQuoteAfterThoseBefore(t *testing.T) {
	s, orders := bookWith(t), year(t)[:6]
	all, err := Fit(orders, s)
	require.NoError(t, err)
	require.Len(t, all, len(orders))
	assert.Equal(t, planned(t, orders[0], s).Tasks, all[0].Tasks)
	for i, o := range orders {
		assert.Equal(t, o.Start, all[i].Start)
		assert.False(t, all[i].Tasks[0].Start.Before(o.Start))
	}
	odd := append([]Order{{Commission: head().With(0, "form.wall", "-1"), Start: monday}}, orders...)
	after, err := Fit(odd, s)
	require.NoError(t, err)
	assert.Zero(t, after[0], "what cannot be scheduled takes nothing")
	assert.Equal(t, all, after[1:])
	none, err := Fit(nil, s)
	assert.NoError(t, err)
	assert.Empty(t, none)
}
