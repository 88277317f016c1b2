package sqlite

import (
	"cmp"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// BenchmarkSave is a draft saved as it is typed, into a store of 1,000 quotes:
// acknowledged once it has reached the disk. BenchmarkFlush is that part of it.
func BenchmarkSave(b *testing.B) {
	s := newStore(b)
	fillWith(b, s, 1000)
	q := saved(b, s, "Owl", march)
	var err error
	for b.Loop() {
		q, err = s.Save(b.Context(), q, "$128,400", march)
		require.NoError(b, err)
	}
}

// BenchmarkFlush writes as much as a save does to a plain file, and has it
// reach the disk.
func BenchmarkFlush(b *testing.B) {
	f, err := os.Create(filepath.Join(b.TempDir(), "plain"))
	require.NoError(b, err)
	defer f.Close()
	pages := make([]byte, 12*4120) // what the log grows by in most saves
	for i := 0; b.Loop(); i++ {
		_, err = f.WriteAt(pages, int64(i%80*len(pages)))
		require.NoError(b, err)
		require.NoError(b, f.Sync())
	}
}

// filled gives a closed file of n quotes.
func filled(b *testing.B, n int) string {
	b.Helper()
	path := newFile(b)
	s, err := Open(b.Context(), path)
	require.NoError(b, err)
	fillWith(b, s, n)
	require.NoError(b, s.Close())
	return path
}

func BenchmarkOpen10k(b *testing.B) {
	path := filled(b, 10_000)
	for b.Loop() {
		s, err := Open(b.Context(), path)
		require.NoError(b, err)
		_, _, err = s.List(b.Context(), quote.Filter{})
		require.NoError(b, err)
		require.NoError(b, s.Close())
	}
}

func BenchmarkList10k(b *testing.B)  { benchmarkList(b, 10_000) }
func BenchmarkList100k(b *testing.B) { benchmarkList(b, 100_000) }

func benchmarkList(b *testing.B, n int) {
	s := opened(b, filled(b, n))
	for b.Loop() {
		rows, total, err := s.List(b.Context(), quote.Filter{})
		require.NoError(b, err)
		require.Len(b, rows, usual)
		require.Equal(b, n, total)
	}
}

func BenchmarkSearch10k(b *testing.B)  { benchmarkSearch(b, 10_000) }
func BenchmarkSearch100k(b *testing.B) { benchmarkSearch(b, 100_000) }

// benchmarkSearch looks for words that match one quote, some, and most.
func benchmarkSearch(b *testing.B, n int) {
	s := opened(b, filled(b, n))
	for _, words := range []string{"2025-017", "eloi emigre", "own f", "s", "figure dog bench", "nowhere"} {
		b.Run(words, func(b *testing.B) {
			for b.Loop() {
				_, _, err := s.List(b.Context(), quote.Filter{Words: words})
				require.NoError(b, err)
			}
		})
	}
}

// BenchmarkOrders100k lists quotes in every order, of one state, of one client, and
// those among them that hold a word: each is the first page of a hundred thousand,
// with the count of all.
func BenchmarkOrders100k(b *testing.B) {
	s := opened(b, filled(b, 100_000))
	town := keep(b, s, quote.Client{Name: "Town of Grönhaven"})
	_, err := s.db.ExecContext(b.Context(), `UPDATE quotes SET due = changed WHERE id % 10 = 0;
		UPDATE quotes SET state = 'accepted' WHERE id % 50 = 0; UPDATE quotes SET client_id = ? WHERE id % 1000 = 0`, town.ID)
	require.NoError(b, err)
	for _, order := range quote.Orders() {
		for name, f := range map[string]quote.Filter{
			"all": {}, "accepted": {State: quote.Accepted}, "client": {Client: town.ID}, "owl": {Words: "owl"}, "s": {Words: "s"},
		} {
			f.Order, f.Today, f.Limit = order, march, 100
			b.Run("by "+cmp.Or(string(order), "change")+"/"+name, func(b *testing.B) {
				for b.Loop() {
					_, _, err := s.List(b.Context(), f)
					require.NoError(b, err)
				}
			})
		}
	}
	b.Run("reminders", func(b *testing.B) {
		for b.Loop() {
			_, err := s.Reminders(b.Context(), march, march.AddDate(0, 0, 14))
			require.NoError(b, err)
		}
	})
	b.Run("the last page", func(b *testing.B) {
		for b.Loop() {
			_, _, err := s.List(b.Context(), quote.Filter{Order: quote.ByClient, Offset: 99_900, Limit: 100})
			require.NoError(b, err)
		}
	})
}

func BenchmarkBackup10k(b *testing.B) {
	s := opened(b, filled(b, 10_000))
	to := filepath.Join(b.TempDir(), "copy.db")
	for b.Loop() {
		require.NoError(b, s.Backup(b.Context(), to))
	}
}

func BenchmarkCheck10k(b *testing.B) {
	s := opened(b, filled(b, 10_000))
	for b.Loop() {
		sound(b, s)
	}
}
