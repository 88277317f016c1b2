package desk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/estimate"
)

// What options say of a piece goes where the piece goes.
func TestOptionsFollowThePieces(t *testing.T) {
	says := func(words ...string) (list []map[string]string) {
		for _, w := range words {
			if w == "" {
				list = append(list, nil)
				continue
			}
			list = append(list, map[string]string{"form.wall": w})
		}
		return list
	}
	with := func(words ...string) *estimate.Commission {
		return &estimate.Commission{Options: []estimate.Option{{Pieces: says(words...)}, {}}}
	}
	for name, x := range map[string]struct {
		do   func(*estimate.Commission)
		want []map[string]string
	}{
		"a copy of the first":    {func(c *estimate.Commission) { addOptionPiece(c, 1, 0) }, says("1", "1", "2")},
		"a copy of the last":     {func(c *estimate.Commission) { addOptionPiece(c, 2, 1) }, says("1", "2", "2")},
		"a new piece between":    {func(c *estimate.Commission) { addOptionPiece(c, 1, -1) }, says("1", "", "2")},
		"a new piece at the end": {func(c *estimate.Commission) { addOptionPiece(c, 2, -1) }, says("1", "2")},
		"the first goes":         {func(c *estimate.Commission) { removeOptionPiece(c, 0) }, says("2")},
		"one unspoken of goes":   {func(c *estimate.Commission) { removeOptionPiece(c, 4) }, says("1", "2")},
		"the first moves last":   {func(c *estimate.Commission) { moveOptionPiece(c, 0, 2) }, says("2", "", "1")},
		"the last moves first":   {func(c *estimate.Commission) { moveOptionPiece(c, 2, 0) }, says("", "1", "2")},
	} {
		c := with("1", "2")
		x.do(c)
		assert.Equal(t, x.want, c.Options[0].Pieces, name)
		assert.Empty(t, c.Options[1].Pieces, name)
	}
}
