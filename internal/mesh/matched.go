package mesh

import (
	"context"
	"math/bits"
	"slices"
)

// matched tells whether every edge has its two triangles and they run along it
// in opposite directions, at less cost than listing the edges.
//
// Each side of a triangle is worth a number drawn by its two points, positive
// where it runs to the later point, negative where it runs back. They sum to
// zero if as many sides run one way along each edge as the other; otherwise the
// sum is zero once in 2⁶⁴. Then it is enough that no two sides that run to the
// later point are the same, and only those are sorted.
func matched(points int, triangles [][3]uint32) bool {
	stretch := stretchFor(len(triangles))
	next := make([][]uint32, (len(triangles)+stretch-1)/stretch)
	worths := make([]uint64, len(next))
	_ = inChunks(context.Background(), len(triangles), stretch, func(k, from, to int) {
		next[k], worths[k] = countForward(points, triangles[from:to])
	})
	sum := uint64(0)
	for _, w := range worths {
		sum += w
	}
	if sum != 0 {
		return false
	}
	forward := sortForward(triangles, stretch, next)
	return allDiffer(forward, next)
}

// countForward counts the sides that run to the later point by their earlier
// one, and sums what all sides are worth.
func countForward(points int, triangles [][3]uint32) (n []uint32, sum uint64) {
	n = zeroes(points)
	for i := range triangles {
		a, b, c := triangles[i][0], triangles[i][1], triangles[i][2]
		sum += tallySide(n, a, b)
		sum += tallySide(n, b, c)
		sum += tallySide(n, c, a)
	}
	return n, sum
}

// tallySide counts a side if it runs forward, and gives its worth. Which way a
// side runs is no branch, for that would be guessed wrong half the time.
func tallySide(n []uint32, from, to uint32) uint64 {
	low, high, back := min(from, to), max(from, to), uint32(0)
	if to < from {
		back = 1
	}
	n[low] += 1 - back
	return (worth(low, high) ^ -uint64(back)) + uint64(back)
}

// worth is a number for two points as if drawn by lot: each product spreads what
// the halves before it mixed, so that no sums of worths follow sums of points.
func worth(low, high uint32) uint64 {
	h := (uint64(low)<<32 | uint64(high)) * 0x9e3779b97f4a7c15
	over, under := bits.Mul64(h^h>>32, 0xff51afd7ed558ccd)
	return over ^ under
}

// sortForward puts the later points of the sides that run to them in the order
// of the earlier ones. The counts become where the sides of each point end.
func sortForward(triangles [][3]uint32, stretch int, next [][]uint32) []uint32 {
	if len(next) == 0 {
		return nil
	}
	sum := uint32(0)
	for v := range next[0] {
		for _, at := range next {
			at[v], sum = sum, sum+at[v]
		}
	}
	forward := make([]uint32, sum)
	_ = inChunks(context.Background(), len(triangles), stretch, func(k, from, to int) {
		at := next[k]
		for i := from; i < to; i++ {
			a, b, c := triangles[i][0], triangles[i][1], triangles[i][2]
			putForward(forward, at, a, b)
			putForward(forward, at, b, c)
			putForward(forward, at, c, a)
		}
	})
	return forward
}

func putForward(forward, next []uint32, from, to uint32) {
	if from < to {
		at := next[from]
		next[from] = at + 1
		forward[at] = to
	}
}

// allDiffer tells whether no point is named twice among the sides of any one.
func allDiffer(forward []uint32, ends [][]uint32) bool {
	if len(ends) == 0 {
		return true
	}
	end := ends[len(ends)-1]
	same := make([]bool, (len(end)+vertexChunk-1)/vertexChunk)
	_ = inChunks(context.Background(), len(end), vertexChunk, func(chunk, from, to int) {
		lo := uint32(0)
		if from > 0 {
			lo = end[from-1]
		}
		for _, hi := range end[from:to] {
			same[chunk] = same[chunk] || twice(forward[lo:hi])
			lo = hi
		}
	})
	return !slices.Contains(same, true)
}

// twice tells whether a list names one thing twice; most have three entries.
func twice(list []uint32) bool {
	const short = 16
	if len(list) == 3 {
		return list[0] == list[1] || list[1] == list[2] || list[2] == list[0]
	}
	if len(list) > short {
		slices.Sort(list)
		for i := range list[1:] {
			if list[i] == list[i+1] {
				return true
			}
		}
		return false
	}
	found := false
	for i, a := range list {
		for _, b := range list[:i] {
			found = found || a == b
		}
	}
	return found
}
