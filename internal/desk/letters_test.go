package desk_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// lostOn says what a paper of a sheet lacks.
func lostOn(t *testing.T, s *desk.Sheet, which desk.Print) []string {
	t.Helper()
	lost, err := s.Lost(which)
	require.NoError(t, err)
	require.NotNil(t, lost)
	said, err := lost(context.Background())
	require.NoError(t, err)
	return said
}

func TestLettersThatThePaperLacksAreNamedWhereTheyStand(t *testing.T) {
	s := previewDesk(t)
	plain, err := s.Lost(desk.Proposal)
	require.NoError(t, err)
	assert.Nil(t, plain, "usual letters need no look at the pages")
	s.SetWords("idea", "Ελ") // Greek is unusual, and has its letters
	assert.Empty(t, lostOn(t, s, desk.Proposal))
	s.Change("title", func(c *estimate.Commission) { c.Title = "Crane of 日本, 日 again" })
	s.SetWords("idea", "青日")
	title := "The title has letters that the fonts lack: 日 (U+65E5), 本 (U+672C); a question mark stands for each"
	assert.Equal(t, []string{title, "The words of “idea” have letters that the fonts lack: 青 (U+9752), 日 (U+65E5); a question mark stands for each"}, lostOn(t, s, desk.Proposal))
	for _, which := range []desk.Print{desk.CostSheet, desk.OrderList, desk.Traveller} {
		assert.Equal(t, []string{title}, lostOn(t, s, which), "the idea is for the client")
	}
}

func TestTablesHaveEveryLetter(t *testing.T) {
	for _, which := range []desk.Print{desk.Workbook, desk.OrderSheet, desk.Lines} {
		lost, err := previewDesk(t).Lost(which)
		require.NoError(t, err)
		assert.Nil(t, lost)
	}
}

func TestALetterThatNobodyWroteIsThePapers(t *testing.T) {
	p := desk.Paper{Shop: &shop.Shop{}, Pictures: []quote.Picture{{Name: quote.Logo}, {Caption: "a"}, {Caption: "b 本"}}}
	assert.Equal(t, []string{
		"The caption of picture 2 has letters that the fonts lack: 本 (U+672C); a question mark stands for each",
		"The paper has letters that the fonts lack: 🎉 (U+1F389); a question mark stands for each",
	}, desk.LostLetters(p, []rune("🎉本")))
	assert.Empty(t, desk.LostLetters(p, nil))
	assert.Contains(t, desk.LostLetters(p, []rune("一二三四五六七八九十百千万"))[0], "千 (U+5343) and 1 more;")
}
