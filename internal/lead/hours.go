package lead

import (
	"strings"

	"meltwright/internal/estimate"
)

// part is a stretch of work that lines of the estimate go into.
type part int8

const (
	sculpting part = iota
	modelling      // for a print or a mill
	finishing      // of a printed or milled original
	moulding
	waxing
	gating
	dipping
	tending // the kiln; known by the load
	melting // known by the pour day and the heat
	knocking
	joining
	framing
	colouring
	mounting
	installing
	parts
)

// lineParts says which part a line of labour goes into, by its item; a line of a
// stage that is not here goes into the stage's own part.
var lineParts = map[string]part{
	"Modelling":                    modelling,
	"Finishing the original":       finishing,
	"Burn-out":                     tending,
	"Knock-off and blast":          knocking,
	"Making and fitting the frame": framing,
}

var stageParts = map[string]part{
	"original": sculpting, "mould": moulding, "wax": waxing, "gating": gating, "shell": dipping,
	"pour": melting, "metalwork": joining, "patina": colouring, "base": mounting, "delivery": installing,
}

// hoursOf sums the hours of the estimate's labour by part, of each piece and,
// last, of the whole commission.
func hoursOf(e *estimate.Estimate) [][parts]float64 {
	sums := make([][parts]float64, len(e.Pieces)+1)
	for _, l := range e.Lines {
		if l.Class != estimate.Labour {
			continue
		}
		p, ok := lineParts[l.Item]
		if !ok {
			p = stageParts[l.Stage]
		}
		at := l.Piece
		if at == estimate.Whole {
			at = len(e.Pieces)
		}
		sums[at][p] += l.Hours
	}
	return sums
}

// line tells whether the estimate has a line of a piece, or of the whole, whose
// item begins or ends so.
func (b *builder) line(piece int, stage, item string) bool {
	for _, l := range b.estimate.Lines {
		if l.Piece == piece && l.Stage == stage && (strings.HasPrefix(l.Item, item) || strings.HasSuffix(l.Item, item)) {
			return true
		}
	}
	return false
}
