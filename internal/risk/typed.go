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
	p, f := ReadPoints(text, list[at].Usual)
	if f != nil {
		f.Where, f.Field = list[at].Where(), "Range of “"+list[at].Name+"”"
		return f
	}
	list[at].Points, list[at].Typed = p, text
	list[at].Origin = field.Origin{From: field.Typed, Source: text}
	return nil
}

// unknownRange tells of a key that nothing uncertain has. The range of a stage
// that is by others stays, and waits until it is not.
func unknownRange(list []Factor, piece int, key string) *fault.Fault {
	if stage, ok := strings.CutPrefix(key, HoursKey); ok && piece == estimate.Whole {
		if _, ok := estimate.StageByID(stage); ok {
			return nil
		}
	}
	f := &fault.Fault{Where: where(piece, key), Field: "Range", Value: key, Problem: "is of nothing that varies in this commission"}
	var keys []string
	for _, x := range list {
		if x.Piece == piece {
			keys = append(keys, x.Key)
		}
	}
	f.Remedy = "give one of " + strings.Join(keys, ", ")
	return f
}

// Parts takes a typed range apart, into the texts of low, likely and high; a
// single number is all three.
func Parts(text string) (parts [3]string) {
	list := split(text)
	for i := range parts {
		if i < len(list) {
			parts[i] = list[i]
		}
		if len(list) == 1 {
			parts[i] = list[0]
		}
	}
	return parts
}

func split(text string) []string {
	list := strings.Split(strings.ReplaceAll(text, ";", "/"), "/")
	for i := range list {
		list[i] = strings.TrimSpace(list[i])
	}
	return list
}

// Joined puts low, likely and high together again; nothing where none is typed.
func Joined(parts [3]string) string {
	for i := range parts {
		parts[i] = strings.TrimSpace(strings.NewReplacer("/", " ", ";", " ").Replace(parts[i]))
	}
	if parts == ([3]string{}) {
		return ""
	}
	return strings.Join(parts[:], " / ")
}

// ReadPoint reads one of the points: "0.9" or "90 %". The fault is nil, or lacks
// only its field.
func ReadPoint(text string) (float64, *fault.Fault) {
	kind := quantity.KindFactor
	if strings.Contains(text, "%") {
		kind = quantity.KindShare
	}
	v, err := quantity.Parse(kind, text, quantity.Metric)
	f := &fault.Fault{Value: text, Remedy: "give a share of the estimate, such as 0.9 or 90 %"}
	switch {
	case err != nil:
		f.Problem = "is no number"
	case v <= 0:
		f.Problem = "is nothing or less"
	case v > highest:
		f.Problem = "is more than a hundred times the estimate"
	default:
		return v, nil
	}
	return 0, f
}

// ReadPoints reads "0.9 / 1 / 1.5" or "90 % / 100 % / 150 %": low, likely and
// high, as shares of the estimate; a single number is known for certain, and a
// part left empty is as usual. The fault is nil, or lacks only its field.
func ReadPoints(text string, usual Points) (Points, *fault.Fault) {
	f := &fault.Fault{Value: strings.TrimSpace(text), Remedy: "give low / likely / high as shares of the estimate, such as 0.9 / 1 / 1.5"}
	if n := len(split(text)); n != 1 && n != 3 {
		f.Problem = "is not three numbers"
		return Points{}, f
	}
	n := [3]float64{usual.Low, usual.Likely, usual.High}
	for i, part := range Parts(text) {
		if part == "" {
			continue
		}
		v, wrong := ReadPoint(part)
		if wrong != nil {
			f.Problem = "has a part, “" + part + "”, that " + wrong.Problem
			return Points{}, f
		}
		n[i] = v
	}
	p := Points{n[0], n[1], n[2]}
	if !p.Sane() {
		f.Problem = "is not in order, from low to high"
		return Points{}, f
	}
	return p, nil
}
