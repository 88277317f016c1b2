package desk

import (
	"context"
	"slices"
	"strings"

	"meltwright/internal/drawing"
)

// Preview is what papers can do besides writing: show the proposal as it will be
// printed. Papers that cannot are asked for nothing of it.
type Preview interface {
	// Pages gives the pages of the proposal.
	Pages(p Paper) ([]drawing.Scene, error)
	// Missing lists the letters in it that cannot be printed.
	Missing(p Paper) ([]rune, error)
	// Sections lists the parts that a proposal can have, and Usual those that it
	// has where nobody chose.
	Sections() []string
	Usual() []string
}

// Sections is the word of a quote that chooses and orders the proposal's
// sections.
const Sections = "sections"

// Pages are the pages of a proposal.
type Pages struct {
	Scenes  []drawing.Scene
	Missing []rune   // letters that cannot be printed
	Lost    []string // what LostLetters says of them
}

// Preview gives what shows the proposal, or nil where the papers cannot.
func (s *Sheet) Preview() Preview {
	p, _ := s.desk.papers.(Preview)
	return p
}

// Previewing takes all that the proposal is made of from the sheet as it stands;
// what it gives back may run on any goroutine while somebody types on. The error
// is the sheet's faults.
func (s *Sheet) Previewing() (func(context.Context) (Pages, error), error) {
	paper, err := s.Paper()
	if err != nil {
		return nil, err
	}
	show, fill := s.Preview(), s.filling(Proposal, paper)
	return func(ctx context.Context) (pages Pages, err error) {
		paper, err := fill(ctx)
		if err != nil {
			return pages, err
		}
		if pages.Scenes, err = show.Pages(paper); err == nil {
			pages.Missing, err = show.Missing(paper)
			pages.Lost = LostLetters(paper, pages.Missing)
		}
		return pages, err
	}, nil
}

// Chosen lists the sections of the proposal, in their order.
func (s *Sheet) Chosen() []string {
	text := strings.ToLower(s.quote.Words[Sections])
	chosen := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(", ;\n", r) })
	if len(chosen) == 0 {
		return s.Preview().Usual()
	}
	return chosen
}

// Choose chooses and orders the sections of the proposal.
func (s *Sheet) Choose(keys []string) {
	text := strings.Join(keys, ", ")
	if slices.Equal(keys, s.Preview().Usual()) {
		text = ""
	}
	s.EndTyping()
	s.SetWords(Sections, text)
	s.EndTyping()
}
