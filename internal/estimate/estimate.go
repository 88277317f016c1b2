package estimate

import (
	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/form"
	"meltwright/internal/mesh"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Estimate is what a commission comes to.
type Estimate struct {
	Currency    money.Currency
	System      quantity.System
	Pieces      []PieceResult
	Lines       []Line
	Stages      []StageResult
	Heats       []Heat
	Sections    int // of all casts
	PourDays    int
	DaysCharged float64       // pour days paid for: a part, where other jobs share a day
	Usable      quantity.Mass // what one heat pours
	Fill        float64       // of the crucible, a share
	Charged     quantity.Mass // metal charged, failures not counted
	MetalUsed   quantity.Mass // finished, and lost in melting, failures counted
	Recasts     float64       // castings expected to fail
	RecastRisk  float64       // chance of at least one
	Foundry     quantity.Time // foundry hours
	WaxToMetal  float64       // working time from gated wax to metal, in weeks
	Lift        Lift
	Direct      money.Amount
	PriceLines  []PriceLine
	Price       money.Amount // before tax
	Taxes       []Tax
	Total       money.Amount
	Payments    []Payment
	ValidDays   int
	MetalClause string // basis of the metal clause: alloy and price
	Cautions    []Caution
	nodes       nodes
	// exchange is what one of the shop book's money buys; zero where it is the
	// same money.
	exchange     money.Decimal
	exchangeFrom field.Origin
}

// PieceResult is what one piece comes to. Weights are of one cast.
type PieceResult struct {
	Name           string
	Finished       quantity.Mass
	Poured         quantity.Mass
	Height         quantity.Length // of the bronze
	OriginalHeight quantity.Length
	Standing       quantity.Length // bronze and plinth
	Scale          float64
	Area           quantity.Area
	OriginalArea   quantity.Area
	Inside         quantity.Area
	Shelled        quantity.Area
	Wall           quantity.Length
	Alloy          string
	Sections       int
	SectionPour    quantity.Mass // poured weight of a section
	Loads          []Load        // sections of one cast by their poured weights, where a plan tells them apart
	ShellMass      quantity.Mass // fired shell, all sections
	Coats          int
	Weld           quantity.Length
	Plinth         quantity.Mass
	Width, Depth   quantity.Length // the room it takes on the ground
	CrateWidth     quantity.Length
	CrateDepth     quantity.Length
	CrateHeight    quantity.Length
	Chargeable     quantity.Mass // for the carrier
	Casts          int
	ByOthers       []string      // names of the stages somebody else does
	SolidParts     []string      // what casts solid
	SolidShare     float64       // of the metal, where the form tells
	AreaTimesWall  quantity.Mass // what area × wall would give, for comparison
	Coarse         int           // coarse coats
	Dress          float64       // dress factor of a figure; 0 of anything else
	MeehK          float64       // k of Meeh's rule of an animal; 0 of anything else
	Frame          quantity.Mass // inner frame
	Anchors        int
	CrossChecks    []CrossCheck
	Parts          []form.Share // a figure's surface by part of the body, as shares
	Once           money.Amount // direct cost paid once
	PerCast        money.Amount // direct cost of all casts
	FirstCast      money.Amount
	NextCast       money.Amount
	AverageCast    money.Amount
	node           pieceNodes
}

type pieceNodes struct{ finished, poured, area, sections, weld int32 }

// CrossCheck is a figure's nude surface by one published formula.
type CrossCheck struct {
	Name, Source string
	Area         quantity.Area
	Chosen       bool
}

// StageResult is what one stage comes to.
type StageResult struct {
	ID, Name string
	Amount   money.Amount
	Hours    quantity.Time
	ByOthers bool // of every piece
}

// Lift is the heaviest part to be lifted and what lifts it.
type Lift struct {
	Kg     float64
	Reach  float64 // metres
	By     string  // "hands", "hoist", or the crane's name
	People int     // where by hands
}

// Level is how grave a caution is.
type Level int

// The levels of caution.
const (
	Note Level = iota
	Warning
	Danger
)

// Caution is a usual caution. The local code and licensed people decide.
type Caution struct {
	Level  Level
	Stage  string
	Text   string
	Source string
}

// piece is a piece while it is being worked out.
type piece struct {
	index                               int
	name                                string
	in                                  inputs
	casts                               int
	repeat                              float64
	solids                              form.Solids
	scan                                *mesh.Scan
	loads                               []Load // of a section plan; nil where sections are alike
	body                                form.Sized
	wall                                quantity.Length
	reference, finishedHeight           expr
	originalHeight, scale               expr
	area, originalArea, inside, shelled expr
	wallVolume, density                 expr
	finished, poured, gating, lost      expr
	used, sections, sectionPour, weld   expr
	recasts, coarse, coats, shellMass   expr
	frame, plinth, plinthMass, worked   expr
	dress, meehK                        float64
	stone                               field.Value
	stoneName, stoneFrom                string
	solidShare                          float64
	wide, deep                          expr
	crate                               [3]float64 // as wide, deep and high
	chargeable                          float64
	crossChecks                         []CrossCheck
	parts                               []form.Share
}

func (p *piece) starts(at ...string) bool {
	for _, s := range at {
		if p.in.word(startField) == s {
			return true
		}
	}
	return false
}

// run is one estimate being worked out.
type run struct {
	nodes
	*job
	pieces                             []*piece
	whole                              inputs
	est                                *Estimate
	faults                             fault.List
	vary                               *Variation    // of a trial; nil for the estimate itself
	line                               item          // of a trial, being written
	exchange                           money.Decimal // zero where the currencies are the same
	usable, sections, heats, pouredAll expr
	charged, days, daysCharged, loads  expr
	recasts, crateArea, chargeable     expr
	heaviest                           float64
	crane                              field.Value
	craneFrom                          string
}

// estimate works everything out, in the order of the work.
func (r *run) estimate() {
	r.takeCrucible()
	for _, p := range r.pieces {
		r.takeForm(p)
		r.takeBronze(p)
		r.takeShell(p)
		r.takeBase(p)
	}
	r.takeHeats()
	r.takeDelivery()
	for _, st := range Stages {
		for _, p := range r.pieces {
			if st.lines != nil && !st.byOthers(p) {
				st.lines(r, st, p)
			}
		}
		if st.wholeLines != nil {
			st.wholeLines(r, st)
		}
		r.extraLines(st)
	}
	r.takePrice()
	r.sum()
}
