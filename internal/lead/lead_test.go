package lead

import (
	"fmt"
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/shop"
)

// must is what a test and a rapid check have in common.
type must interface {
	require.TestingT
	Helper()
}

func day(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

// monday is the first day of the tests' schedules.
var monday = day(2026, 3, 2)

// bookWith is the starting shop book with some settings of it set.
func bookWith(t must, settings ...string) *shop.Shop {
	t.Helper()
	b := shop.Start()
	for i := 0; i < len(settings); i += 2 {
		b = b.With(settings[i], settings[i+1], "2026-01-01")
	}
	s, err := shop.Read(b)
	require.NoError(t, err)
	return s
}

func estimated(t must, c estimate.Commission, s *shop.Shop, start time.Time) Order {
	t.Helper()
	e, err := estimate.Of(c, s)
	require.NoError(t, err)
	return Order{c, e, start}
}

func planned(t must, o Order, s *shop.Shop, booked ...Booking) Schedule {
	t.Helper()
	out, err := Plan(o.Commission, o.Estimate, s, o.Start, booked)
	require.NoError(t, err)
	return out
}

// head is a small piece: a portrait head of 0.25 m² in three sections, from wax
// on, to be collected.
func head() estimate.Commission {
	return estimate.Commission{
		Title:  "Head",
		Inputs: map[string]string{"delivery.by": "by others"},
		Pieces: []estimate.Piece{{Name: "Head", Inputs: map[string]string{
			"form.known_by": "typed area", "form.area": "0.25 m²", "form.measured_height": "0.4 m", "form.start": "their mould", "form.sections": "3",
		}}},
	}
}

// group is a figure on granite with its dog, delivered and installed.
func group() estimate.Commission {
	return estimate.Commission{
		Title: "Group",
		Inputs: map[string]string{
			"pour.crucible": "Bilge no. 60", "delivery.distance": "140 km", "delivery.permits": "450", "delivery.site_works": "3200",
		},
		Pieces: []estimate.Piece{
			{Name: "Figure", Inputs: map[string]string{"form.dress": "coat and boots", "form.height": "2.19 m", "base.plinth": "block", "base.footing": "by us"}},
			{Name: "Dog", Inputs: map[string]string{"form.known_by": "animal", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m"}},
		},
	}
}

// edition is twelve casts of a small animal on wooden plinths.
func edition() estimate.Commission {
	return estimate.Commission{
		Title:  "Edition",
		Inputs: map[string]string{"delivery.by": "by others"},
		Pieces: []estimate.Piece{{Name: "Hare", Inputs: map[string]string{
			"form.known_by": "animal", "form.animal_mass": "4 kg", "form.measured_height": "0.3 m", "form.casts": "12", "form.sections": "2", "base.plinth": "block",
		}}},
	}
}

// random draws a commission that can be made.
func random(t *rapid.T) estimate.Commission {
	pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	c := estimate.Commission{Title: "Random", Inputs: map[string]string{
		"pour.crucible":     pick("crucible", "Bilge no. 30", "Bilge no. 90"),
		"delivery.by":       pick("delivered", "delivered and installed", "delivered", "by others"),
		"delivery.distance": pick("distance", "0 km", "90 km", "2500 km"),
		"delivery.permits":  pick("permits", "0", "300"),
	}}
	for range rapid.IntRange(1, 3).Draw(t, "pieces") {
		c.Pieces = append(c.Pieces, estimate.Piece{Name: "Piece", Inputs: map[string]string{
			"form.height":           pick("height", "0.5 m", "1.2 m", "1.8 m", "2.6 m"),
			"form.casts":            pick("casts", "1", "1", "3", "7"),
			"form.start":            pick("start", "nothing: we make the original", "their original", "their mould", "their wax", "their digital file"),
			"base.plinth":           pick("plinth", "no plinth", "drum"),
			"base.footing":          pick("footing", "none", "by us"),
			"patina.by":             pick("patina", "by us", "by others"),
			"shell.coats_a_day":     pick("coats a day", "0.5", "1", "1.5", "3"),
			"metalwork.knock_hours": pick("knock-off", "0 h/m²", "1.5 h/m²"),
		}})
	}
	return c
}

func TestAFigureStandsAfterAllItsWorkInItsOrder(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	p := planned(t, o, s)
	at := map[string]Task{}
	for _, x := range p.Tasks {
		at[x.Name] = x
	}
	chain := []string{
		"Sculpting of Figure", "Approval of Figure", "Mould of Figure", "Wax of Figure, batch 1 of 2", "Gating of Figure, batch 1 of 2",
		"Shell of Figure, batch 1 of 2", "Burn-out, batch 1 of 2", "Pour, batch 1 of 2", "Knock-off and blast of Figure, batch 1 of 2",
		"Fit, weld, chase of Figure", "Patina of Figure", "Mounting of Figure", "Crates and loading", "Freight", "Install",
	}
	for i, name := range chain {
		require.Contains(t, at, name)
		if i > 0 {
			assert.False(t, at[name].Start.Before(at[chain[i-1]].End), "%s after %s", name, chain[i-1])
		}
	}
	assert.Equal(t, monday, dateOf(dayOf(at["Plinth of Figure"].Start)), "stone is ordered on the first day")
	assert.Equal(t, monday, dateOf(dayOf(at["Engineer's design and stamp"].Start)))
	assert.Equal(t, at["Install"].End, p.Ready)
	assert.Equal(t, 1, at["Sculpting of Figure"].People)
	assert.Equal(t, 3, at["Pour, batch 1 of 2"].People)
	assert.Equal(t, "Wax room", at["Gating of Dog"].Room)
	assert.Equal(t, "Wax worker", at["Gating of Dog"].Skill)
	assert.True(t, at["Permits"].Wait)
	assert.InDelta(t, float64(dayOf(p.Ready)-dayOf(monday)+1)/7, p.Weeks, 1e-9)
	assert.InDelta(t, p.Weeks, p.Week(p.Ready), 1.0/7, "for drawings, to the hour")
}

func TestStagesByOthersDropOut(t *testing.T) {
	s := bookWith(t)
	c := head().With(0, "form.start", "their wax").With(0, "patina.by", "by others")
	p := planned(t, estimated(t, c, s, monday), s)
	stages := map[string]bool{}
	for _, x := range p.Tasks {
		stages[x.Stage] = true
	}
	assert.Equal(t, map[string]bool{"gating": true, "shell": true, "pour": true, "metalwork": true}, stages)
}

// Common practice, no source: small pieces go from wax to metal in about two to
// two and a half weeks.
func TestSmallPiecesAreTwoToTwoAndAHalfWeeksFromWaxToMetal(t *testing.T) {
	s := bookWith(t)
	sum := 0.0
	for d := range 5 {
		p := planned(t, estimated(t, head(), s, monday.AddDate(0, 0, d)), s)
		assert.Greater(t, p.WaxToMetal, 1.4)
		assert.Less(t, p.WaxToMetal, 2.9, "begun %d days into the week", d)
		sum += p.WaxToMetal
	}
	assert.GreaterOrEqual(t, sum/5, 2.0)
	assert.LessOrEqual(t, sum/5, 2.5)
}

func TestTheHoursOfTheScheduleAreThoseOfTheEstimate(t *testing.T) {
	s := bookWith(t)
	rapid.Check(t, func(t *rapid.T) {
		o := estimated(t, random(t), s, monday)
		want, got := map[string]float64{}, map[string]float64{}
		for _, l := range o.Estimate.Lines {
			if l.Class == estimate.Labour && l.Stage != "pour" {
				want[l.Stage] += l.Hours
			}
		}
		tasks := planned(t, o, s).Tasks
		for _, x := range tasks {
			if x.Stage != "pour" && !x.Wait {
				got[x.Stage] += x.Hours
			}
		}
		for stage, h := range want {
			require.InDelta(t, h, got[stage], float64(len(tasks))/60+0.01, stage) // each task in whole minutes
		}
		require.Len(t, got, len(want))
	})
}

func TestNothingBeginsBeforeWhatItWaitsForAndNobodyIsQuickerThanTheirHands(t *testing.T) {
	s := bookWith(t)
	rapid.Check(t, func(t *rapid.T) {
		p := planned(t, estimated(t, random(t), s, monday.AddDate(0, 0, rapid.IntRange(0, 400).Draw(t, "start"))), s)
		need := map[string]float64{}
		for _, x := range p.Tasks {
			for _, a := range x.After {
				require.False(t, x.Start.Before(p.Tasks[a].End), "%s after %s", x.Name, p.Tasks[a].Name)
			}
			require.True(t, x.End.After(x.Start) || x.Wait, x.Name)
			if !x.Wait && x.Stage != "pour" {
				require.GreaterOrEqual(t, x.End.Sub(x.Start).Hours()+0.51, x.Hours/float64(x.People), x.Name)
			}
			need[x.Skill] += x.Hours
			require.GreaterOrEqual(t, x.Spare, 0.0)
		}
		delete(need, "")
		for skill, hours := range need {
			require.LessOrEqual(t, hours, working(p)*8*heads(t, s, skill), "%s: work ÷ capacity", skill)
		}
	})
}

// working counts the working days of a schedule, holidays with them.
func working(p Schedule) (n float64) {
	for d := p.Start; !d.After(p.Ready); d = d.AddDate(0, 0, 1) {
		if d.Weekday() != time.Saturday && d.Weekday() != time.Sunday {
			n++
		}
	}
	return n
}

func heads(t must, s *shop.Shop, name string) float64 {
	for _, p := range skills {
		if p.name == name {
			return s.Num(*p.heads)
		}
	}
	require.Fail(t, "no such pool", name)
	return 0
}

func TestTheLastTaskHasNothingToSpareAndAFreeOneHas(t *testing.T) {
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	critical := 0
	for _, x := range p.Tasks {
		if x.Critical {
			critical++
		}
		switch x.Name {
		case "Install":
			assert.True(t, x.Critical)
			assert.Zero(t, x.Spare)
		case "Plinth of Figure", "Permits":
			assert.False(t, x.Critical)
			assert.Greater(t, x.Spare, 4.0)
		}
	}
	assert.Greater(t, critical, 4)
}

// A spare is a promise: the task may end that much later, and the whole is not
// delayed. Waits are the tasks that a test can make longer.
func TestAWaitMayTakeItsSpareLongerWithoutDelay(t *testing.T) {
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	for _, x := range p.Tasks {
		if x.Name == "Plinth of Figure" {
			longer := bookWith(t, "wait.stone", inWeeks(6+x.Spare-0.3))
			assert.Equal(t, p.Ready, planned(t, estimated(t, group(), longer, monday), longer).Ready)
			late := bookWith(t, "wait.stone", inWeeks(6+x.Spare+0.5))
			assert.True(t, planned(t, estimated(t, group(), late, monday), late).Ready.After(p.Ready))
		}
	}
}

func TestASecondBatchOfAnEditionIsKnockedOffWhileTheFirstIsChased(t *testing.T) {
	s := bookWith(t, "pour.weekly", "20 kg")
	p := planned(t, estimated(t, edition(), s, monday), s)
	var names []string
	for _, x := range p.Tasks {
		if x.Stage == "metalwork" {
			names = append(names, x.Name)
		}
	}
	assert.Contains(t, names, "Fit, weld, chase, casts 1–2")
	assert.Len(t, names, 12, "two casts fill a pour day of 20 kg")
}

func TestAYearsWorkForOnePersonIsRefusedInWords(t *testing.T) {
	s := bookWith(t)
	c := head().With(0, "form.casts", "9000")
	_, err := Plan(c, estimated(t, c, s, monday).Estimate, s, monday, nil)
	assert.ErrorContains(t, err, "Schedule comes out longer than the ten years it is made for; give the shop more")
}

// Whatever a shop book says, there is a schedule that holds together, or a
// sentence.
func TestOddShopsAreScheduledOrToldWhyNot(t *testing.T) {
	odd := map[string][]string{
		"calendar.hours": {"0.5 h", "16 h"}, "calendar.days": {"Sunday", "Monday to Sunday", "Tue"}, "calendar.pour_days": {"Sunday", "Monday to Sunday", "Tue"},
		"calendar.kilns": {"1", "500"}, "calendar.kiln_hours": {"0.5 h", "200 h"}, "people.metal": {"1", "500"}, "people.at_one": {"1", "500"},
		"calendar.tank_dips": {"1", "100000"},
		"wait.stone":         {"0", "520"}, "wait.crates": {"0", "520"}, "wait.freight_day": {"1 km", "100000 km"}, "shell.coats_a_day": {"0.000001", "1000000"},
		"shell.fine": {"0", "1000000000"}, "pour.weekly": {"1 g", "1000000 kg"}, "pour.people": {"1", "1000000"}, "pour.day_hours": {"0 h", "1000000000 h"},
		"pour.heat_hours": {"0 h", "1000000000 h"}, "pour.burnout_load": {"1", "1000000"}, "pour.burnout_hours": {"0 h", "1000000000 h"},
		"metal.chase": {"0 h/m²", "100000000 h/m²"}, "delivery.crew": {"1", "1000000"}, "delivery.day_hours": {"0.01 h", "1000000 h"},
		"calendar.holidays": {"2026-01-01 to 2200-01-01", "02-29, 2026-03-02 to 2026-12-31", ""},
	}
	keys := slices.Sorted(maps.Keys(odd))
	rapid.Check(t, func(t *rapid.T) {
		var settings []string
		for _, k := range rapid.SliceOfNDistinct(rapid.SampledFrom(keys), 0, 4, rapid.ID).Draw(t, "settings") {
			settings = append(settings, k, rapid.SampledFrom(odd[k]).Draw(t, k))
		}
		s := bookWith(t, settings...)
		c := random(t)
		e, err := estimate.Of(c, s)
		if err != nil {
			return
		}
		p, err := Plan(c, e, s, monday, nil)
		if err != nil {
			require.NotEmpty(t, fault.All(err)[0].Remedy)
			return
		}
		for _, x := range p.Tasks {
			require.False(t, x.End.Before(x.Start), x.Name)
			for _, a := range x.After {
				require.False(t, x.Start.Before(p.Tasks[a].End), x.Name)
			}
		}
		require.False(t, p.Ready.Before(p.Start))
		for _, b := range p.Bookings {
			require.Positive(t, b.Amount)
		}
	})
}

func TestACommissionWithFaultsHasNoSchedule(t *testing.T) {
	s := bookWith(t)
	_, err := Plan(head().With(0, "form.wall", "-1"), nil, s, monday, nil)
	assert.ErrorContains(t, err, "Wall thickness “-1” is below zero")
	_, err = Plan(head(), nil, s, monday, nil)
	assert.ErrorContains(t, err, "has no estimate")
}

func inWeeks(w float64) string { return fmt.Sprintf("%.2f", w) }
