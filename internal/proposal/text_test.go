package proposal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"meltwright/internal/drawing"
)

func TestWrappedLinesFitAndKeepEveryLetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringOfN(rapid.SampledFrom([]rune("abcdefghij  WÄ-/.\u00a0")), 0, 300, -1).Draw(t, "words")
		room := rapid.Float64Range(20, 300).Draw(t, "room")
		letters := ""
		for _, l := range bodyStyle.wrap(words, room) {
			if w := bodyStyle.face.Measure(l, bodyStyle.size); w > room+1e-6 && len([]rune(l)) > 1 {
				t.Fatalf("%q is %.1f wide, the room is %.1f", l, w, room)
			}
			letters += strings.ReplaceAll(l, " ", "")
		}
		if letters != strings.ReplaceAll(words, " ", "") {
			t.Fatalf("%q became %q", words, letters)
		}
	})
}

func TestALongWordIsBrokenAfterItsHyphen(t *testing.T) {
	lines := bodyStyle.wrap("Donaudampfschifffahrts-gesellschaft", bodyStyle.face.Measure("Donaudampfschifffahrts-gesell", bodyStyle.size))
	assert.Equal(t, []string{"Donaudampfschifffahrts-", "gesellschaft"}, lines)
}

func TestALetterWiderThanTheRoomStillHasALine(t *testing.T) {
	assert.Equal(t, []string{"W", "W"}, bodyStyle.wrap("WW", 1))
}

func TestFixedSpacesAreNotBroken(t *testing.T) {
	assert.Equal(t, []string{"weighs", "1,470\u00a0kg"}, bodyStyle.wrap("weighs 1,470\u00a0kg", bodyStyle.face.Measure("weighs 1,470", bodyStyle.size)))
}

func TestAParagraphLeavesNoLineAlone(t *testing.T) {
	tt := setter{wide: 100}
	strips := tt.paragraph(bodyStyle, strings.Repeat("some words ", 20), 0, 7)
	assert.True(t, strips[0].keep, "the first line stays with the second")
	assert.True(t, strips[len(strips)-2].keep, "the last but one stays with the last")
	assert.False(t, strips[len(strips)-1].keep)
	assert.False(t, strips[3].keep)
	assert.InDelta(t, 7, strips[0].before, 1e-9)
}

func TestClampedLinesSayThatSomethingIsLeftOut(t *testing.T) {
	lines := []string{"one", "two, ", "three"}
	assert.Equal(t, []string{"one", "two…"}, bodyStyle.clamp(lines, 2, 100))
	assert.Equal(t, []string{"…"}, bodyStyle.clamp(lines, 1, 1))
	assert.Equal(t, "two, ", lines[1], "what was given is as it was")
	assert.Equal(t, lines, bodyStyle.clamp(lines, 3, 1))
}

func TestFiguresStandWithTheirDecimalMarksBelowEachOther(t *testing.T) {
	tt := setter{wide: 200}
	strips := tt.table(table{
		size: costRow, mark: ".", columns: []column{{}, {wide: 60, anchor: drawing.End, point: true}},
		rows: []row{
			{style: costRow, cells: []cell{{words: "a"}, {words: "724.91"}}},
			{style: costRow, cells: []cell{{words: "b"}, {words: "12"}}},
			{style: costRow, cells: []cell{{words: "c"}, {words: "0.055"}}},
		},
	})
	var points []float64
	for _, s := range strips {
		figures := drawing.Scene{Items: s.items}.Texts()[1]
		whole, _, _ := strings.Cut(figures.Words, ".")
		points = append(points, figures.At.X-figures.Width()+figures.Face.Measure(whole, figures.Size))
	}
	assert.InDelta(t, points[0], points[1], 1e-6)
	assert.InDelta(t, points[0], points[2], 1e-6)
}

func TestTheDigitsOfTheTablesFaceAreEven(t *testing.T) {
	for _, f := range []drawing.Face{drawing.Sans, drawing.SansSemiBold, drawing.SansBold} {
		for _, d := range "123456789" {
			assert.InDelta(t, f.Measure("0", 10), f.Measure(string(d), 10), 1e-9)
		}
	}
}

func TestARowLongerThanAPageGoesOnOnTheNext(t *testing.T) {
	tt := setter{wide: 120}
	strips := tt.table(table{size: costRow, columns: []column{{}}, rows: []row{{style: costRow, pad: 2, cells: []cell{{words: strings.Repeat("word ", 400)}}}}})
	pages, _ := smallSheet.compose(strips)
	assert.Greater(t, len(pages), 3)
	words := strings.Join(wordsOf(pages), " ")
	assert.Equal(t, 400, strings.Count(words, "word"))
}

func TestMarkupHasTitlesHeadsListsAndParagraphs(t *testing.T) {
	assert.Equal(t, []block{
		{'#', "Care"}, {' ', "Two lines of one paragraph."}, {' ', "Another."}, {'-', "an item that goes on"}, {'-', "a second"}, {'+', "Head"},
	}, blocks("# Care\n\nTwo lines\nof one paragraph.\n\nAnother.\n- an item\n  that goes on\n- a second\n\n## Head\n"))
}

func TestEachTypedLineIsAParagraphAndNoTitle(t *testing.T) {
	assert.Equal(t, []block{{'+', "Big"}, {' ', "One."}, {' ', "Two."}, {'-', "item"}}, blocks(ownWords("# Big\n One.\r\nTwo.\n\n- item")))
}
