package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/ui/kit"
)

// newPreviewing follows the quote with the pages of its proposal.
func newPreviewing(q *quoteScreen) *follower[desk.Pages] {
	return &follower[desk.Pages]{
		q:     q,
		ready: func() (func(context.Context) (desk.Pages, error), error) { return q.sheet.Previewing() },
		told: func() {
			q.rail.SetRows(q.railRows())
			q.refreshPage(previewID)
		},
	}
}

// previewDetail is what the rail says of the proposal.
func previewDetail(q *quoteScreen) string {
	if p := q.preview.result; q.preview.is != nil {
		return counted(len(p.Scenes), "page")
	}
	return "the proposal as it is printed"
}

// sectionNames are the sections of a proposal as the window calls them.
var sectionNames = map[string]string{
	"idea": "The idea", "recommendation": "Our recommendation", "work": "The work", "pictures": "Pictures", "options": "Sizes to choose from", "included": "What is included",
	"rests": "What the price rests on", "price": "Price", "range": "How sure this is", "budget": "Budget form", "payments": "Payments",
	"terms": "Terms", "care": "Care", "rights": "Rights", "cautions": "Cautions", "signatures": "Signatures",
}

func sectionName(key string) string {
	if name, ok := sectionNames[key]; ok {
		return name
	}
	return capital(key)
}

// sectionLines are the chosen sections in their order, then those left out.
func sectionLines(s *desk.Sheet) (lines []kit.Line) {
	chosen, words := s.Chosen(), s.Quote().Words
	line := func(key, number string) {
		l := kit.Line{ID: key, Name: number + sectionName(key)}
		switch {
		case number == "":
			l.Cost = "left out"
		case strings.TrimSpace(words[key]) != "":
			l.Cost = "own words"
		case key == "idea" || key == "recommendation":
			l.Cost = "empty"
		}
		lines = append(lines, l)
	}
	for i, key := range chosen {
		line(key, fmt.Sprintf("%d  ", i+1))
	}
	for _, key := range s.Preview().Sections() {
		if !slices.Contains(chosen, key) {
			line(key, "")
		}
	}
	return lines
}

// moveSection moves a section by so many places, as far as there are.
func moveSection(chosen []string, key string, by int) []string {
	out := slices.Clone(chosen)
	i := slices.Index(out, key)
	if to := i + by; i >= 0 && to >= 0 && to < len(out) {
		out[i], out[to] = out[to], out[i]
	}
	return out
}

// turnSection leaves a section out, or puts it in where it usually stands.
func turnSection(s *desk.Sheet, key string) []string {
	out := slices.Clone(s.Chosen())
	if i := slices.Index(out, key); i >= 0 {
		return slices.Delete(out, i, i+1)
	}
	all := s.Preview().Sections()
	at := len(out)
	for i, x := range out {
		if slices.Index(all, x) > slices.Index(all, key) {
			at = i
			break
		}
	}
	return slices.Insert(out, at, key)
}
