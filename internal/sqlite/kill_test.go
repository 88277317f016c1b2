package sqlite

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// saverFile names the file, and saverJob the work, to a copy of this test that
// runs as a saver.
const (
	saverFile = "MELTWRIGHT_SAVER_FILE"
	saverJob  = "MELTWRIGHT_SAVER_JOB"
)

// jobs are what a saver may do until it is killed.
var jobs = map[string]func(path string, tell *json.Encoder) error{"": keepSaving, "restore": keepRestoring, "make": keepMaking}

func TestMain(m *testing.M) {
	if path := os.Getenv(saverFile); path != "" {
		fmt.Fprintln(os.Stderr, jobs[os.Getenv(saverJob)](path, json.NewEncoder(os.Stdout)))
		os.Exit(1) // it is killed, or something went wrong
	}
	os.Exit(m.Run())
}

// acknowledged is what a saver tells of a change that was kept.
type acknowledged struct {
	Quote   quote.ID
	Version int64
	Title   string
	Issued  string // the letter, of a revision

	Pictures int // how many the quote shows
}

// keepSaving saves, and tells of every save once it has returned, until killed.
func keepSaving(path string, tell *json.Encoder) error {
	ctx := context.Background()
	s, err := Open(ctx, path)
	if err != nil {
		return err
	}
	var q quote.Quote
	for i := 0; ; i++ {
		told := acknowledged{}
		switch {
		case i%7 == 0:
			q = quote.Quote{Commission: harbour()}
			q, err = s.Save(ctx, q, "", march)
		case i%7 == 5:
			r := revisionOf(q)
			r.Proposal = make([]byte, 20_000*(i%3)) // many pages, or none
			told.Issued = r.Letter
			if err = s.Issue(ctx, r); err == nil {
				q, err = s.Quote(ctx, q.ID)
			}
		case i%7 == 3:
			var id quote.PictureID
			if id, err = s.KeepPicture(ctx, fmt.Appendf(make([]byte, 9000*(i%4)), "picture %d", i)); err == nil {
				q.Pictures = append(q.Pictures, quote.Shown{Picture: id})
				q.State = ""
				q, err = s.Save(ctx, q, "$9,000", march)
			}
		default:
			q.Commission.Title = fmt.Sprint("Owl, retyped ", i)
			q.State = ""
			q, err = s.Save(ctx, q, "$9,000", march)
		}
		if err != nil {
			return err
		}
		told.Quote, told.Version, told.Title, told.Pictures = q.ID, q.Version, q.Commission.Title, len(q.Pictures)
		if err := tell.Encode(told); err != nil {
			return err
		}
	}
}

// saver is a running copy of this test that saves.
type saver struct {
	command *exec.Cmd
	words   *bufio.Scanner
	kept    []acknowledged
}

func startSaver(t *testing.T, path, job string) *saver {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), saverFile+"="+path, saverJob+"="+job)
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	return &saver{command: c, words: bufio.NewScanner(out)}
}

// listen takes the next acknowledgement, if there is one.
func (s *saver) listen(t *testing.T) bool {
	t.Helper()
	if !s.words.Scan() {
		return false
	}
	var a acknowledged
	if json.Unmarshal(s.words.Bytes(), &a) != nil {
		return s.listen(t) // cut off in the middle of a line
	}
	s.kept = append(s.kept, a)
	return true
}

