package estimate

import (
	"slices"
	"strings"
)

// instead says what a path that a set of inputs does not have may have been meant
// for: the same in the other set, or the path most like it.
func instead(typed string, fields []*Field) string {
	for _, f := range slices.Concat(pieceFields, wholeFields) {
		if f.Path() == typed && f.PerPiece {
			return "it belongs among the inputs of a piece"
		}
		if f.Path() == typed {
			return "it belongs among the inputs of the whole commission"
		}
	}
	best, least := "", 1<<30
	for _, f := range slices.Concat(fields, pieceFields, wholeFields) {
		if d := distance(strings.ToLower(typed), f.Path()); d < least {
			best, least = f.Path(), d
		}
	}
	return "did you mean " + best + "?"
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
