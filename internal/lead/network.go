package lead

import (
	"errors"
	"slices"
)

// activity is one node of a network: how long it takes, and which others, by
// their place in the list, have to end before it begins.
type activity struct {
	duration int32
	after    []int32
}

// errRing is what a network has that waits for itself.
var errRing = errors.New("the work waits for itself")

// passes are the times of the critical path method: the forward pass gives the
// earliest start and finish of each activity, the backward pass the latest that
// do not delay the whole (Kelley & Walker, Proceedings of the Eastern Joint
// Computer Conference, 1959).
type passes struct {
	earlyStart, earlyFinish []int32
	lateStart, lateFinish   []int32
	length                  int32
	order                   []int32 // each activity after all that it waits for
}

// slack is how much later activity i may begin without delaying the whole.
func (p passes) slack(i int) int32 { return p.lateStart[i] - p.earlyStart[i] }

// criticalPath makes both passes. Its error is errRing.
func criticalPath(list []activity) (passes, error) {
	order, err := inOrder(list)
	if err != nil {
		return passes{}, err
	}
	n := len(list)
	p := passes{order: order, earlyStart: make([]int32, n), earlyFinish: make([]int32, n), lateStart: make([]int32, n), lateFinish: make([]int32, n)}
	for _, i := range order {
		for _, a := range list[i].after {
			p.earlyStart[i] = max(p.earlyStart[i], p.earlyFinish[a])
		}
		p.earlyFinish[i] = p.earlyStart[i] + list[i].duration
		p.length = max(p.length, p.earlyFinish[i])
	}
	for i := range p.lateFinish {
		p.lateFinish[i] = p.length
	}
	for _, i := range slices.Backward(order) {
		p.lateStart[i] = p.lateFinish[i] - list[i].duration
		for _, a := range list[i].after {
			p.lateFinish[a] = min(p.lateFinish[a], p.lateStart[i])
		}
	}
	return p, nil
}

// inOrder gives the activities so that each comes after all it waits for, and
// otherwise as listed.
func inOrder(list []activity) ([]int32, error) {
	waiting := make([]int32, len(list))
	next := make([][]int32, len(list))
	for i, a := range list {
		waiting[i] = int32(len(a.after))
		for _, b := range a.after {
			next[b] = append(next[b], int32(i))
		}
	}
	order := make([]int32, 0, len(list))
	for i := range list {
		if waiting[i] == 0 {
			order = append(order, int32(i))
		}
	}
	for at := 0; at < len(order); at++ {
		for _, i := range next[order[at]] {
			if waiting[i]--; waiting[i] == 0 {
				order = append(order, i)
			}
		}
	}
	if len(order) < len(list) {
		return nil, errRing
	}
	return order, nil
}
