package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
)

func TestAClientsCardIsChangedUndoneAndKeptAsTyped(t *testing.T) {
	d, _ := issuingDesk(t)
	card := desk.NewCard(quote.Client{Name: "Town of Port Haskel"})
	card.Change("name", func(c *quote.Client) { c.Name = "T" })
	card.Change("name", func(c *quote.Client) { c.Name = "To" })
	kept, err := d.KeepClient(t.Context(), card.Copy())
	require.NoError(t, err)
	card.Kept(kept)
	assert.False(t, card.Unsaved())
	assert.True(t, card.Undo(), "typing is one step")
	assert.Equal(t, "Town of Port Haskel", card.Is().Name)
	assert.True(t, card.Unsaved())
	assert.False(t, card.Undo())
	again, err := d.KeepClient(t.Context(), card.Copy())
	require.NoError(t, err, "undo keeps the version")
	assert.Equal(t, kept.ID, again.ID)
	assert.True(t, card.Redo())
	assert.Equal(t, "To", card.Is().Name)
}

func TestWhatHasNoNameIsKeptAllTheSame(t *testing.T) {
	d, _ := issuingDesk(t)
	c, err := d.KeepClient(t.Context(), quote.Client{Notes: "met at the fair"})
	require.NoError(t, err)
	assert.Equal(t, desk.Unnamed, c.Name)
	call, err := d.KeepCall(t.Context(), quote.Call{Notes: "heard on the radio", Deadline: "some day in May"})
	require.NoError(t, err)
	assert.True(t, call.Due.IsZero())
	assert.Equal(t, "some day in May", call.Deadline, "as typed")
}

func TestADeadlineOfACallIsRemindedOfForTwoWeeks(t *testing.T) {
	d, _ := issuingDesk(t)
	call, err := d.KeepCall(t.Context(), quote.Call{Title: "Quay", Deadline: "28 March 2026"})
	require.NoError(t, err)
	_, err = d.KeepCall(t.Context(), quote.Call{Title: "Park", Deadline: "2026-03-29"})
	require.NoError(t, err)
	list, err := d.Reminders(t.Context())
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, call.ID, list[0].Call)
	assert.Equal(t, 14, d.DaysUntil(list[0].On))
}

func TestAQuoteTakesWhatItsCallSaysWhereNothingIsTyped(t *testing.T) {
	d, _ := issuingDesk(t)
	town, err := d.KeepClient(t.Context(), quote.Client{Name: "Town of Port Haskel"})
	require.NoError(t, err)
	call, err := d.KeepCall(t.Context(), quote.Call{Title: "A figure for the quay", Client: town.ID, Site: "Cannery Quay"})
	require.NoError(t, err)
	s, err := d.Create(t.Context())
	require.NoError(t, err)
	s.SetCall(call, town)
	assert.Equal(t, "Town of Port Haskel", s.Commission().Client)
	assert.Equal(t, "Cannery Quay", s.Commission().Place)
	require.NoError(t, s.Save(t.Context()))
	kept, err := d.Fetch(t.Context(), s.Quote().ID)
	require.NoError(t, err)
	assert.Equal(t, call.ID, kept.Call)
	assert.Equal(t, town.ID, kept.Client)
	assert.True(t, s.Undo())
	assert.Zero(t, s.Quote().Call)
	assert.Empty(t, s.Commission().Client)
	s.SetClient(town)
	assert.Equal(t, "Town of Port Haskel", s.Commission().Client)
	s.SetClient(quote.Client{})
	assert.Equal(t, "Town of Port Haskel", s.Commission().Client, "what stands on papers stays")
}

func TestEveryStepCarriesTheNameOfWhoTookIt(t *testing.T) {
	d, _ := issuingDesk(t)
	d.Sign("Ida Moss")
	s, err := d.Create(t.Context())
	require.NoError(t, err)
	r, err := s.Issue(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "Ida Moss", r.By)
	require.NoError(t, s.SetState(t.Context(), quote.Accepted))
	steps, err := d.Steps(t.Context(), s.Quote().ID)
	require.NoError(t, err)
	require.Len(t, steps, 3)
	for _, x := range steps {
		assert.Equal(t, "Ida Moss", x.By)
	}
}
