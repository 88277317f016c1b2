package lead

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// Milestone is a day that matters, with the payment that falls due on it.
type Milestone struct {
	Name   string // as the payment plan says it
	Date   time.Time
	Share  money.Decimal // of the total
	Amount money.Amount
}

// moment is something that happens to a commission once, in the order it does.
type moment struct {
	stage string // of the estimate, whose last task ends with it; empty is the signing
	words []string
}

// moments are what payment plans speak of, by words of theirs.
var moments = []moment{
	{"", []string{"sign", "agree", "contract", "order", "deposit", "start", "commission", "advance", "booking", "receiv"}},
	{"original", []string{"original", "clay", "model", "sculpt", "maquette", "design", "approv"}},
	{"mould", []string{"mould", "mold"}},
	{"wax", []string{"wax"}},
	{"shell", []string{"shell"}},
	{"pour", []string{"cast", "pour", "foundry", "bronze", "metal"}},
	{"metalwork", []string{"weld", "chas", "assembl", "fabricat"}},
	{"patina", []string{"patin", "finish", "colour", "color"}},
	{"delivery", []string{"deliver", "ship", "install", "accept", "complet", "final", "unveil", "dedicat", "balance", "collect", "ready"}},
}

// named tells whether any of the words begins as one of the moment's does.
func (m moment) named(words []string) bool {
	return slices.ContainsFunc(words, func(word string) bool {
		return slices.ContainsFunc(m.words, func(w string) bool { return strings.HasPrefix(word, w) })
	})
}

// milestones gives each payment its day: that of the moment it speaks of, never
// before the payment ahead of it in the plan. One that speaks of none, or of a
// stage that others do, falls due with the next in the plan that does.
func milestones(plan []estimate.Payment, s Schedule) []Milestone {
	out := make([]Milestone, len(plan))
	known := make([]bool, len(plan))
	for i, p := range plan {
		out[i] = Milestone{Name: p.When, Share: p.Share, Amount: p.Amount}
		out[i].Date, known[i] = s.dayOf(p.When, i == len(plan)-1)
	}
	for i := len(out) - 2; i >= 0; i-- {
		if !known[i] {
			out[i].Date = out[i+1].Date
		}
	}
	for i := 1; i < len(out); i++ {
		if out[i].Date.Before(out[i-1].Date) {
			out[i].Date = out[i-1].Date
		}
	}
	return out
}

// dayOf finds the day a payment speaks of, by the latest moment it names.
func (s Schedule) dayOf(when string, last bool) (time.Time, bool) {
	named := strings.FieldsFunc(strings.ToLower(when), func(r rune) bool { return !unicode.IsLetter(r) })
	for i := len(moments) - 1; i >= 0; i-- {
		m := moments[i]
		if !m.named(named) {
			continue
		}
		if d, ok := s.endOf(m); ok {
			return d, true
		}
	}
	return dateOf(dayOf(s.Ready)), last
}

// endOf is the day on which the last task of a moment's stage ends.
func (s Schedule) endOf(m moment) (time.Time, bool) {
	switch m.stage {
	case "":
		return s.Start, true
	case "delivery":
		return dateOf(dayOf(s.Ready)), true
	}
	var end time.Time
	for _, t := range s.Tasks {
		if t.Stage == m.stage && t.End.After(end) {
			end = t.End
		}
	}
	return dateOf(dayOf(end)), !end.IsZero()
}
