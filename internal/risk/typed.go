package risk

import (
	"maps"
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// highest is the largest factor that a range may have: more is a slip of the
// keys.
const highest = 100

// typeRanges puts the ranges typed for a commission into its factors. All faults
// are told together; a range that cannot be read leaves the shop book's.
func typeRanges(list []Factor, m *estimate.Model, c estimate.Commission) error {
	var faults fault.List
	read := func(piece int, texts map[string]string) {
		for _, key := range slices.Sorted(maps.Keys(texts)) {
			if f := typeRange(list, piece, key, texts[key]); f != nil {
				faults = append(faults, *f)
			}
		}
	}
	read(estimate.Whole, c.Ranges)
	for i := range m.Pieces() {
		read(i, c.Pieces[i].Ranges)
	}
	return faults.Err()
}

// typeRange puts one typed range into the factor it is for. Keys that begin with
// two strokes are comments.
func typeRange(list []Factor, piece int, key, text string) *fault.Fault {
	if strings.TrimSpace(text) == "" || strings.HasPrefix(key, "//") {
		return nil
	}
	at := slices.IndexFunc(list, func(f Factor) bool { return f.Piece == piece && f.Key == key })
	if at < 0 {
		return unknownRange(list, piece, key)
	}
	p, f := ReadPoints(text)
	if f != nil {
		f.Where, f.Field = list[at].Where(), "Range of “"+list[at].Name+"”"
		return f
	}
	list[at].Points, list[at].Typed = p, text
	list[at].Origin = field.Origin{From: field.Typed, Source: text}
	return nil
}

// unknownRange tells of a key that nothing uncertain has: because the stage is
// by others, or there is none such.
func unknownRange(list []Factor, piece int, key string) *fault.Fault {
	f := &fault.Fault{Where: where(piece, key), Field: "Range", Value: key, Problem: "is of nothing that varies in this commission"}
	if st, ok := estimate.StageByID(strings.TrimPrefix(key, HoursKey)); ok && piece == estimate.Whole && strings.HasPrefix(key, HoursKey) {
		f.Problem = "has no hours here: " + st.Name + " is by others, or takes none"
		f.Remedy = "take it away"
		return f
	}
	var keys []string
	for _, x := range list {
		if x.Piece == piece {
			keys = append(keys, x.Key)
		}
	}
	f.Remedy = "give one of " + strings.Join(keys, ", ")
	return f
}

// ReadPoints reads "0.9 / 1 / 1.5" or "90 % / 100 % / 150 %": low, likely and
// high, as shares of the estimate; a single number is known for certain. The
// fault is nil, or lacks only its field.
func ReadPoints(text string) (Points, *fault.Fault) {
	const example = "give low / likely / high as shares of the estimate, such as 0.9 / 1 / 1.5"
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '/' || r == ';' })
	f := &fault.Fault{Value: strings.TrimSpace(text), Remedy: example}
	if len(parts) != 1 && len(parts) != 3 {
		f.Problem = "is not three numbers"
		return Points{}, f
	}
	var n [3]float64
	for i, part := range parts {
		kind := quantity.KindFactor
		if strings.Contains(part, "%") {
			kind = quantity.KindShare
		}
		v, err := quantity.Parse(kind, part, quantity.Metric)
		if err != nil {
			f.Problem = "has a part, “" + strings.TrimSpace(part) + "”, that is no number"
			return Points{}, f
		}
		n[i] = v
	}
	p := Points{n[0], n[1], n[2]}
	if len(parts) == 1 {
		p = Sure(n[0])
	}
	switch {
	case !p.Sane():
		f.Problem = "is not in order, from low to high"
	case p.Low <= 0:
		f.Problem = "reaches nothing or less"
	case p.High > highest:
		f.Problem = "reaches more than a hundred times the estimate"
	default:
		return p, nil
	}
	return Points{}, f
}
