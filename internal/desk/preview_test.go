package desk_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/proposal"
)

func previewDesk(t *testing.T) *desk.Sheet {
	t.Helper()
	d, err := desk.New(context.Background(), desk.NoStore{}, proposal.Maker{}, func() time.Time { return time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC) })
	require.NoError(t, err)
	return d.Put(desk.Demo()[1])
}

func TestSectionsAreAsUsualUntilTheyAreChosen(t *testing.T) {
	s := previewDesk(t)
	usual := s.Chosen()
	assert.NotContains(t, usual, "budget", "which has to be asked for")
	s.Choose([]string{"price", "idea"})
	assert.Equal(t, "price, idea", s.Quote().Words[desk.Sections])
	assert.Equal(t, []string{"price", "idea"}, s.Chosen())
	s.Choose(usual)
	assert.Empty(t, s.Quote().Words[desk.Sections])
	require.True(t, s.Undo(), "each choice is a step of undo")
	assert.Equal(t, []string{"price", "idea"}, s.Chosen())
}

func TestAPreviewIsOfTheSheetAsItStood(t *testing.T) {
	s := previewDesk(t)
	s.SetWords("idea", "青")
	show, err := s.Previewing()
	require.NoError(t, err)
	s.SetWords("idea", "blue")
	pages, err := show(context.Background())
	require.NoError(t, err)
	assert.Equal(t, []rune("青"), pages.Missing)
	assert.Greater(t, len(pages.Scenes), 3)
}

func TestPapersThatCannotShowAreNotAsked(t *testing.T) {
	_, s := issuingDesk(t)
	assert.Nil(t, s.Preview())
}

func TestTheWorkBeginsOnPaperOnTheDayThatWasTypedHoweverItWas(t *testing.T) {
	s := previewDesk(t)
	p, err := s.Paper()
	require.NoError(t, err)
	assert.Empty(t, p.Start, "nobody said")
	s.SetWords(desk.Start, "1 March 2027")
	p, err = s.Paper()
	require.NoError(t, err)
	assert.Equal(t, "2027-03-01", p.Start)
	s.SetWords(desk.Start, "soon")
	p, err = s.Paper()
	require.NoError(t, err)
	assert.Empty(t, p.Start, "the proposal itself says what is wrong with it")
}
