package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
)

func names(s *desk.Sheet) (out []string) {
	for _, p := range s.Commission().Pieces {
		out = append(out, p.Name)
	}
	return out
}

func TestPiecesAreAddedCopiedMovedAndTakenAway(t *testing.T) {
	d, _ := sitDown(t)
	s := d.PutNew()
	s.NamePiece(0, "Figure")
	assert.Equal(t, 1, s.AddPiece())
	s.NamePiece(1, "Dog")
	assert.Equal(t, 1, s.CopyPiece(0))
	assert.Equal(t, []string{"Figure", "Figure (copy)", "Dog"}, names(s))
	assert.Equal(t, 0, s.MovePiece(2, -5), "no farther than the first")
	assert.Equal(t, []string{"Dog", "Figure", "Figure (copy)"}, names(s))
	assert.Equal(t, 2, s.MovePiece(0, 2))
	assert.Equal(t, []string{"Figure", "Figure (copy)", "Dog"}, names(s))
	s.RemovePiece(1)
	s.RemovePiece(1)
	s.RemovePiece(0)
	assert.Equal(t, []string{"Figure"}, names(s), "the last piece stays")
}

func TestSolidsMakeAForm(t *testing.T) {
	d, _ := sitDown(t)
	s := d.PutNew()
	s.Set(0, "form.known_by", "solids")
	require.NotEmpty(t, s.Faults(), "solids are none")
	n := s.AddSolid(0, "sphere")
	s.SetSolid(0, n, "diameter", "1 m")
	require.Empty(t, s.Faults())
	assert.InDelta(t, 3.141593, float64(s.Latest().Pieces[0].Area), 5e-7, "a sphere of one metre")
	s.RemoveSolid(0, n)
	assert.NotEmpty(t, s.Faults())
}

func TestAnOwnLineCostsWhatItSays(t *testing.T) {
	d, _ := sitDown(t)
	s := d.PutNew()
	before := s.Latest().Direct
	n := s.AddExtra("metalwork")
	assert.Equal(t, before, s.Latest().Direct, "it costs nothing until it has a rate")
	s.SetExtra(n, "rate", func(x *estimate.Extra) { x.Rate = "12.50" })
	s.SetExtra(n, "quantity", func(x *estimate.Extra) { x.Quantity = "4" })
	assert.Equal(t, before+5000, s.Latest().Direct)
	s.RemoveExtra(n)
	assert.Equal(t, before, s.Latest().Direct)
}

func TestUndoingEverythingGivesBackTheFirstState(t *testing.T) {
	const most = 5 // pieces
	d, _ := sitDown(t)
	rapid.Check(t, func(t *rapid.T) {
		s := d.Put(desk.Demo()[0])
		first := s.Commission()
		piece := func() int { return rapid.IntRange(0, len(s.Commission().Pieces)-1).Draw(t, "piece") }
		t.Repeat(map[string]func(*rapid.T){
			"add": func(*rapid.T) {
				if len(s.Commission().Pieces) < most {
					s.AddPiece()
				}
			},
			"copy": func(*rapid.T) {
				if len(s.Commission().Pieces) < most {
					s.CopyPiece(piece())
				}
			},
			"remove": func(*rapid.T) { s.RemovePiece(piece()) },
			"move":   func(t *rapid.T) { s.MovePiece(piece(), rapid.IntRange(-3, 3).Draw(t, "by")) },
			"name":   func(t *rapid.T) { s.NamePiece(piece(), rapid.String().Draw(t, "name")) },
			"solid":  func(*rapid.T) { s.SetSolid(0, s.AddSolid(0, "box"), "length", "1 m") },
			"extra":  func(*rapid.T) { s.AddExtra("wax") },
			"type": func(t *rapid.T) {
				s.Set(piece(), "form.wall", rapid.SampledFrom([]string{"", "5 mm", "x"}).Draw(t, "wall"))
			},
		})
		last := s.Commission()
		steps := 0
		for s.Undo() {
			steps++
		}
		assert.Equal(t, first, s.Commission())
		for range steps {
			s.Redo()
		}
		assert.Equal(t, last, s.Commission())
	})
}
