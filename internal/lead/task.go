package lead

import (
	"time"
)

// Task is one stretch of work, or of waiting.
type Task struct {
	Name   string // "Gating of Dog, batch 2 of 3"
	Piece  int    // its number, or estimate.Whole
	Stage  string // of the estimate: "gating"
	Room   string // where it is done: "Wax room"
	Skill  string // who does it: "Wax worker"; empty while waiting
	People int    // at once, at most
	Hours  float64
	Start  time.Time // with the hour of the day, in UTC
	End    time.Time
	Wait   bool // for others, or for something to dry
	// Spare is how many weeks later it may end without delaying the whole;
	// Critical tasks have less than a working day.
	Critical bool
	Spare    float64
	After    []int   // the tasks that it waits for, by their place
	tank     float64 // weeks that it waited for the slurry tanks, before it began and since
}

// Rooms, in the order that work goes through them.
const (
	studio     = "Studio"
	mouldRoom  = "Mould room"
	waxRoom    = "Wax room"
	shellRoom  = "Shell room"
	kilnRoom   = "Kiln"
	furnace    = "Furnace"
	metalShop  = "Metal shop"
	patinaRoom = "Patina room"
	baseShop   = "Base shop"
	outside    = "With others"
	road       = "Road"
	site       = "Site"
)

// sort is how a job takes its time.
type sort int8

const (
	steady   sort = iota // hours of a pool, with breaks where it is needed elsewhere
	unbroken             // hours of a whole crew, without a break, from a morning on
	coats                // steps with drying between
	burning              // kiln loads
	pouring              // heats on pour days
	waiting              // days of the calendar
	idle                 // working days
)

// job is a task before it has its dates.
type job struct {
	name    string
	sort    sort
	piece   int
	stage   string
	room    string
	skill   skill
	people  int32
	minutes int32   // of people, in all
	steps   int32   // coats
	gap     float64 // slots from the start of a coat to the next
	dips    int32   // sections that each coat dips
	days    int32   // of waiting
	loads   firing
	heats   []float64 // kilograms charged
	rest    bool      // what comes after begins on another day
	after   []int32
	made    castings // whose failures hold up what comes after
}

// castings are the sections of a piece that a job makes, counted from 0 through
// all its casts.
type castings struct{ from, to int32 }

// ideal is how many slots a job takes with nobody in its way.
func (f *floor) ideal(j *job) int32 {
	switch j.sort {
	case waiting:
		return j.days * f.slots * 5 / 7
	case idle:
		return j.days * f.slots
	case pouring:
		return f.slots
	case burning:
		return (j.loads.loads*j.loads.slots + f.heads(kiln) - 1) / f.heads(kiln)
	case coats:
		days := int64(j.steps) * int64(j.dips) / int64(max(1, f.tank))
		return max(int32(float64(j.steps-1)*j.gap)+1, int32(min(days*int64(f.slots), int64(f.axis.end()))))
	}
	atOnce := min(j.people*slotMinutes, f.room[j.skill])
	return (j.minutes + atOnce - 1) / atOnce
}
