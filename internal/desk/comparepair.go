package desk

import (
	"maps"
	"slices"
	"strings"
)

// pair is a thing of a list beside what it was in another; -1 where it is not
// in that one.
type pair struct{ was, is int }

// paired sets what two lists name beside each other: what has the same name,
// then what stands in the same place, as what was only renamed does. They come
// in the order of the second, and those that only the first has behind.
func paired(was, is []string) (all []pair) {
	taken := make([]bool, len(was))
	for i, name := range is {
		at := slices.IndexFunc(was, func(old string) bool { return old == name })
		for at >= 0 && taken[at] {
			next := slices.Index(was[at+1:], name)
			if next < 0 {
				at = -1
				break
			}
			at += 1 + next
		}
		if at >= 0 {
			taken[at] = true
		}
		all = append(all, pair{at, i})
	}
	for k, p := range all {
		if p.was < 0 && p.is < len(was) && !taken[p.is] {
			all[k].was, taken[p.is] = p.is, true
		}
	}
	for i := range was {
		if !taken[i] {
			all = append(all, pair{i, -1})
		}
	}
	return all
}

// pairedBy pairs two lists by what name calls their members.
func pairedBy[T any](was, is []T, name func(T) string) []pair {
	return paired(namesOf(was, name), namesOf(is, name))
}

func namesOf[T any](list []T, name func(T) string) (names []string) {
	for _, x := range list {
		names = append(names, name(x))
	}
	return names
}

// at is a member of a list, or an empty one where i is of none.
func at[T any](list []T, i int) (x T) {
	if i >= 0 && i < len(list) {
		x = list[i]
	}
	return x
}

// ordered tells where the members that both lists have stand in another order.
func ordered(of string, was, is []string, pairs []pair) []Changed {
	last := -1
	for _, p := range pairs {
		if p.is < 0 || p.was < 0 {
			continue
		}
		if p.was < last {
			return []Changed{{"order of " + of, strings.Join(was, ", "), strings.Join(is, ", ")}}
		}
		last = p.was
	}
	return nil
}

// textsBetween tells which texts differ, by what name calls their keys.
func textsBetween(name func(key string) string, a, b map[string]string) (out []Changed) {
	keys := maps.Clone(a)
	if keys == nil {
		keys = map[string]string{}
	}
	maps.Copy(keys, b)
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		out = append(out, textBetween(name(key), a[key], b[key])...)
	}
	return out
}

// textBetween tells a text that differs.
func textBetween(where, a, b string) []Changed {
	if a == b {
		return nil
	}
	return []Changed{{where, a, b}}
}

// after names a key with words before it.
func after(words string) func(key string) string {
	return func(key string) string { return words + key }
}
