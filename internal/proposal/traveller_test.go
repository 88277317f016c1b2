package proposal

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		assert.Equal(t, casting{piece: i, from: 1, to: 5, heats: s.heats}, s)
		assert.NotEmpty(t, s.heats)
	}
}

// The wax of a section is that of the estimate, whose wax lost is a share of it.
func TestTheWaxOfASectionIsThatOfTheEstimate(t *testing.T) {
	for _, name := range []string{"waterfront", "edition"} {
		p := paperOf(t, stories()[name])
		c := shopPaper(p, "", "")
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
	c := shopPaper(p, "", "")
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
	c := shopPaper(p, "", "")
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
