package drawing

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// halfAYear is the work on a figure over 27 weeks.
func halfAYear() Timeline {
	return Timeline{
		Frame:  Frame{Width: 640},
		Months: []Tick{{0, "March"}, {4.4, "April"}, {8.7, "May"}, {13, "June"}, {17.4, "July"}, {21.7, "August"}, {26, "September"}},
		Tasks: []Task{
			{Name: "Clay", Room: "Studio", Stage: "original", End: 7, Label: "7 weeks"},
			{Name: "Mould", Room: "Studio", Stage: "mould", Start: 7, End: 10, Label: "3 weeks"},
			{Name: "Wax", Room: "Foundry", Stage: "wax", Start: 10, End: 13, Label: "3 weeks"},
			{Name: "Pour", Room: "Foundry", Stage: "pour", Start: 15, End: 17, Label: "2 pour days"},
			{Name: "Footing and plinth", Room: "Site", Stage: "base", Start: 8, End: 14, Spare: 9, Label: "by others", ByOthers: true},
			{Name: "Delivery", Room: "Site", Stage: "delivery", Start: 25, End: 27, Label: "3 days"},
		},
		Milestones: []Milestone{{0, "signed"}, {7, "clay approved"}, {16.5, "bronze cast"}, {18, "casts inspected"}, {27, "installed"}},
	}
}

func TestIngotsAreAsLongAsTheWorkTakes(t *testing.T) {
	s := halfAYear().Scene()
	clay, wax, pour := parts(s, StageClay)[0], parts(s, StageWax)[0], parts(s, StagePour)[0]
	assert.InDelta(t, 7.0/3, clay.Width()/wax.Width(), 1e-9)
	assert.InDelta(t, 3.0/2, wax.Width()/pour.Width(), 1e-9)
	week := clay.Width() / 7
	assert.InDelta(t, clay.Min.X+10*week, wax.Min.X, 1e-9)
	assert.InDelta(t, clay.Min.X+27*week, parts(s, StageDelivery)[0].Max.X, 1e-9)
	assert.Empty(t, parts(s, StageStone), "work by others is an outline")
}

func TestRoomsFollowEachOtherAndHoldTheirTasks(t *testing.T) {
	tl := halfAYear()
	p := tl.plan()
	require.Len(t, p.rooms, 3)
	for i, task := range tl.Tasks {
		for _, room := range p.rooms {
			in := p.rows[i] >= room.top && p.rows[i]+p.row <= room.bottom+1e-9
			assert.Equal(t, room.name == task.Room, in, "%s, %s", task.Name, room.name)
		}
	}
	assert.InDelta(t, p.frame.Height, p.rooms[2].bottom, 1e-9, "a height of 0 becomes what is needed")
}

func TestDaysThatMatterStandAtTheirWeek(t *testing.T) {
	s := halfAYear().Scene()
	drops := parts(s, Accent)
	require.Len(t, drops, 5)
	clay := parts(s, StageClay)[0]
	assert.InDelta(t, clay.Max.X, (drops[1].Min.X+drops[1].Max.X)/2, 1e-6)
	assert.Greater(t, drops[3].Min.Y, drops[2].Min.Y, "two close days are on two rows")
}

func TestNoWordsMeetOnATimeline(t *testing.T) {
	assertApart(t, halfAYear().Scene())
	rapid.Check(t, func(t *rapid.T) {
		tl := halfAYear()
		tl.Width, tl.Height = rapid.Float64Range(360, 1000).Draw(t, "width"), rapid.SampledFrom([]float64{0, 0, 250, 400}).Draw(t, "height")
		week := rapid.Float64Range(0, 30)
		for i := range tl.Tasks {
			tl.Tasks[i].Start, tl.Tasks[i].End = week.Draw(t, "start"), week.Draw(t, "end")
		}
		for i := range tl.Milestones {
			tl.Milestones[i].Week = week.Draw(t, "day")
		}
		assertApart(t, tl.Scene())
	})
}

func TestATimelineOfAnythingCanBeDrawn(t *testing.T) {
	for _, v := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		tl := Timeline{
			Frame: Frame{v, v, v}, Weeks: v, Months: []Tick{{v, "May"}},
			Tasks: []Task{{Start: v, End: v, Spare: v}}, Milestones: []Milestone{{v, "cast"}},
		}
		assert.NotPanics(t, func() { Raster(tl.Scene(), Light(), 1) })
	}
	assert.NotPanics(t, func() { Timeline{}.Scene() })
}

// Days close together have their labels before their drops, across the lines of
// the days before them.
func TestNoLineRunsThroughTheLabelOfADay(t *testing.T) {
	s := Timeline{Frame: Frame{Width: 400, Text: 10}, Weeks: 30, Tasks: []Task{{Name: "Pour", Start: 2, End: 29}}, Milestones: []Milestone{
		{24, "Original approved · 1 Jun"}, {27, "Bronze cast · 1 Jul"}, {30, "Installed and accepted · 6 Aug"},
	}}.Scene()
	for i, item := range s.Items {
		words, ok := item.(Text)
		if !ok || !strings.Contains(words.Words, "·") {
			continue
		}
		ground := -1
		for k, under := range s.Items[:i] {
			if shape, ok := under.(Shape); ok && shape.Fill == Sheet && shape.Path.Bounds().Overlaps(words.Box()) {
				ground = k
			}
		}
		require.GreaterOrEqual(t, ground, 0, words.Words)
		for _, over := range s.Items[ground:] {
			if shape, ok := over.(Shape); ok && shape.Stroke == Accent {
				assert.False(t, shape.Path.Bounds().Overlaps(words.Box()), "a line through %q", words.Words)
			}
		}
	}
}
