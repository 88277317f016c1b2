package desk

import (
	"cmp"

	"meltwright/internal/estimate"
)

// optionsBetween tells which options of two commissions differ, and in what.
// The pieces of the commissions are paired already.
func optionsBetween(a, b estimate.Commission, pieces []pair) (out []Changed) {
	pairs := pairedBy(a.Options, b.Options, optionName)
	for _, p := range pairs {
		was, is := at(a.Options, p.was), at(b.Options, p.is)
		name := "option " + optionName(is)
		switch {
		case p.was < 0:
			out = append(out, Changed{"option added", "", optionWords(is)})
		case p.is < 0:
			out = append(out, Changed{"option removed", optionWords(was), ""})
			continue
		default:
			out = append(out, headBetween(name, was, is)...)
		}
		out = append(out, textBetween(name+", why it is recommended", was.Why, is.Why)...)
		out = append(out, textsBetween(optionInput(name, "", false), was.Inputs, is.Inputs)...)
		for _, x := range pieces {
			piece := cmp.Or(at(b.Pieces, x.is).Name, at(a.Pieces, x.was).Name)
			out = append(out, textsBetween(optionInput(name, piece, true), at(was.Pieces, x.was), at(is.Pieces, x.is))...)
		}
	}
	return append(out, ordered("the options", namesOf(a.Options, optionName), namesOf(b.Options, optionName), pairs)...)
}

// headBetween tells of an option's name, height and recommendation.
func headBetween(name string, was, is estimate.Option) []Changed {
	yes := map[bool]string{true: "yes", false: "no"}
	out := textBetween(name+", name", was.Name, is.Name)
	out = append(out, textBetween(name+", height", was.Height, is.Height)...)
	return append(out, textBetween(name+", recommended", yes[was.Recommended], yes[is.Recommended])...)
}

// optionName is what an option is told by.
func optionName(o estimate.Option) string {
	return cmp.Or(o.Name, o.Height, "as the quote stands")
}

// optionWords say an option whole, but for its inputs.
func optionWords(o estimate.Option) string {
	text := optionName(o)
	if o.Name != "" && o.Height != "" {
		text += ", " + o.Height
	}
	if o.Recommended {
		text += ", recommended"
	}
	return text
}

// optionInput names an input of an option by its label, and by its piece.
func optionInput(option, piece string, perPiece bool) func(path string) string {
	return func(path string) string {
		name := path
		if f, ok := estimate.FieldByPath(path, perPiece); ok {
			name = f.Label
		}
		if piece != "" {
			name = piece + ", " + name
		}
		return option + ", " + name
	}
}
