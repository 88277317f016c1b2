package proposal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
)

// piece is what a proposal says of a piece.
type piece struct {
	Name                   string
	Height, Original       string
	Standing               string // with what it stands on, or empty
	Weight                 string // of one cast
	Alloy, Wall            string
	Casts                  int
	Sections               int
	Colours                int
	Start                  string // what they bring
	KnownBy                string
	Plinth                 string // "block", "drum", "tapered block", or empty
	Stone                  string // "granite"
	PlinthSize             string // "1.1 m × 1.1 m × 0.45 m"
	PlinthMass             string
	Footing                string          // "by us", "by others", "none"
	By                     map[string]bool // by others: stage → true
	height, plinth, weight float64
	drawing                drawing.Silhouette
}

// alike are pieces that are made in the same way.
type alike struct {
	Names string
	Many  bool
	piece
}

// piece gathers what is said of piece i.
func (o *offer) piece(i int) piece {
	e, l := o.paper.Estimate, o.language
	r := e.Pieces[i]
	a := answersOf(o.paper, i, "form", "patina", "base")
	p := piece{
		Name: r.Name, Height: o.height(float64(r.Height)), Original: o.height(float64(r.OriginalHeight)),
		Weight: l.size(quantity.KindMass, float64(r.Finished), e.System), Alloy: o.term(r.Alloy), Wall: l.length(r.Wall, e.System),
		Casts: r.Casts, Sections: r.Sections, Colours: a.count("patina.colours"),
		Start: a["form.start"], KnownBy: a["form.known_by"], Footing: a["base.footing"], By: map[string]bool{},
		height: float64(r.Height), plinth: float64(r.Standing - r.Height), weight: float64(r.Finished),
	}
	for _, st := range estimate.Stages {
		p.By[st.ID] = slices.Contains(r.ByOthers, st.Name)
	}
	if shape := a["base.plinth"]; shape != "no plinth" && a["base.stone"] != "" {
		p.Plinth, p.Stone = o.term(shape), lowerFirst(o.term(a["base.stone"]))
		var sizes []string
		for _, side := range []string{"width", "depth", "height"} {
			if side != "depth" || shape != "drum" {
				sizes = append(sizes, o.height(exactInput(o.paper, i, "base."+side).Num))
			}
		}
		p.PlinthSize = joinSome(sizes, "\u00a0× ")
		p.PlinthMass = l.size(quantity.KindMass, float64(r.Plinth), e.System)
	}
	if p.plinth > 0 {
		p.Standing = o.height(float64(r.Standing))
	}
	p.drawing = silhouetteOf(o.paper.Quote.Commission.Pieces[i], o.own[fmt.Sprintf("drawing.%d", i)])
	return p
}

// together puts pieces that are made in the same way into one line.
func together(pieces []piece) (out []alike) {
	for _, p := range pieces {
		at := slices.IndexFunc(out, func(a alike) bool {
			return a.Casts == p.Casts && a.Alloy == p.Alloy && a.Colours == p.Colours && a.Start == p.Start && a.By["patina"] == p.By["patina"]
		})
		if at < 0 {
			out = append(out, alike{Names: p.Name, piece: p})
			continue
		}
		out[at].Names, out[at].Many = out[at].Names+", "+p.Name, true
	}
	return out
}

// joinSome joins the texts that are not empty.
func joinSome(texts []string, with string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return s == "" }), with)
}

// silhouetteOf chooses the drawing of a piece: the one the user named, else the
// outline of its scan, else the one its name or its form suggests.
func silhouetteOf(p estimate.Piece, chosen string) drawing.Silhouette {
	var front mesh.Outline
	if p.Scan != nil {
		front = p.Scan.Front
	}
	return drawing.SilhouetteOf(chosen, front, options.Silhouette(p))
}

// height prints a height or a side of a base, all of a proposal's in one unit:
// metres where something is taller than one, else centimetres.
func (o *offer) height(v float64) string {
	e := o.paper.Estimate
	if e.System == quantity.InchPound {
		return o.language.length(quantity.Length(v), e.System)
	}
	for _, p := range e.Pieces {
		if p.Standing >= 1 {
			return o.language.fixed(strconv.FormatFloat(v, 'f', 2, 64) + " m")
		}
	}
	return o.language.fixed(quantity.Number(v*100, 1) + " cm")
}
