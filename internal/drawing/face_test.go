package drawing

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
)

// allFaces lists every face.
func allFaces() []Face {
	var all []Face
	for f := Face(0); f < faces; f++ {
		all = append(all, f)
	}
	return all
}

// The reference is x/image's own font drawer at a size where nothing is
// rounded, letter by letter, because it kerns and a PDF does not.
func TestTextIsAsWideAsTheFontSaysItsLettersAre(t *testing.T) {
	for _, f := range allFaces() {
		parsed, err := opentype.Parse(f.TTF())
		require.NoError(t, err)
		face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: 1000, DPI: 72, Hinting: font.HintingNone})
		require.NoError(t, err)
		want := 0.0
		for _, r := range "Ferry Pilot, 1¼ life: $128,400" {
			a, ok := face.GlyphAdvance(r)
			require.True(t, ok)
			want += float64(a) / 64
		}
		assert.InDelta(t, want/100, f.Measure("Ferry Pilot, 1¼ life: $128,400", 10), 1e-3)
	}
}

func TestFiguresAreOfOneWidthSoThatColumnsStand(t *testing.T) {
	for _, f := range []Face{Sans, SansSemiBold, SansBold} {
		for _, r := range "0123456789" {
			assert.InDelta(t, f.Measure("0", 10), f.Measure(string(r), 10), 1e-9, "%c", r)
		}
	}
}

func TestWidthGrowsWithSizeAndAddsUp(t *testing.T) {
	assert.InDelta(t, 2*Sans.Measure("wax", 9), Sans.Measure("wax", 18), 1e-9)
	assert.InDelta(t, Sans.Measure("wax", 9)+Sans.Measure("shell", 9), Sans.Measure("waxshell", 9), 1e-9)
	assert.Zero(t, Sans.Measure("", 9))
}

func TestEveryFaceHasTheLettersOfTheTrade(t *testing.T) {
	letters := "ABCXYZabcxyz0123456789 ½¼¾⅛⅜⅝⅞ × ² ³ é ñ ü ß ø – — “ ” ‘ ’ · € £ ¥ $ ° ± − … ′ ″ %,.:;()/" + "\u00a0"
	for _, f := range allFaces() {
		assert.Empty(t, string(f.Missing(letters)))
	}
}

// Noto Sans leaves mathematics and arrows to its sister fonts; whoever writes
// one in a drawing is told by this.
func TestALetterThatAFontLacksIsNamed(t *testing.T) {
	assert.Equal(t, []rune("≤→"), Sans.Missing("a ≤ b → c ≤ d"))
	assert.Empty(t, Serif.Missing("a ≤ b → c"))
}

func TestCapitalsAreAsTallAsTheirOutline(t *testing.T) {
	for _, f := range allFaces() {
		top := -f.Outline("H", 100, 0, 0).Bounds().Min.Y
		assert.InDelta(t, top, f.Ascent(100), 1)
	}
}

func TestFacesMayBeUsedAtTheSameTime(t *testing.T) {
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for _, f := range allFaces() {
				f.Outline("Bronze, 168 kg", 12, 0, 0)
			}
		})
	}
	group.Wait()
}

func TestAFaceOfTomorrowIsSans(t *testing.T) {
	assert.Equal(t, Sans.Measure("wax", 10), Face(200).Measure("wax", 10))
}

func TestLongNamesAreBrokenAndCut(t *testing.T) {
	room := Sans.Measure("The Ferry Pilot of", 10)
	lines := Sans.wrapped("The Ferry Pilot of Alder Reach, looking out", 10, room, 2)
	require.Len(t, lines, 2)
	assert.Equal(t, "The Ferry Pilot of", lines[0])
	assert.True(t, strings.HasSuffix(lines[1], "…"))
	for _, l := range lines {
		assert.LessOrEqual(t, Sans.Measure(l, 10), room)
	}
	assert.Equal(t, []string{"visitor,", "1.75\u00a0m"}, Sans.wrapped("visitor, 1.75\u00a0m", 10, Sans.Measure("visitor,x", 10), 2))
	assert.Empty(t, Sans.fitted("wax", 10, 1))
}
