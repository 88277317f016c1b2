package desk

import (
	"io"
	"maps"
	"slices"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/form"
	"meltwright/internal/quantity"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// Example writes the demo's commission as a file in which everything that a
// commission file may hold is explained: each input in a key beside it that
// begins with two strokes, and all else under "explained", by its path. Choices
// are those of the desk's shop book. What it writes can be read again.
func (d *Desk) Example(w io.Writer) error {
	demo := Demo()
	q := demo[len(demo)-1]
	f := commissionFile{
		Meltwright: fileMark,
		About:      "A commission of one or more pieces. Every value is text, as you would type it, with any unit; an input that is left out has its starting value. The keys that begin with // explain the input of the same name, of the whole commission or of a piece; “explained” tells of everything else a file may hold, by its place. Both, and this line, may be left out.",
		Explained:  d.explanations(),
		Commission: q.Commission, Words: q.Words,
	}
	f.Inputs = withExplanations(f.Inputs, d.shop, false)
	f.Pieces[0].Inputs = withExplanations(f.Pieces[0].Inputs, d.shop, true)
	return encode(w, f)
}

// withExplanations adds to inputs an explanation of every field there is.
func withExplanations(inputs map[string]string, s *shop.Shop, perPiece bool) map[string]string {
	out := maps.Clone(inputs)
	for _, st := range estimate.Stages {
		for _, f := range st.Fields(perPiece) {
			out["//"+f.Path()] = f.Explain(s)
		}
	}
	return out
}

// explanations explain all that is no input, by its path in the file.
func (d *Desk) explanations() map[string]string {
	out := maps.Clone(structure)
	for _, more := range []map[string]string{explainSolids(), explainRanges(), d.explainWords()} {
		maps.Copy(out, more)
	}
	return out
}

// structure explains the parts of a file that no table of the program lists.
var structure = map[string]string{
	"meltwright": "what this file is: “" + fileMark + "”",
	"about":      "passed over; may be left out",
	"explained":  "passed over; may be left out",
	"title":      "of the work",
	"client":     "who it is for",
	"place":      "where it will stand",
	"currency":   "three letters, as CAD, EUR, JPY or KWD; left empty: the shop book's. In another than the shop book's, inputs need price.exchange",
	"units":      "metric | inch-pound: how bare numbers are read and how quantities are printed; left empty: the shop book's",
	"inputs":     "of the whole commission, each by its name",

	"pieces":        "the works of the commission, at least one",
	"pieces[].name": "as papers call it",
	"pieces[].inputs": "of this piece, each by its name. form.known_by decides which of the form's count: " +
		"with a human figure body_height, body_mass, formula, dress, dress_factor; with an animal animal, animal_mass, animal_k; " +
		"with a typed area area, volume; with a covered maquette cover_mass, cover_per_area, volume; with solids the list “solids”; with a scan “scan_file”. " +
		"form.start tells what whoever commissions it brings, and with it which stages are by others; base.by, base.footing, patina.by and delivery.by do so for the end of the work",
	"pieces[].scan_file":           "where form.known_by is scan: the file it is in and what that file cannot tell; what is left out is proposed",
	"pieces[].scan_file.path":      "STL, OBJ, PLY, 3MF or glTF; a path is taken from this file's own folder",
	"pieces[].scan_file.unit":      "mm | cm | m | in | ft",
	"pieces[].scan_file.up":        "which way is up in the scan: x | y | z | -x | -y | -z",
	"pieces[].scan_file.open_foot": "true where the bronze stands on a rim, with no metal under it; else false",
	"pieces[].scan":                "a scan as it was measured, in files that “export” writes; the program's own, not to be written by hand",

	"extras":            "lines of your own, each in a stage",
	"extras[].stage":    "one of: " + strings.Join(stageIDs(), " | "),
	"extras[].item":     "what it is, as “Bronze plaque”",
	"extras[].quantity": "a number from 0 up",
	"extras[].unit":     "a word, as “kg”; may be left out",
	"extras[].rate":     "money for each unit, from 0 up",

	"options":               "other ways to make the same commission, for “options” and the proposal; what one does not say is the commission's own",
	"options[].name":        "as papers call it; left empty: its height",
	"options[].height":      "of the first piece; the others scale along, but for those whose form.in_options says otherwise",
	"options[].inputs":      "of the whole commission, that differ",
	"options[].pieces":      "a set of inputs for each piece, by its place, that differ; {} for one that does not",
	"options[].recommended": "true for the one you recommend",
	"options[].why":         "the sentence that goes with a recommendation",
}

func stageIDs() (ids []string) {
	for _, st := range estimate.Stages {
		ids = append(ids, st.ID)
	}
	return ids
}

// explainSolids explains a row of a list of solids, by the catalogue.
func explainSolids() map[string]string {
	var shapes, ended []string
	sizes := map[string][]string{}
	for _, l := range form.Catalogue {
		var keys []string
		for _, d := range l.Sizes {
			keys = append(keys, d.Key)
			sizes[d.Key] = append(sizes[d.Key], l.Name+": "+d.Label)
		}
		shapes = append(shapes, l.Name+" ("+strings.Join(keys, ", ")+")")
		if l.Ends {
			ended = append(ended, l.Name)
		}
	}
	const row = "pieces[].solids[]."
	out := map[string]string{
		"pieces[].solids": "where form.known_by is solids: a list that may be mixed, at the size of form.measured_height",
		row + "shape":     "one of, each with its sizes: " + strings.Join(shapes, " | "),
		row + "count":     "how many of it; a whole number; starts with “1”",
		row + "ends": "for " + strings.Join(ended, ", ") + ": one of: " + strings.Join(form.EndNames, " | ") +
			"; an open end has no metal; one open end is the foot, both are foot and top; starts with “" + form.EndNames[0] + "”",
	}
	for key, of := range sizes {
		out[row+key] = quantity.KindLength.Words() + "; " + strings.Join(of, ", ")
	}
	return out
}

// explainRanges explains what may be said of how sure the inputs are.
func explainRanges() map[string]string {
	out := map[string]string{
		"ranges":                          "how sure you are of what concerns the whole commission, for “range” and “lead”: each of them low / likely / high, as shares of the estimate, such as “0.9 / 1 / 1.5”; what is left out is the shop book's",
		"ranges." + risk.MaterialKey:      "prices of materials",
		"ranges." + risk.MetalKey:         "price of ingot",
		"ranges." + risk.FreightKey:       "freight and travel",
		"ranges." + risk.SiteKey:          "site and lifting",
		"pieces[].ranges":                 "how sure you are of this piece, written as “ranges” of the commission are",
		"pieces[].ranges." + risk.AreaKey: "its surface",
		"pieces[].ranges." + risk.WallKey: "its wall as cast",
	}
	for _, st := range estimate.Stages[1 : len(estimate.Stages)-1] { // form and price have no hours
		out["ranges."+risk.HoursKey+st.ID] = "hours of " + st.Name + ", where it is not by others"
	}
	return out
}

// CheckWords tells what is wrong with the words of a commission file: keys that no
// paper has, languages and drawings there are none of, and dates that are none.
func (d *Desk) CheckWords(words map[string]string) (faults fault.List) {
	known := d.explainWords()
	say := func(key, problem, remedy string) {
		faults = append(faults, fault.Fault{Where: "words." + key, Field: "Words, " + key, Value: words[key], Problem: problem, Remedy: remedy})
	}
	for _, key := range slices.Sorted(maps.Keys(words)) {
		text := strings.TrimSpace(words[key])
		_, drawn := strings.CutPrefix(key, "drawing.")
		switch {
		case strings.HasPrefix(key, "//") || text == "":
		case drawn && !slices.Contains(drawing.Names(), text):
			say(key, "is no drawing", "give one of "+strings.Join(drawing.Names(), ", "))
		case key == "language" && !slices.Contains(languages, text):
			say(key, "is no language that there is wording for", "give one of "+strings.Join(languages, ", "))
		case key == Start || key == Required:
			_, err := ReadDate("Words, "+key, text)
			faults = append(faults, fault.All(err)...)
		case !drawn && known["words."+key] == "":
			say(key, "is read by no paper", "take it away, or look for the right key in what “meltwright-cli example” explains")
		}
	}
	return faults
}

// languages are those that proposals are written in.
var languages = []string{"en", "fr", "es"}

// explainWords explains what may be written for the papers.
func (d *Desk) explainWords() map[string]string {
	out := map[string]string{
		"words":             "what papers and schedule take from the quote besides the commission",
		"words." + Start:    "the day the work may begin, as 2 March 2026 or 2026-03-02",
		"words." + Required: "the day the work has to be ready",
		"words.language":    "of the proposal: " + strings.Join(languages, " | "),
		"words.drawing.0":   "the drawing of the first piece in the proposal, drawing.1 that of the second, and so on; one of: " + strings.Join(drawing.Names(), " | "),
	}
	p, ok := d.papers.(Preview)
	if !ok {
		return out
	}
	out["words."+Sections] = "the proposal's sections in their order, with commas; one or more of: " + strings.Join(p.Sections(), ", ") + "; left out: " + strings.Join(p.Usual(), ", ")
	for _, key := range p.Sections() {
		out["words."+key] = "your own words for that section of the proposal"
	}
	return out
}
