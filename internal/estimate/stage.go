package estimate

// Stage is one step of the work, in the order a bronze is made. Window, papers,
// ranges and schedule walk the table of stages.
type Stage struct {
	ID      string // "shell"
	Name    string // "Shell"
	Does    string // what happens, in a line
	Foundry bool   // its hours are foundry hours
	Once    bool   // paid once, however many casts
	// lines writes the lines of one piece.
	lines func(r *run, st *Stage, p *piece)
	// wholeLines writes the lines of the whole commission.
	wholeLines func(r *run, st *Stage)
	// byOthers tells whether somebody else does this stage of the piece.
	byOthers func(p *piece) bool
	// cautions are the usual ones, for the stages that can hurt someone.
	cautions func(r *run) []Caution
	// swing is the factor on a line's rate in a trial, for stages whose prices do
	// not all go with the prices of materials.
	swing func(v *Variation, it *item) float64
	index int // its place in Stages
}

// Stages are the stages, in the order of the work. Form and Price have no lines
// of their own: the form is what all else is worked out from, and the price is
// what it comes to.
var Stages []*Stage

func init() {
	Stages = []*Stage{
		formStage, originalStage, mouldStage, waxStage, gatingStage, shellStage,
		pourStage, metalworkStage, patinaStage, baseStage, deliveryStage, priceStage,
	}
	for i, st := range Stages {
		st.index = i
	}
}

// StageByID finds a stage.
func StageByID(id string) (*Stage, bool) {
	for _, s := range Stages {
		if s.ID == id {
			return s, true
		}
	}
	return nil, false
}

// Fields lists the inputs of the stage: those of a piece, or those of the whole
// commission, in the order of its page.
func (s *Stage) Fields(perPiece bool) []*Field {
	list := wholeFields
	if perPiece {
		list = pieceFields
	}
	var out []*Field
	for _, f := range list {
		if f.Stage == s.ID {
			out = append(out, f)
		}
	}
	return out
}

// FieldByPath finds an input by its path, "form.wall".
func FieldByPath(path string, perPiece bool) (*Field, bool) {
	list := wholeFields
	if perPiece {
		list = pieceFields
	}
	for _, f := range list {
		if f.Path() == path {
			return f, true
		}
	}
	return nil, false
}

func never(*piece) bool { return false }
