package sqlite

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// Two windows type into the same quotes at once. Every save that was accepted
// was of the version before it: none was written over unseen.
func TestTwoWindowsOnOneFileLoseNoChange(t *testing.T) {
	path := newFile(t)
	quotes := []quote.ID{}
	first := opened(t, path)
	for i := range 3 {
		quotes = append(quotes, saved(t, first, fmt.Sprint("Owl ", i), march).ID)
	}
	const windows, each = 2, 120
	type outcome struct {
		accepted map[quote.ID]int
		refused  int
		err      error
	}
	outcomes := make(chan outcome)
	for w := range windows {
		s := opened(t, path)
		go func() {
			o := outcome{accepted: map[quote.ID]int{}}
			for i := range each {
				id := quotes[i%len(quotes)]
				q, err := s.Quote(context.Background(), id)
				if err == nil {
					q.Words = map[string]string{"idea": q.Words["idea"] + fmt.Sprint("window ", w, "; ")}
					_, err = s.Save(context.Background(), q, "", at(i))
				}
				switch {
				case err == nil:
					o.accepted[id]++
				case assert.ErrorIs(t, err, quote.ErrOutdated):
					o.refused++
				default:
					o.err = err
				}
			}
			outcomes <- o
		}()
	}
	accepted := map[quote.ID]int{}
	for range windows {
		o := <-outcomes
		require.NoError(t, o.err)
		for id, n := range o.accepted {
			accepted[id] += n
		}
	}
	for _, id := range quotes {
		q, err := first.Quote(t.Context(), id)
		require.NoError(t, err)
		assert.EqualValues(t, 1+accepted[id], q.Version)
		assert.Len(t, q.Words["idea"], accepted[id]*len("window 0; "), "every accepted change is in it")
	}
	sound(t, first)
}

func TestAWindowCanTellThatAnotherChangedSomething(t *testing.T) {
	here := newStore(t)
	other := opened(t, here.Path())
	before, err := here.Changes(t.Context())
	require.NoError(t, err)
	saved(t, other, "Owl", march)
	after, err := here.Changes(t.Context())
	require.NoError(t, err)
	assert.Equal(t, before+1, after)
	assert.Equal(t, []string{"Owl"}, titles(t, here, quote.Filter{}), "and sees it at once")
}

func TestAListSeesTheFileAtOneMoment(t *testing.T) {
	s := newStore(t)
	stop := make(chan struct{})
	done := make(chan error)
	go func() {
		var err error
		for i := 0; err == nil; i++ {
			select {
			case <-stop:
				done <- nil
				return
			default:
				_, err = s.Save(context.Background(), quote.Quote{Commission: harbour()}, "", march)
			}
		}
		done <- err
	}()
	for range 200 {
		rows, total, err := s.List(t.Context(), quote.Filter{Words: "figure", Limit: 100_000})
		require.NoError(t, err)
		require.Len(t, rows, total)
	}
	close(stop)
	require.NoError(t, <-done)
}

// Across a network the file is one program's at a time.
func TestOnASharedDiskTheSecondWindowIsToldThatTheFileIsInUse(t *testing.T) {
	waits := patience
	onShare, patience = func(string) bool { return true }, time.Second/10
	t.Cleanup(func() { onShare, patience = shareOf, waits })
	path := newFile(t)
	s := opened(t, path)
	saved(t, s, "Owl", march)
	assert.NoFileExists(t, path+memorySuffix, "nothing is shared through memory")
	for _, open := range []func(context.Context, string) (*Store, error){Open, OpenReadOnly} {
		_, err := open(t.Context(), path)
		says(t, err, quote.ErrLocked, "in use")
	}
	assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{Words: "owl"}))
	require.NoError(t, s.Backup(t.Context(), filepath.Join(t.TempDir(), "copy.db")))
	sound(t, s)
	require.NoError(t, s.Close())
	read, err := OpenReadOnly(t.Context(), path)
	require.NoError(t, err)
	again := opened(t, path)
	saved(t, again, "Otter", at(1))
	assert.Equal(t, []string{"Owl"}, titles(t, read, quote.Filter{}), "as it stood")
	require.NoError(t, read.Close())
}

func TestThisDisksKindCanBeTold(t *testing.T) {
	assert.False(t, shareOf(filepath.Join(t.TempDir(), "not there")))
	assert.False(t, shareOf(t.TempDir()), "a test's folder is on this computer")
}
