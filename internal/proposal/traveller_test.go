package proposal

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
)

func TestEverySectionHasAPageAndAPlaceInTheHeatsThatTheEstimatePacked(t *testing.T) {
	for _, name := range []string{"waterfront", "edition", "casting only", "one piece", "yen", "inch-pound"} {
		p := paperOf(t, stories()[name])
		e := p.Estimate
		all := castingsOf(e)
		require.Len(t, all, e.Sections, name)
		seen := map[[2]int]int{} // heat and piece
		for _, s := range all {
			require.Len(t, s.heats, 1, name)
			seen[[2]int{s.heats[0], s.piece}]++
		}
		for i, h := range e.Heats {
			for _, share := range h.Sections {
				assert.Equal(t, share.Count, seen[[2]int{i + 1, share.Piece}], "%s, heat %d", name, i+1)
			}
		}
		assert.Len(t, traveller(p).pages, e.Sections, "%s: a page each", name)
	}
}

func TestSectionsOfALargeCommissionShareAPage(t *testing.T) {
	p := paperOf(t, manyPieces())
	all := castingsOf(p.Estimate)
	require.Len(t, all, 40)
	for i, s := range all {
		assert.Equal(t, [3]int{i, 1, 5}, [3]int{s.piece, s.from, s.to})
		assert.InDelta(t, 0.2, s.least, 1e-12)
		assert.InDelta(t, s.least, s.most, 1e-12)
		assert.NotEmpty(t, s.heats)
	}
}

// Two casts of a fox whose scan was cut into a body, a head and a tail: 30, 20 and
// 10 kg. A crucible holds 60 kg.
func TestSectionsOfAScanWeighWhatItsPlanSaysAndGoIntoTheHeatsOfTheirWeight(t *testing.T) {
	e := &estimate.Estimate{
		Pieces: []estimate.PieceResult{{
			Name: "Fox", Poured: 60, Finished: 48, Sections: 3, Casts: 2, SectionPour: 20,
			Loads: []estimate.Load{{Kg: 30, Count: 1}, {Kg: 20, Count: 1}, {Kg: 10, Count: 1}},
		}},
		Heats: []estimate.Heat{
			{Kg: 60, Sections: []estimate.HeatShare{{Count: 2, Kg: 30}}},
			{Kg: 60, Sections: []estimate.HeatShare{{Count: 2, Kg: 20}, {Count: 2, Kg: 10}}},
		},
	}
	var got [][3]float64
	for _, s := range castingsOf(e) {
		require.Len(t, s.heats, 1)
		got = append(got, [3]float64{s.least * 60, s.most * 60, float64(s.heats[0])})
	}
	one := [][3]float64{{30, 30, 1}, {20, 20, 2}, {10, 10, 2}}
	assert.Equal(t, append(one, one...), got)

	p := paperOf(t, edition())
	p.Estimate = e
	c := shopPaper(p, "en")
	assert.Contains(t, stripWords(c.weights(casting{least: 10.0 / 60, most: 0.5, heats: []int{1, 2}})), "10 kg – 30 kg")
	assert.Equal(t, []estimate.HeatShare{{Count: 4, Kg: 20}}, byPiece(e.Heats[1].Sections))
}

// stripWords are the texts of a strip.
func stripWords(s strip) (all []string) {
	for _, t := range (drawing.Scene{Items: s.items}).Texts() {
		all = append(all, strings.ReplaceAll(t.Words, "\u00a0", " "))
	}
	return all
}

// The wax of a section is that of the estimate, whose wax lost is a share of it.
func TestTheWaxOfASectionIsThatOfTheEstimate(t *testing.T) {
	for _, name := range []string{"waterfront", "edition"} {
		p := paperOf(t, stories()[name])
		c := shopPaper(p, "en")
		for _, l := range p.Estimate.Lines {
			if l.Item != "Wax lost after reclaim" {
				continue
			}
			loss := exactInput(p, l.Piece, "wax.loss").Num
			casts := float64(p.Estimate.Pieces[l.Piece].Casts)
			assert.InDelta(t, l.Quantity.InexactFloat64()/loss/casts, float64(c.waxOf(l.Piece)), 0.006/loss/casts, "%s, piece %d", name, l.Piece)
		}
	}
}

func TestASectionsPageHasItsStepsItsCoatsAndWhatCanHurt(t *testing.T) {
	p := paperOf(t, waterfront())
	pages := strings.Split(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Traveller(b, p) }), "-layout"), "\f")
	page := flat(pages[13]) // the dog's second
	for _, words := range []string{
		"Section 2 of 5 — Dog", "C87300 silicon bronze", "Wax, without gates", "Poured, with gates", "Heat", "Brushing and slushing", "Gating the sections", "Fine coats", "Coarse coats", "Seal coats",
		"Melting and pouring", "Knock-off and blast", "Welding", "Chasing", "Colouring and waxing", "29 CFR 1910.1053", "Danger. Molten bronze", "licensed people decide", forTheShop,
	} {
		assert.Contains(t, page, words)
	}
	assert.NotContains(t, page, "A section of Lock keeper", "what concerns another piece stays with it")
	outline := told(t, needTool(t, "mutool"), "show", kept(t, "paper.pdf", made(t, func(b *bytes.Buffer) error { return Maker{}.Traveller(b, p) })), "outline")
	assert.Contains(t, outline, `"Dog, section 2 of 5"`)
}

func TestThereIsABoxForEveryCoat(t *testing.T) {
	p := paperOf(t, waterfront())
	c := shopPaper(p, "en")
	for i, piece := range p.Estimate.Pieces {
		boxes := 0
		for _, r := range c.coatRows(casting{piece: i, from: 1, to: 1}) {
			boxes += r.cells[0].boxes
		}
		assert.Equal(t, piece.Coats, boxes, piece.Name)
	}
}

func TestHoursToAimAtAddToThoseOfTheEstimate(t *testing.T) {
	p := paperOf(t, edition())
	c := shopPaper(p, "en")
	for _, l := range p.Estimate.Lines {
		if l.Class == estimate.Labour && l.Item == "Chasing" {
			assert.Equal(t, fmt.Sprintf("%.1f h", l.Hours/12), c.hoursEach(l, casting{piece: 0, from: 1, to: 1}))
			assert.Equal(t, fmt.Sprintf("%.1f h", l.Hours), c.hoursEach(l, casting{piece: 0, from: 1, to: 12}))
		}
	}
}

func TestNumbersInARowAreToldAsARange(t *testing.T) {
	for want, list := range map[string][]int{"": nil, "3": {3}, "1–3": {1, 2, 3}, "1–2, 5, 7–8": {1, 2, 5, 7, 8}} {
		assert.Equal(t, want, numbers(list))
	}
}
