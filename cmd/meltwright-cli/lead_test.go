package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
)

// accepted makes a store with so many accepted quotes, all begun on 2 March 2026.
func accepted(t *testing.T, n int) (db string) {
	t.Helper()
	ctx, db := context.Background(), filepath.Join(t.TempDir(), "shop.db")
	require.NoError(t, atDesk(ctx, db, func(d *desk.Desk) error {
		for range n {
			s, err := d.Take(ctx, desk.Demo()[1])
			require.NoError(t, err)
			s.SetWords(desk.Start, "2 March 2026")
			_, err = s.Issue(ctx)
			require.NoError(t, err)
			require.NoError(t, s.SetState(ctx, quote.Accepted))
		}
		return nil
	}))
	return db
}

// says runs the program and gives what it prints.
func says(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	require.Zero(t, run(&out, &errs, args), errs.String())
	return out.String()
}

func leadOf(t *testing.T, args ...string) (l leadJSON) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(says(t, append([]string{"lead"}, args...)...)), &l))
	return l
}

func TestANewCommissionIsScheduledAfterThreeAcceptedQuotes(t *testing.T) {
	file := filepath.Join(t.TempDir(), "demo.json")
	require.NoError(t, os.WriteFile(file, []byte(says(t, "example")), 0o600))
	db := accepted(t, 3)
	ask := []string{file, "--start", "2026-03-02", "--trials", "20"}

	alone := leadOf(t, append(ask, "--json")...)
	assert.Nil(t, alone.Booked)
	after := leadOf(t, append(ask, "--json", "--db", db)...)
	require.NotNil(t, after.Booked)
	assert.Equal(t, 3, after.Booked.Quotes)
	assert.Equal(t, alone.Ready, after.Booked.Without)
	assert.Greater(t, after.Ready, alone.Ready)
	assert.Greater(t, after.P80, alone.P80)
	assert.NotEmpty(t, after.Booked.Pour)
	assert.Regexp(t, `(?m)^After 3 accepted quotes; the first pour day free is 202\d-\d\d-\d\d\. Ready \d+ weeks later than in an empty shop; waited for longest: Sculptor, free from 202\d-\d\d-\d\d\.$`,
		says(t, append([]string{"lead", "--db", db}, ask...)...))

	// A year later they are over, and in nobody's way.
	later := []string{file, "--start", "2028-03-06", "--trials", "20", "--json"}
	free := leadOf(t, append(later, "--db", db)...)
	assert.Nil(t, free.Booked)
	assert.Equal(t, leadOf(t, later...).Ready, free.Ready)
}
