package shop

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// Calendar: when the shop works, who can do what, and how long the shop waits
// for others. Two days in the week, the pour days among them, the skills and the
// waits are a small foundry's common practice, to be replaced by the shop's own.
var (
	WorkDays  = words("Calendar", "calendar.days", "Working days", "Monday to Friday")
	WorkHours = number("Calendar", "calendar.hours", "Hours of a working day", quantity.KindTime, "8 h", field.Bounds{Min: 0.5, Max: 16}, "")
	Holidays  = words("Calendar", "calendar.holidays", "Holidays (2026-12-24 to 2027-01-02, or 12-25 for every year)", "01-01, 12-25, 12-26")
	PourDays  = words("Calendar", "calendar.pour_days", "The shop pours on", "Thursday")
	Overtime  = number("Calendar", "calendar.overtime", "Overtime that can be asked of a day", quantity.KindTime, "2 h", field.Bounds{Max: 8}, "")
	Kilns     = number("Calendar", "calendar.kilns", "Burn-out kilns", quantity.KindCount, "1", people, "")
	KilnHours = number("Calendar", "calendar.kiln_hours", "A burn-out load is in the kiln for", quantity.KindTime, "4 h", field.Bounds{Min: 0.5, Max: 200}, "")
	TankDips  = number("Calendar", "calendar.tank_dips", "Sections the slurry tanks dip a day", quantity.KindCount, "40", field.Bounds{Min: 1, Max: 100_000}, "common practice, no source")

	PeopleSculptor = number("Calendar", "people.sculptor", "People who sculpt", quantity.KindCount, "1", people, "")
	PeopleMould    = number("Calendar", "people.mould", "People who make moulds", quantity.KindCount, "2", people, "")
	PeopleWax      = number("Calendar", "people.wax", "People who work wax", quantity.KindCount, "2", people, "")
	PeopleShell    = number("Calendar", "people.shell", "People in the shell room", quantity.KindCount, "2", people, "")
	PeopleMetal    = number("Calendar", "people.metal", "People who weld and chase", quantity.KindCount, "2", people, "")
	PeoplePatina   = number("Calendar", "people.patina", "People who patinate", quantity.KindCount, "1", people, "")
	PeopleBase     = number("Calendar", "people.base", "People for bases and frames", quantity.KindCount, "1", people, "")
	PeopleAtOne    = number("Calendar", "people.at_one", "People on one task at most", quantity.KindCount, "2", people, "")

	WaitApproval = number("Calendar", "wait.approval", "The client approves the original in (working days)", quantity.KindFactor, "5", waiting, "")
	WaitWaxes    = number("Calendar", "wait.waxes", "The client approves the waxes in (working days; 0 where not asked)", quantity.KindFactor, "0", waiting, "")
	WaitOutput   = number("Calendar", "wait.output", "A printed or milled original comes in (weeks)", quantity.KindFactor, "2", waiting, "")
	WaitStone    = number("Calendar", "wait.stone", "A plinth comes in (weeks)", quantity.KindFactor, "6", waiting, "")
	WaitEngineer = number("Calendar", "wait.engineer", "The engineer stamps in (weeks)", quantity.KindFactor, "3", waiting, "")
	WaitPermits  = number("Calendar", "wait.permits", "Permits come in (weeks)", quantity.KindFactor, "4", waiting, "the local office decides")
	WaitFooting  = number("Calendar", "wait.footing", "A footing is dug, poured and cured in (weeks)", quantity.KindFactor, "3", waiting, "the engineer decides when it may be loaded")
	WaitSite     = number("Calendar", "wait.site", "Site works are done in (weeks)", quantity.KindFactor, "2", waiting, "")
	WaitCrates   = number("Calendar", "wait.crates", "Crating and loading take (working days)", quantity.KindFactor, "1", waiting, "")
	FreightDay   = number("Calendar", "wait.freight_day", "A carrier covers in a day", quantity.KindLength, "600 km", field.Bounds{Min: 1000, Max: 1e8}, "")
	WaitRecast   = number("Calendar", "wait.recast", "A casting made again holds its piece up by (weeks)", quantity.KindFactor, "2", waiting, "")
)

// people and waiting bound the head counts and the waits.
var (
	people  = field.Bounds{Min: 1, Max: 500}
	waiting = field.Bounds{Max: 520}
)
