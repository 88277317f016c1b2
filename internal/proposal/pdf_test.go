package proposal

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// everyPDF calls f with the proposal and the cost sheet of every story.
func everyPDF(t *testing.T, f func(t *testing.T, pdf []byte)) {
	for name, q := range stories() {
		t.Run(name+", proposal", func(t *testing.T) { f(t, proposalOf(t, q)) })
		t.Run(name+", cost sheet", func(t *testing.T) { f(t, costSheetOf(t, q)) })
	}
	for name, q := range map[string]quote.Quote{"edition": edition(), "nasty": nasty()} {
		p := paperOf(t, q)
		t.Run(name+", order list", func(t *testing.T) { f(t, made(t, func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) })) })
		t.Run(name+", traveller", func(t *testing.T) { f(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Traveller(b, p) })) })
	}
}

func TestQPDFFindsNothingWrong(t *testing.T) {
	qpdf := needTool(t, "qpdf")
	everyPDF(t, func(t *testing.T, pdf []byte) {
		out := told(t, qpdf, "--check", kept(t, "paper.pdf", pdf))
		assert.Contains(t, out, "No syntax or stream encoding errors found")
		assert.NotContains(t, out, "WARNING")
	})
}

func TestFontsAreEmbeddedSubsetsWithUnicode(t *testing.T) {
	pdffonts := needTool(t, "pdffonts")
	everyPDF(t, func(t *testing.T, pdf []byte) {
		lines := strings.Split(strings.TrimSpace(told(t, pdffonts, kept(t, "paper.pdf", pdf))), "\n")[2:]
		require.NotEmpty(t, lines)
		for _, l := range lines {
			assert.Regexp(t, `^[A-Z]{6}\+(NotoSans|SourceSerif4)-[A-Za-z]+ +CID TrueType +Identity-H +yes yes yes `, l)
		}
	})
}

func TestMuPDFShowsTheSectionsAsAnOutline(t *testing.T) {
	out := told(t, needTool(t, "mutool"), "show", kept(t, "paper.pdf", proposalOf(t, waterfront())), "outline")
	at := -1
	for _, title := range []string{"The Lock Keeper", "The idea", "The work", "What is included", "What this rests on", "Price", "Payments", "Terms", "Care", "Rights", "Safety at the site", "Agreement"} {
		next := strings.Index(out, `"`+title+`"`)
		assert.Greater(t, next, at, "%s comes after the one before it in\n%s", title, out)
		at = next
	}
	out = told(t, needTool(t, "mutool"), "show", kept(t, "paper.pdf", costSheetOf(t, waterfront())), "outline")
	for _, title := range []string{"Cost sheet", "Sizes and weights", "Original", "Shell", "Delivery and install", "Price", "Heats", "Cautions"} {
		assert.Contains(t, out, `"`+title+`"`)
	}
}

func TestPDFTellsItsTitleAuthorAndDate(t *testing.T) {
	out := told(t, needTool(t, "pdfinfo"), "-isodates", kept(t, "paper.pdf", proposalOf(t, waterfront())))
	assert.Regexp(t, `(?m)^Title: +The Lock Keeper$`, out)
	assert.Regexp(t, `(?m)^Author: +Alder Quay Foundry$`, out)
	assert.Regexp(t, `(?m)^Creator: +Meltwright [0-9.]+$`, out)
	assert.Regexp(t, `(?m)^CreationDate: +2026-03-14T00:00:00`, out)
	assert.Regexp(t, `(?m)^Page size: +595\.28 x 841\.89 pts \(A4\)$`, out)
}

func TestInchPoundPapersAreLetterSize(t *testing.T) {
	out := told(t, needTool(t, "pdfinfo"), kept(t, "paper.pdf", proposalOf(t, inchPound())))
	assert.Regexp(t, `(?m)^Page size: +612 x 792 pts \(letter\)$`, out)
}

func TestPagesAreNumberedAndCounted(t *testing.T) {
	everyPDF(t, func(t *testing.T, pdf []byte) {
		info := told(t, needTool(t, "pdfinfo"), kept(t, "paper.pdf", pdf))
		count, err := strconv.Atoi(regexp.MustCompile(`(?m)^Pages: +(\d+)$`).FindStringSubmatch(info)[1])
		require.NoError(t, err)
		pages := strings.Split(strings.TrimSuffix(textOf(t, pdf), "\f"), "\f")
		require.Len(t, pages, count)
		for i, page := range pages[1:] {
			assert.Contains(t, page, strconv.Itoa(i+2)+" of "+strconv.Itoa(count))
		}
	})
}

func TestTheSamePaperIsTheSameBytes(t *testing.T) {
	p := paperOf(t, waterfront())
	for name, write := range map[string]func(*bytes.Buffer) error{
		"proposal": func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) },
		"costs":    func(b *bytes.Buffer) error { return Maker{}.CostSheet(b, p) },
		"workbook": func(b *bytes.Buffer) error { return Maker{}.Workbook(b, p) },
		"orders":   func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) },
		"travel":   func(b *bytes.Buffer) error { return Maker{}.Traveller(b, p) },
		"lines":    func(b *bytes.Buffer) error { return Maker{}.Lines(b, p) },
	} {
		first := made(t, write)
		var all sync.WaitGroup
		for range 4 { // at the same time, so that nothing is shared between papers
			all.Go(func() {
				assert.True(t, bytes.Equal(first, made(t, write)), name)
			})
		}
		all.Wait()
	}
}

func TestAnotherDateIsAnotherPaper(t *testing.T) {
	p := paperOf(t, waterfront())
	q := p
	q.Date = "2026-03-15"
	write := func(p quote.Paper) []byte {
		return made(t, func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) })
	}
	assert.NotEqual(t, write(p), write(q))
}