// killAfter kills the saver some time after its nth acknowledgement, and takes
// those that it still made.
func (s *saver) killAfter(t *testing.T, n int, chance *rand.Rand) {
	t.Helper()
	for range n {
		require.True(t, s.listen(t), "the saver stopped by itself")
	}
	// Anywhere in the saves that follow: this takes up to about as long as one.
	h := sha256.New()
	_, err := io.CopyN(h, zeros{}, chance.Int64N(1<<20))
	require.NoError(t, err)
	require.NoError(t, s.command.Process.Kill())
	for s.listen(t) {
	}
	require.Error(t, s.command.Wait(), "killed")
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { return len(p), nil }

// savesToKill is how many acknowledged saves the test of kills goes through. A set of
// figures takes: go test ./internal/sqlite -run NoKill -saves 5000 -v.
var savesToKill = flag.Int("saves", 1000, "acknowledged saves to kill through")

// Two windows save into one file, and are killed in turn at any moment, until so
// many changes were acknowledged and one kill was done for every twenty-five of
// them. After each kill the file is sound and holds every
// change that was acknowledged, and at most the one change that was under way.
func TestNoKillLosesAChangeThatWasAcknowledged(t *testing.T) {
	path := newFile(t)
	opened(t, path).Close()
	chance := rand.New(rand.NewPCG(rand.Uint64(), rand.Uint64()))
	kills, saves, underWay := 0, 0, 0
	for saves < *savesToKill || kills < *savesToKill/25 {
		one, other := startSaver(t, path, ""), startSaver(t, path, "")
		one.killAfter(t, 1+chance.IntN(9), chance)
		other.killAfter(t, 1+chance.IntN(9), chance)
		kills += 2
		s, err := Open(t.Context(), path)
		require.NoError(t, err)
		sound(t, s)
		for _, killed := range []*saver{one, other} {
			saves += len(killed.kept)
			underWay += holdsAll(t, s, killed.kept)
		}
		require.NoError(t, s.Close())
		if t.Failed() {
			return
		}
	}
	t.Logf("%d kills, %d acknowledged changes, none lost; %d that were under way arrived whole", kills, saves, underWay)
}

// holdsAll fails the test where an acknowledged change is not kept, and tells how
// many were kept that had not been acknowledged yet.
func holdsAll(t *testing.T, s *Store, kept []acknowledged) (underWay int) {
	t.Helper()
	last := map[quote.ID]acknowledged{}
	for _, a := range kept {
		last[a.Quote] = a
		if a.Issued != "" {
			_, err := s.Revision(t.Context(), a.Quote, a.Issued)
			assert.NoError(t, err)
		}
	}
	for id, a := range last {
		q, err := s.Quote(t.Context(), id)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, q.Version, a.Version)
		assert.LessOrEqual(t, q.Version, a.Version+1, "the one under way")
		if q.Version > a.Version {
			underWay++
			continue
		}
		assert.Equal(t, a.Title, q.Commission.Title)
		assert.Equal(t, a.Pictures, len(q.Pictures))
		for _, p := range q.Pictures {
			_, err := s.Picture(t.Context(), p.Picture)
			assert.NoError(t, err)
		}
	}
	return underWay
}

// keepRestoring restores one backup after the other.
func keepRestoring(path string, tell *json.Encoder) error {
	ctx := context.Background()
	for i := 0; ; i++ {
		all, err := backupsOf(path)
		if err != nil {
			return err
		}
		dailies := slices.DeleteFunc(all, func(b named) bool { return b.kind != daily })
		from := dailies[i%2]
		if _, err := Restore(ctx, path, from.path, march); err != nil {
			return err
		}
		if err := tell.Encode(acknowledged{Title: map[string]string{"2026-03-14": "Owl", "2026-03-15": "Otter"}[from.date]}); err != nil {
			return err
		}
	}
}

func TestAKillInTheMiddleOfARestoreLeavesOneFileOrTheOther(t *testing.T) {
	path := newFile(t)
	s := opened(t, path)
	q := saved(t, s, "Owl", march)
	_, err := s.KeepBackup(t.Context(), day(0))
	require.NoError(t, err)
	q.Commission.Title = "Otter"
	_, err = s.Save(t.Context(), q, "", day(1))
	require.NoError(t, err)
	_, err = s.KeepBackup(t.Context(), day(1))
	require.NoError(t, err)
	require.NoError(t, s.Close())
	chance := rand.New(rand.NewPCG(rand.Uint64(), rand.Uint64()))
	for range 8 {
		killed := startSaver(t, path, "restore")
		killed.killAfter(t, 1+chance.IntN(3), chance)
		s, err := Open(t.Context(), path)
		require.NoError(t, err)
		sound(t, s)
		assert.Contains(t, [][]string{{"Owl"}, {"Otter"}}, titles(t, s, quote.Filter{}))
		require.NoError(t, s.Close())
	}
	s = opened(t, path)
	saved(t, s, "Heron", day(2))
	_, err = s.KeepBackup(t.Context(), time.Now().AddDate(0, 0, 1))
	require.NoError(t, err)
	for _, folder := range []string{filepath.Dir(path), BackupFolder(path)} {
		left, err := filepath.Glob(filepath.Join(folder, "*"+unfinished))
		require.NoError(t, err)
		assert.Empty(t, left, "copies that were cut off are swept up")
	}
}

// keepMaking makes one new file after the other beside path.
func keepMaking(path string, tell *json.Encoder) error {
	for i := 0; ; i++ {
		s, err := Open(context.Background(), fmt.Sprint(path, i))
		if err != nil {
			return err
		}
		if err := s.Close(); err != nil {
			return err
		}
		if err := tell.Encode(acknowledged{}); err != nil {
			return err
		}
	}
}

func TestAKillInTheMiddleOfMakingAFileLeavesOneThatOpens(t *testing.T) {
	chance := rand.New(rand.NewPCG(rand.Uint64(), rand.Uint64()))
	for range 8 {
		path := newFile(t)
		killed := startSaver(t, path, "make")
		killed.killAfter(t, 1+chance.IntN(2), chance)
		for i := range len(killed.kept) + 1 {
			s := opened(t, fmt.Sprint(path, i))
			sound(t, s)
			saved(t, s, "Owl", march)
			require.NoError(t, s.Close())
		}
	}
}
