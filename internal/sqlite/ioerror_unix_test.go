//go:build linux || darwin

package sqlite

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func init() { jobs["narrow"] = keepSavingUntilWritesFail }

// keepSavingUntilWritesFail saves while the system lets no file of this program
// grow beyond a size: every write beyond it fails, as on a broken disk. It tells of
// every save that was kept, then of the error as the title of a last one.
func keepSavingUntilWritesFail(path string, tell *json.Encoder) error {
	ctx := context.Background()
	s, err := Open(ctx, path)
	if err != nil {
		return err
	}
	const size = 600 << 10
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: size, Max: size}); err != nil {
		return err
	}
	refused := 0
	for i := 0; refused < 20; i++ {
		c := harbour()
		c.Title = fmt.Sprint("Owl ", i)
		q, err := s.Save(ctx, quote.Quote{Commission: c}, "", march)
		if err != nil {
			refused++
			if !errors.Is(err, quote.ErrDisk) && !errors.Is(err, quote.ErrFull) {
				return err
			}
			continue
		}
		if err := tell.Encode(acknowledged{Quote: q.ID, Version: q.Version, Title: c.Title}); err != nil {
			return err
		}
	}
	return tell.Encode(acknowledged{Title: "refused"})
}

func TestWritesThatFailRefuseTheSaveAndKeepEveryOneBefore(t *testing.T) {
	path := newFile(t)
	opened(t, path).Close()
	broken := startSaver(t, path, "narrow")
	for broken.listen(t) {
	}
	_ = broken.command.Wait() // it ends with 1 when it is done
	require.NotEmpty(t, broken.kept)
	last := broken.kept[len(broken.kept)-1]
	require.Equal(t, "refused", last.Title, "the saver ended by itself")
	s := opened(t, path)
	sound(t, s)
	kept := broken.kept[:len(broken.kept)-1]
	require.NotEmpty(t, kept)
	holdsAll(t, s, kept)
	_, total, err := s.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, len(kept), total, "what was refused is not there")
	t.Logf("%d saves kept, then 20 refused by failing writes", len(kept))
	saved(t, s, "Otter", march)
}
