package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// markedRow remembers which row it shows and where.
type markedRow struct {
	shows int
	y     float32
	text  *canvas.Text
}

func (r *markedRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.text} }
func (r *markedRow) place(y, _, _ float32)        { r.y = y }
func (r *markedRow) dress()                       {}

func markedStrip() *strip {
	return &strip{
		make: func() stripRow { return &markedRow{text: &canvas.Text{}} },
		fill: func(r stripRow, i int) { r.(*markedRow).shows = i },
	}
}

func TestAStripShowsExactlyTheRowsThatItsBandTouches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := markedStrip()
		s.height = rapid.Float32Range(10, 60).Draw(t, "height")
		for range rapid.IntRange(1, 12).Draw(t, "moves") {
			s.count = rapid.IntRange(0, 500).Draw(t, "count")
			s.top = rapid.Float32Range(-500, 20000).Draw(t, "top")
			s.bottom = s.top + rapid.Float32Range(-10, 900).Draw(t, "view")
			s.lay(rapid.Bool().Draw(t, "all"))
			seen := map[int]bool{}
			for i := s.first; i < s.last; i++ {
				r := s.row(i).(*markedRow)
				require.Equal(t, i, r.shows, "one row serves one index")
				require.InDelta(t, float32(i)*s.height, r.y, 0.01)
				seen[i] = true
			}
			for i := range s.count {
				top, bottom := float32(i)*s.height, float32(i+1)*s.height
				if s.bottom > s.top+0.2 && top < s.bottom-0.1 && bottom > s.top+0.1 {
					require.True(t, seen[i], "row %d can be seen and is not there", i)
				}
			}
			require.LessOrEqual(t, float32(len(s.pool)), 900/s.height+3, "no more rows than a window shows")
			require.Len(t, s.seen, s.last-s.first)
		}
	})
}

func TestScrollingByARowSetsOneRow(t *testing.T) {
	s, set := markedStrip(), 0
	fill := s.fill
	s.fill = func(r stripRow, i int) { set++; fill(r, i) }
	s.count, s.height, s.bottom = 1000, 20, 390
	s.lay(true)
	set = 0
	s.top, s.bottom = 20, 410
	s.lay(false)
	require.LessOrEqual(t, set, 2)
}
