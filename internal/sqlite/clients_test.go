package sqlite

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func keep(t testing.TB, s *Store, c quote.Client) quote.Client {
	t.Helper()
	kept, err := s.SaveClient(t.Context(), c)
	require.NoError(t, err)
	return kept
}

func names(t testing.TB, s *Store, words string) []string {
	t.Helper()
	all, err := s.Clients(t.Context(), words, false)
	require.NoError(t, err)
	got := []string{}
	for _, c := range all {
		got = append(got, c.Name)
	}
	return got
}

func TestAClientIsKeptWhole(t *testing.T) {
	s := newStore(t)
	c := keep(t, s, quote.Client{Name: "Town of Grönhaven", Contact: "Ida Moss", Email: "ida@gronhaven.example", Phone: "+1 555 0100", Address: "1 Quay\nGrönhaven", Notes: "pays in 30 days"})
	assert.NotZero(t, c.ID)
	c.Phone = "+1 555 0101"
	c = keep(t, s, c)
	all, err := s.Clients(t.Context(), "", false)
	require.NoError(t, err)
	assert.Equal(t, []quote.Client{c}, all)
	sound(t, s)
}

func TestClientsStandInTheOrderOfACardIndex(t *testing.T) {
	s := newStore(t)
	for _, name := range []string{"Zoë's Garden", "émile & Fils", "Emil Ash", "Ørsted College", "Port of Ash Ferry", "Oak Hospital", "E\u0301mile Zinc"} {
		keep(t, s, quote.Client{Name: name})
	}
	assert.Equal(t, []string{"Emil Ash", "émile & Fils", "E\u0301mile Zinc", "Oak Hospital", "Ørsted College", "Port of Ash Ferry", "Zoë's Garden"}, names(t, s, ""))
}

func TestClientsAreFoundByAnyOfTheirWords(t *testing.T) {
	s := newStore(t)
	c := keep(t, s, quote.Client{Name: "Town of Grönhaven", Contact: "Ida Moss", Email: "ida@gronhaven.example", Notes: "met at the fair"})
	keep(t, s, quote.Client{Name: "Library of Millbrook"})
	for _, words := range []string{"gron", "MOSS town", "ida@gronhaven", "fair", "ida met"} {
		assert.Equal(t, []string{c.Name}, names(t, s, words), words)
	}
	assert.Empty(t, names(t, s, "moss library"))
	c.Contact = "Nils Reed"
	keep(t, s, c)
	assert.Empty(t, names(t, s, "moss"))
	assert.Len(t, names(t, s, "reed"), 1)
}

func TestAClientNeedsAName(t *testing.T) {
	s := newStore(t)
	_, err := s.SaveClient(t.Context(), quote.Client{Contact: "Ida Moss"})
	says(t, err, nil, "name")
	_, err = s.SaveClient(t.Context(), quote.Client{ID: 9, Name: "Nobody", Version: 1})
	says(t, err, quote.ErrNotFound)
}

func TestAClientChangedElsewhereIsNotOverwritten(t *testing.T) {
	s := newStore(t)
	c := keep(t, s, quote.Client{Name: "Town of Grönhaven"})
	keep(t, s, c)
	_, err := s.SaveClient(t.Context(), c)
	says(t, err, quote.ErrOutdated, "Grönhaven")
}

func TestAQuoteIsFoundByItsClientsNameOfToday(t *testing.T) {
	s := newStore(t)
	c := keep(t, s, quote.Client{Name: "Parish of Fairlea"})
	work := harbour()
	work.Client = ""
	q, err := s.Save(t.Context(), quote.Quote{Commission: work, Client: c.ID}, "", march)
	require.NoError(t, err)
	c.Name = "Commune of Fairlea"
	keep(t, s, c)
	assert.Empty(t, titles(t, s, quote.Filter{Words: "parish"}))
	rows, _, err := s.List(t.Context(), quote.Filter{Words: "comm fair"})
	require.NoError(t, err)
	require.Len(t, rows, 1)
	assert.Equal(t, "Commune of Fairlea", rows[0].Client, "no other name was typed")
	kept, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, kept, "the quote itself did not change")
	q.Commission.Client = "Fairlea Arts Board"
	q, err = s.Save(t.Context(), q, "", at(1))
	require.NoError(t, err)
	rows, _, err = s.List(t.Context(), quote.Filter{Words: "board commune"})
	require.NoError(t, err)
	require.Len(t, rows, 1)
	assert.Equal(t, "Fairlea Arts Board", rows[0].Client, "as the papers have it")
	q.Client = 0
	_, err = s.Save(t.Context(), q, "", at(2))
	require.NoError(t, err)
	assert.Empty(t, titles(t, s, quote.Filter{Words: "commune"}))
	sound(t, s)
}

func TestAQuoteOfAnUnknownClientIsRefused(t *testing.T) {
	s := newStore(t)
	_, err := s.Save(t.Context(), quote.Quote{Client: 4}, "", march)
	says(t, err, quote.ErrNotFound, "Client", "4")
	assert.Empty(t, titles(t, s, quote.Filter{}))
	assert.Equal(t, "2026-001", saved(t, s, "Owl", march).Number, "and took no number")
}
