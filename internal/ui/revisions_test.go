package ui

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
	"meltwright/internal/proposal"
	"meltwright/internal/quote"
)

// withMaker has the program's own papers.
func withMaker(o *Options) { o.Papers = proposal.Maker{} }

// issued opens the demo and issues it as A.
func issued(t testing.TB) *bench {
	b := sit(t, withDemo, withMaker)
	b.quote().choose(revisionsID)
	b.tap("Issue revision A …")
	b.tap("Issue A")
	return b
}

func TestIssuingAsksFirstWithPriceAndValidity(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.quote().choose(revisionsID)
	assert.Contains(t, b.said(), "Nothing has been issued yet. Revision A is being worked on.")
	b.tap("Issue revision A …")
	assert.Contains(t, b.said(), b.price()+" before tax")
	assert.Contains(t, b.said(), "stands until 13 May 2026")
	b.tap("Not yet")
	assert.Equal(t, quote.Draft, b.kept().State)

	b.tap("Issue revision A …")
	b.tap("Issue A")
	assert.Equal(t, quote.Issued, b.kept().State)
	assert.Equal(t, "B", b.quote().sheet.Quote().Letter)
	assert.Contains(t, b.said(), "Revision A is issued.")
	assert.Contains(t, b.said(), "A, 14 March 2026 – issued 13 May 2026", "issued, how it stands, and until when")
}

func TestAChangeAfterIssueIsADraftOfTheNextLetter(t *testing.T) {
	b := issued(t)
	b.quote().choose("form")
	b.fill("form.wall", "9 mm")
	assert.Contains(t, b.said(), "This was issued; what you change now is a draft again, of revision B.")
	b.clock.pass(time.Second)
	assert.Equal(t, quote.Draft, b.kept().State)
	assert.Equal(t, "B", b.kept().Letter)
	b.quote().choose(revisionsID)
	assert.Contains(t, b.said(), "Revision B is being worked on; A stands as it was issued.")
}

func TestADateChangesNothingThatWasOffered(t *testing.T) {
	b := issued(t)
	b.quote().choose(soonID)
	b.fill("soon.start", "2 March 2026")
	b.clock.pass(time.Second)
	assert.Equal(t, quote.Issued, b.kept().State)
}

func TestAnIssuedQuoteIsAcceptedDeclinedOrTakenBack(t *testing.T) {
	b := issued(t)
	b.tap("Accepted")
	assert.Equal(t, quote.Accepted, b.kept().State)
	assert.Contains(t, b.said(), "Revision A is accepted.")
	assert.NotContains(t, b.said(), "Declined", "an accepted quote is not declined")
	b.tap("Issued after all")
	b.tap("Declined")
	assert.Equal(t, quote.Declined, b.kept().State)
}

func TestTheDraftIsComparedWithWhatWasIssuedLineByLine(t *testing.T) {
	b := issued(t)
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "They are alike.")
	before := b.price()
	b.quote().choose("form")
	b.fill("form.wall", "9 mm")
	b.quote().choose(revisionsID)
	b.clock.pass(time.Second)
	said := b.said()
	assert.Contains(t, said, "The price goes from "+before)
	assert.Contains(t, said, "→")
	p := b.quote().pageOf(revisionsID).(*revisionsPage)
	c, ok := p.comparing.now()
	require.True(t, ok)
	assert.Equal(t, "Weir keeper, Form: Wall thickness", changedLines(c.Inputs)[0].Name)
	assert.Equal(t, "9 mm", changedLines(c.Inputs)[0].Cost)
	p.lines.Select("0")
	p.lines.OnSelect("0")
	assert.Contains(t, p.working.Text(), c.Lines[0].Before)
	b.pick("revisions.to", "A")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "They are alike.")
}

func TestAnIssuedProposalIsSavedAgainAsItWasSent(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	b := issued(t)
	r, err := b.store.Revision(t.Context(), b.quote().sheet.Quote().ID, "A")
	require.NoError(t, err)
	b.tap("Save it again …")
	b.press(fyne.KeyReturn)
	got, err := os.ReadFile(filepath.Join(os.Getenv("HOME"), b.quote().issuedName("A")))
	require.NoError(t, err)
	assert.Equal(t, r.Proposal, got)
	assert.Contains(t, b.quote().issuedName("A"), "2026-002A The Weir Keeper proposal.pdf")
}

func TestWhatCannotBeKeptIsNotIssued(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.fill("form.wall", "9 mm")
	b.store.fail = fault.Fault{Problem: "the disk is full", Remedy: "make some room"}
	b.quote().choose(revisionsID)
	b.tap("Issue revision A …")
	b.tap("Issue A")
	assert.Contains(t, b.said(), "This was not issued")
	assert.Equal(t, quote.Draft, b.kept().State)
}

func TestWithAFaultNothingIsIssued(t *testing.T) {
	b := sit(t, withDemo, withMaker)
	b.fill("form.wall", "-3")
	b.quote().choose(revisionsID)
	b.tap("Issue revision A …")
	assert.Contains(t, b.said(), "This cannot be issued yet")
}

func TestTabGoesThroughTheRevisions(t *testing.T) {
	b := issued(t)
	assert.Equal(t, []string{
		"[Accepted]", "[Declined]", "[Lapsed]", "[Withdraw]", "rows", "[Open the proposal]", "[Save it again …]", "revisions.from", "revisions.to",
	}, b.around()[6:15])
}

func TestWhatBecameOfAQuoteSaysWhoAndWhen(t *testing.T) {
	b := sit(t, withDemo, withMaker, func(o *Options) { o.Who = "Ida Moss" })
	b.quote().issue()
	b.tap("Issue A")
	b.quote().choose(revisionsID)
	b.tap("Accepted")
	said := b.said()
	assert.Contains(t, said, "Accepted Ida Moss "+noon.Local().Format("2 Jan 2006, 15:04"))
	assert.Contains(t, said, "Issued: A Ida Moss")
	assert.Contains(t, said, "Begun, as draft A")
}
