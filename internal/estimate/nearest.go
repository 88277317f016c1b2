package estimate

import "strings"

// nearest is the path most like a mistyped one: the fewest letters to change,
// and then the first.
func nearest(typed string, fields []*Field) string {
	best, least := "", 1<<30
	for _, f := range fields {
		d := distance(strings.ToLower(typed), f.Path())
		if d < least {
			best, least = f.Path(), d
		}
	}
	return best
}

// distance is Levenshtein's: insertions, deletions and changes.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := before
			if a[i] != b[j] {
				cost++
			}
			before = row[j+1]
			row[j+1] = min(cost, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(b)]
}
