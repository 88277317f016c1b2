package lead

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// arrow is an activity of a network drawn as arrows between events.
type arrow struct {
	from, to, days int
	// As printed in the source.
	earlyStart, earlyFinish, lateStart, lateFinish, slack int
}

// onNodes makes arrows into activities that wait for each other.
func onNodes(arrows []arrow) []activity {
	list := make([]activity, len(arrows))
	for i, a := range arrows {
		list[i].duration = int32(a.days)
		for j, b := range arrows {
			if b.to == a.from {
				list[i].after = append(list[i].after, int32(j))
			}
		}
	}
	return list
}

// B. W. Taylor, Introduction to Management Science, chapter 8, solutions to the
// first two networks with tables: activity, time, ES, EF, LS, LF, slack.
func TestTheTablesOfATextbookComeOutAsPrinted(t *testing.T) {
	for length, arrows := range map[int][]arrow{
		20: {
			{1, 2, 7, 0, 7, 2, 9, 2},
			{1, 3, 10, 0, 10, 0, 10, 0},
			{2, 4, 6, 7, 13, 9, 15, 2},
			{3, 4, 5, 10, 15, 10, 15, 0},
			{3, 5, 4, 10, 14, 14, 18, 4},
			{4, 5, 3, 15, 18, 15, 18, 0},
			{5, 6, 2, 18, 20, 18, 20, 0},
		},
		38: {
			{1, 2, 8, 0, 8, 1, 9, 1},
			{1, 3, 10, 0, 10, 0, 10, 0},
			{1, 4, 9, 0, 9, 6, 15, 6},
			{2, 5, 6, 8, 14, 9, 15, 1},
			{2, 6, 4, 8, 12, 16, 20, 8},
			{3, 5, 5, 10, 15, 10, 15, 0},
			{4, 5, 0, 9, 9, 15, 15, 6},
			{4, 7, 7, 9, 16, 20, 27, 11},
			{5, 7, 12, 15, 27, 15, 27, 0},
			{5, 8, 15, 15, 30, 16, 31, 1},
			{6, 9, 18, 12, 30, 20, 38, 8},
			{7, 8, 4, 27, 31, 27, 31, 0},
			{8, 9, 7, 31, 38, 31, 38, 0},
		},
	} {
		p, err := criticalPath(onNodes(arrows))
		require.NoError(t, err)
		assert.EqualValues(t, length, p.length)
		for i, a := range arrows {
			assert.Equal(t, [5]int{a.earlyStart, a.earlyFinish, a.lateStart, a.lateFinish, a.slack},
				[5]int{int(p.earlyStart[i]), int(p.earlyFinish[i]), int(p.lateStart[i]), int(p.lateFinish[i]), int(p.slack(i))}, "activity %d–%d", a.from, a.to)
		}
	}
}

// University of Pittsburgh, course notes on operations research, CPM: nodes 1
// to 7, critical path 1-2, 2-3, 3-5, 5-6, 6-7, 53 long.
func TestTheSevenNodesOfACourseAreFiftyThreeLong(t *testing.T) {
	arrows := []arrow{{from: 1, to: 2, days: 4}, {from: 2, to: 3, days: 8}, {from: 2, to: 4, days: 7}, {from: 2, to: 5, days: 6}, {from: 3, to: 4}, {from: 3, to: 5, days: 9}, {from: 4, to: 6, days: 15}, {from: 5, to: 6, days: 12}, {from: 6, to: 7, days: 20}}
	p, err := criticalPath(onNodes(arrows))
	require.NoError(t, err)
	assert.EqualValues(t, 53, p.length)
	var critical [][2]int
	for i, a := range arrows {
		if p.slack(i) == 0 {
			critical = append(critical, [2]int{a.from, a.to})
		}
	}
	assert.Equal(t, [][2]int{{1, 2}, {2, 3}, {3, 5}, {5, 6}, {6, 7}}, critical)
}

// randomNetwork draws activities that wait only for earlier ones.
func randomNetwork(t *rapid.T) []activity {
	list := make([]activity, rapid.IntRange(1, 9).Draw(t, "activities"))
	for i := range list {
		list[i].duration = rapid.Int32Range(0, 9).Draw(t, "duration")
		for j := range i {
			if rapid.IntRange(0, 2).Draw(t, "after") == 0 {
				list[i].after = append(list[i].after, int32(j))
			}
		}
	}
	return list
}

// paths lists every path that ends with activity i.
func paths(list []activity, i int32) [][]int32 {
	out := [][]int32{{i}}
	for _, a := range list[i].after {
		for _, p := range paths(list, a) {
			out = append(out, append(append([]int32{}, p...), i))
		}
	}
	return out
}

func long(list []activity, path []int32) (sum int32) {
	for _, i := range path {
		sum += list[i].duration
	}
	return sum
}

func TestPassesAgreeWithEveryPathOfSmallNetworks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := randomNetwork(t)
		p, err := criticalPath(list)
		require.NoError(t, err)
		longest := int32(0)
		through := make([]int32, len(list)) // the longest path that an activity is on
		for i := range list {
			into := int32(0)
			for _, path := range paths(list, int32(i)) {
				l := long(list, path)
				into, longest = max(into, l), max(longest, l)
				for _, on := range path {
					through[on] = max(through[on], l)
				}
			}
			require.Equal(t, into, p.earlyFinish[i])
		}
		require.Equal(t, longest, p.length)
		for i := range list {
			require.Equal(t, longest-through[i], p.slack(i), "slack is what the longest path through an activity is short of the longest of all")
		}
	})
}

func TestWorkThatWaitsForItselfIsRefused(t *testing.T) {
	_, err := criticalPath([]activity{{after: []int32{1}}, {after: []int32{0}}})
	assert.ErrorIs(t, err, errRing)
}
