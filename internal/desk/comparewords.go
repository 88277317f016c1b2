package desk

import (
	"cmp"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// OfWords is what a Changed of Comparison.Words begins with where it is a text of
// the papers: "words.idea". The part behind it is that of quote.Quote.Words.
const OfWords = "words."

// wordsBetween tells which words of the papers differ: the head, and every text.
func wordsBetween(a, b quote.Revision) []Changed {
	out := titlesBetween(a.Commission, b.Commission)
	return append(out, textsBetween(after(OfWords), a.Words, b.Words)...)
}

func titlesBetween(a, b estimate.Commission) []Changed {
	out := textBetween("title", a.Title, b.Title)
	out = append(out, textBetween("client", a.Client, b.Client)...)
	return append(out, textBetween("place", a.Place, b.Place)...)
}

// picturesBetween tells which pictures differ. What was issued before pictures
// were kept with it (nil) cannot be compared.
func picturesBetween(a, b []quote.Shown) (out []Changed) {
	if a == nil || b == nil {
		return nil
	}
	file := func(p quote.Shown) string { return string(p.Picture) }
	was, is := namesOf(a, file), namesOf(b, file)
	var pairs []pair
	for _, p := range paired(was, is) {
		if p.was >= 0 && p.is >= 0 && was[p.was] != is[p.is] { // in the place of another, and not that one renamed
			pairs = append(pairs, pair{-1, p.is}, pair{p.was, -1})
			continue
		}
		pairs = append(pairs, p)
	}
	for _, p := range pairs {
		old, now := at(a, p.was), at(b, p.is)
		switch {
		case p.was < 0:
			out = append(out, Changed{"picture added", "", pictureWords(now)})
		case p.is < 0:
			out = append(out, Changed{"picture removed", pictureWords(old), ""})
		default:
			out = append(out, textBetween("caption of a picture", old.Caption, now.Caption)...)
			out = append(out, textBetween("place of a picture", pictureName(old), pictureName(now))...)
		}
	}
	return append(out, ordered("the pictures", namesOf(a, pictureWords), namesOf(b, pictureWords), pairs)...)
}

// pictureName says which place of the papers a picture has.
func pictureName(p quote.Shown) string { return cmp.Or(p.Name, "picture") }

// pictureWords say a picture by what stands below it.
func pictureWords(p quote.Shown) string {
	return cmp.Or(p.Caption, pictureName(p)+" without a caption")
}
