package ui

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// whenKept keeps the quote and then does something, on the window's goroutine,
// once nothing of it is left to keep; where it cannot be kept it says so.
func (q *quoteScreen) whenKept(what string, do func()) {
	q.kept.now()
	q.w.do(func() func() {
		return func() {
			if q.sheet.Quote().ID == 0 || q.sheet.Unsaved() || q.kept.err != nil {
				q.w.tell(what, "The quote could not be kept first. See what the bar above says.")
				return
			}
			do()
		}
	})
}

// issue asks, with a look at the price and at letters that cannot be printed, and
// freezes the quote as it stands.
func (q *quoteScreen) issue() { q.onLost(desk.Proposal, q.askToIssue) }

func (q *quoteScreen) askToIssue(warning string) {
	paper, err := q.sheet.Paper()
	if err != nil {
		q.w.tell("This cannot be issued yet", sentence(err))
		return
	}
	letter, e := q.sheet.Quote().Letter, paper.Estimate
	text := fmt.Sprintf("%s is %s before tax, %s with tax, and stands until %s.", titleOf(q.sheet.Commission()), headline(e), e.Currency.Print(e.Total, locale), isoDay(paper.Until))
	text += fmt.Sprintf("\n\nWhat is issued never changes: the inputs, the shop book, the words and the proposal are kept as %s. What you change afterwards is revision %s.", letter, quote.NextLetter(letter))
	if warning != "" {
		text += "\n\n" + warning
	}
	q.w.ask(&kit.Ask{
		Title: "Issue revision " + letter + "?", Text: text,
		Choices: []kit.Choice{
			{Text: "Not yet", Safe: true},
			{Text: "Issue " + letter, Style: kit.Primary, Do: func() { q.whenKept("This was not issued", q.issueNow) }},
		},
	})
}

func (q *quoteScreen) issueNow() {
	issue, err := q.sheet.Issuing()
	if err != nil {
		q.w.tell("This cannot be issued yet", sentence(err))
		return
	}
	q.w.say("Issuing revision " + q.sheet.Quote().Letter + " …")
	q.kept.hold()
	q.w.do(func() func() {
		r, moved, err := issue(context.Background())
		return func() {
			if err == nil {
				q.sheet.Issued(moved)
			} else {
				q.sheet.NotKept()
			}
			q.kept.goOn()
			if err != nil {
				q.w.tell("This was not issued", sentence(err))
				return
			}
			q.show()
			q.w.offer("Revision "+r.Letter+" is issued.", "Save the proposal", func() { q.saveIssued(r.Letter) })
		}
	})
}

// hold holds keeping back while something else keeps the subject; goOn ends
// that.
func (k *keeping) hold() {
	k.stop()
	k.busy = true
	k.enlist()
}

func (k *keeping) goOn() {
	k.busy = false
	if k.again || k.subject.unsaved() {
		k.again = false
		k.now()
	}
	k.w.settleKeepings()
}

// become puts the quote into another state.
func (q *quoteScreen) become(to quote.State) {
	if err := q.sheet.Become(to); err != nil {
		q.w.tell("It stays "+string(q.sheet.Quote().State), sentence(err))
		return
	}
	q.show()
	q.kept.now()
	q.w.say(fmt.Sprintf("“%s” is %s.", titleOf(q.sheet.Commission()), to))
}

// onIssued reads a revision whole and hands its proposal on.
func (q *quoteScreen) onIssued(letter string, do func(quote.Revision)) {
	d, id := q.w.desk, q.sheet.Quote().ID
	q.w.do(func() func() {
		r, err := d.Revision(context.Background(), id, letter)
		return func() {
			if err != nil {
				q.w.tell("Revision "+letter+" cannot be read", sentence(err))
				return
			}
			do(r)
		}
	})
}

// saveIssued writes the proposal of a revision again, just as it was sent.
func (q *quoteScreen) saveIssued(letter string) {
	q.onIssued(letter, func(r quote.Revision) {
		q.w.askPath(pathQuestion{
			title: "The proposal as issued", text: "Where should it lie? It is the very file that was issued.", do: "Write it",
			path: filepath.Join(documents(), q.issuedName(r.Letter)),
			take: func(path string) {
				q.w.do(func() func() {
					err := replaceFile(path, r.Proposal)
					return func() { q.w.written("The proposal", path, err) }
				})
			},
		})
	})
}

// openIssued shows the proposal of a revision in whatever shows PDF files.
func (q *quoteScreen) openIssued(letter string) {
	q.onIssued(letter, func(r quote.Revision) {
		name := q.issuedName(letter)
		q.w.do(func() func() {
			folder, err := os.MkdirTemp("", "meltwright")
			path := filepath.Join(folder, name)
			if err == nil {
				err = os.WriteFile(path, r.Proposal, 0o600)
			}
			return func() {
				if err == nil {
					err = q.w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)})
				}
				if err != nil {
					q.w.tell("The proposal cannot be shown", sentence(err))
				}
			}
		})
	})
}

// issuedName is the file name of a revision's proposal.
func (q *quoteScreen) issuedName(letter string) string {
	return q.sheet.FileNameOf(letter, papers[desk.Proposal].name, papers[desk.Proposal].extension)
}

// sayReopened says that a change made an issued quote a draft again.
func (q *quoteScreen) sayReopened(before quote.Quote) {
	if is := q.sheet.Quote(); is.State == quote.Draft && before.State != quote.Draft {
		q.w.say(fmt.Sprintf("This was %s; what you change now is a draft again, of revision %s.", before.State, is.Letter))
	}
}
