package sqlite

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// anyText is what people and pastes bring: any characters, and those that trip
// a database.
func anyText() *rapid.Generator[string] {
	return rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
		"", "O'Brien", `"quoted"`, "a\x00b", "\x00", "🐎 horse 🫠", "e\u0301", "日本語", "'; DROP TABLE quotes; --", "50 %", "line\nline\r\n", "\\u0000", "\u2028", "<b>&amp;</b>", "NULL", "\ufeff",
	}))
}

func anyInputs() *rapid.Generator[map[string]string] {
	return rapid.Custom(func(t *rapid.T) map[string]string {
		m := rapid.MapOfN(anyText(), anyText(), 0, 3).Draw(t, "inputs")
		if len(m) == 0 {
			return nil // what is empty and what is not there are one
		}
		return m
	})
}

func anyCommission() *rapid.Generator[estimate.Commission] {
	return rapid.Custom(func(t *rapid.T) estimate.Commission {
		text := func(label string) string { return anyText().Draw(t, label) }
		c := estimate.Commission{Title: text("title"), Client: text("client"), Place: text("place"), Currency: text("currency"), Units: text("units")}
		c.Inputs = anyInputs().Draw(t, "whole")
		for range rapid.IntRange(0, 3).Draw(t, "pieces") {
			p := estimate.Piece{Name: text("name"), Inputs: anyInputs().Draw(t, "piece")}
			for range rapid.IntRange(0, 2).Draw(t, "solids") {
				p.Solids = append(p.Solids, rapid.MapOfN(anyText(), anyText(), 1, 2).Draw(t, "solid"))
			}
			c.Pieces = append(c.Pieces, p)
		}
		for range rapid.IntRange(0, 2).Draw(t, "extras") {
			c.Extras = append(c.Extras, estimate.Extra{Stage: text("stage"), Item: text("item"), Quantity: text("quantity"), Unit: text("unit"), Rate: text("rate")})
		}
		return c
	})
}

func anyTime() *rapid.Generator[time.Time] {
	return rapid.Custom(func(t *rapid.T) time.Time {
		return time.UnixMicro(rapid.Int64Range(-2e15, 7e15).Draw(t, "time"))
	})
}

func TestWhatIsSavedIsWhatIsOpened(t *testing.T) {
	path := newFile(t)
	rapid.Check(t, func(rt *rapid.T) {
		s, err := Open(t.Context(), path)
		require.NoError(rt, err)
		q := quote.Quote{Commission: anyCommission().Draw(rt, "commission"), Words: anyInputs().Draw(rt, "words")}
		price, now := anyText().Draw(rt, "price"), anyTime().Draw(rt, "now")
		for range rapid.IntRange(1, 3).Draw(rt, "saves") {
			q, err = s.Save(t.Context(), q, price, now)
			require.NoError(rt, err)
			q.Commission.Title = anyText().Draw(rt, "retitled")
		}
		q, err = s.Save(t.Context(), q, price, now)
		require.NoError(rt, err)
		require.NoError(rt, s.Close())

		s, err = Open(t.Context(), path)
		require.NoError(rt, err)
		defer s.Close()
		kept, err := s.Quote(t.Context(), q.ID)
		require.NoError(rt, err)
		assert.Equal(rt, q, kept)
		rows, total, err := s.List(t.Context(), quote.Filter{Limit: 1 << 20})
		require.NoError(rt, err)
		assert.Len(rt, rows, total)
		for _, r := range rows {
			if r.ID == q.ID {
				assert.Equal(rt, quote.Summary{
					ID: q.ID, Number: q.Number, Letter: "A", State: quote.Draft, Title: q.Commission.Title,
					Client: q.Commission.Client, Place: q.Commission.Place, Price: price, Changed: q.Changed,
				}, r)
			}
		}
	})
	sound(t, opened(t, path))
}

// A model of plain Go keeps the same quotes as the store, through any series of
// saves, moves to the bin and back, and emptyings.
func TestTheStoreKeepsWhatAPlainModelKeeps(t *testing.T) {
	s := newStore(t)
	last := map[int]int{} // numbers run on from one series to the next
	rapid.Check(t, func(rt *rapid.T) {
		m := model{quotes: map[quote.ID]quote.Quote{}, last: last}
		rt.Repeat(map[string]func(*rapid.T){
			"save": func(rt *rapid.T) {
				now := march.AddDate(rapid.IntRange(0, 2).Draw(rt, "year"), 0, 0)
				q, err := s.Save(t.Context(), quote.Quote{Commission: harbour()}, "", now)
				require.NoError(rt, err)
				m.last[now.Year()]++
				assert.Equal(rt, m.number(now.Year()), q.Number)
				m.quotes[q.ID] = q
			},
			"change": func(rt *rapid.T) {
				q := m.any(rt)
				q.Commission.Title = anyText().Draw(rt, "title")
				q, err := s.Save(t.Context(), q, "", anyTime().Draw(rt, "now"))
				require.NoError(rt, err)
				m.quotes[q.ID] = q
			},
			"delete": func(rt *rapid.T) {
				q := m.any(rt)
				require.NoError(rt, s.Delete(t.Context(), q.ID, march))
				if q.Deleted.IsZero() {
					q.Deleted = moment(micros(march))
				}
				m.quotes[q.ID] = q
			},
			"restore": func(rt *rapid.T) {
				q := m.any(rt)
				require.NoError(rt, s.Restore(t.Context(), q.ID))
				q.Deleted = time.Time{}
				m.quotes[q.ID] = q
			},
			"empty": func(rt *rapid.T) {
				n, err := s.Empty(t.Context(), at(1))
				require.NoError(rt, err)
				assert.Equal(rt, m.empty(), n)
			},
			"": func(rt *rapid.T) {
				for _, bin := range []bool{false, true} {
					_, total, err := s.List(t.Context(), quote.Filter{Bin: bin})
					require.NoError(rt, err)
					assert.Equal(rt, m.count(bin), total)
				}
			},
		})
		for id, q := range m.quotes {
			kept, err := s.Quote(t.Context(), id)
			require.NoError(rt, err)
			assert.Equal(rt, q, kept)
			require.NoError(rt, s.Delete(t.Context(), id, march))
		}
		_, err := s.Empty(t.Context(), at(1))
		require.NoError(rt, err)
	})
	sound(t, s)
}

func TestAShopBookIsKeptAsTyped(t *testing.T) {
	s := newStore(t)
	rapid.Check(t, func(rt *rapid.T) {
		b := shop.Start().WithHouse(anyText().Draw(rt, "name"), anyText().Draw(rt, "address"), "CAD", "metric", "2026-03-14")
		for key := range b.Settings {
			b = b.With(key, anyText().Draw(rt, "text"), "2026-03-14")
			break
		}
		require.NoError(rt, s.SaveBook(t.Context(), b, march))
		kept, err := s.Book(t.Context())
		require.NoError(rt, err)
		assert.Equal(rt, b, kept)
	})
}
