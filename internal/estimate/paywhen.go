package estimate

import (
	"slices"
	"strings"
	"unicode"
)

// happens names a payment of the shop's plan by what happens in this commission:
// nobody approves an original that others make, and nobody installs what others
// deliver. A plan that was typed for the commission itself stands as it was
// typed.
func (r *run) happens(when string) string {
	if r.whole.has(paymentsField) {
		return when
	}
	words := strings.FieldsFunc(strings.ToLower(when), func(c rune) bool { return !unicode.IsLetter(c) })
	speaksOf := func(begins ...string) bool {
		return slices.ContainsFunc(words, func(word string) bool {
			return slices.ContainsFunc(begins, func(b string) bool { return strings.HasPrefix(word, b) })
		})
	}
	delivery := r.whole.word(deliveryByField)
	switch {
	case speaksOf("original", "clay", "maquette", "sculpt") && r.allByOthers(originalStage),
		speaksOf("mould", "mold", "rubber") && r.allByOthers(mouldStage),
		speaksOf("wax") && r.allByOthers(waxStage):
		return r.received()
	case speaksOf("patin") && r.allByOthers(patinaStage):
		return "Bronze finished"
	case speaksOf("install", "unveil") && delivery == deliverOnly:
		return "Delivered and accepted"
	case speaksOf("install", "unveil", "deliver") && delivery == byOthers:
		return "Finished and accepted"
	}
	return when
}

// received says that what the artist brings has come.
func (r *run) received() string {
	start := r.pieces[0].in.word(startField)
	for _, p := range r.pieces {
		if p.in.word(startField) != start {
			start = ""
		}
	}
	switch start {
	case startOrig:
		return "Original received"
	case startMould:
		return "Mould received"
	case startWax:
		return "Waxes received"
	}
	return "Artist's work received"
}
