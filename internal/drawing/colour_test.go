package drawing

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
)

var palettes = map[string]Palette{"light": Light(), "dark": Dark()}

// WCAG 2.1, success criterion 1.4.3: text needs at least 4.5 : 1.
func TestEveryTextIsReadableOnEveryGround(t *testing.T) {
	for name, p := range palettes {
		for _, text := range textRoles {
			for _, ground := range groundRoles {
				assert.GreaterOrEqual(t, Contrast(p.Colour(text), p.Colour(ground)), 4.5, "%s: role %d on %d", name, text, ground)
			}
		}
	}
}

// WCAG 2.1, success criterion 1.4.11: marks need at least 3 : 1.
func TestMarksAndFiguresCanBeSeen(t *testing.T) {
	for name, p := range palettes {
		for _, mark := range []Role{Accent, Metal, Ink, Good, Bad} {
			for _, ground := range groundRoles {
				assert.GreaterOrEqual(t, Contrast(p.Colour(mark), p.Colour(ground)), 3.0, "%s: role %d on %d", name, mark, ground)
			}
		}
	}
}

func TestEveryRoleHasAnOpaqueColour(t *testing.T) {
	for name, p := range palettes {
		for r := None + 1; r < roles; r++ {
			assert.Equal(t, uint8(0xff), p.Colour(r).A, "%s: role %d", name, r)
		}
		assert.Equal(t, color.NRGBA{}, p.Colour(None))
		assert.Equal(t, color.NRGBA{}, p.Colour(roles))
	}
}

func TestTheThreeTonesOfAFigureLieInOrder(t *testing.T) {
	for name, p := range palettes {
		for _, f := range []tones{inBronze, inStone, inPassing} {
			shade, body, light := luminance(p.Colour(f.shade)), luminance(p.Colour(f.body)), luminance(p.Colour(f.light))
			assert.Less(t, shade, body, name)
			assert.Less(t, body, light, name)
		}
	}
}

func TestEveryStageHasAColourOfItsOwn(t *testing.T) {
	for name, p := range palettes {
		seen := map[color.NRGBA]string{}
		for id := range stages {
			c := p.Colour(Stage(id))
			assert.Empty(t, seen[c], "%s: %s", name, id)
			seen[c] = id
		}
	}
	assert.Equal(t, StageShell, Stage("shell"))
	assert.Equal(t, StageForm, Stage("a stage of tomorrow"))
}

// WCAG 2.1 gives 21 : 1 for black on white; #767676 is the lightest grey that
// passes on white, at 4.54 : 1 (from memory).
func TestContrastAgreesWithWCAG(t *testing.T) {
	assert.InDelta(t, 21, Contrast(rgb(0), rgb(0xffffff)), 1e-9)
	assert.InDelta(t, 4.54, Contrast(rgb(0x767676), rgb(0xffffff)), 0.005)
}
