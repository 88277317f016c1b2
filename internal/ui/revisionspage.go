package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/money"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// revisionsID is the page of what was issued.
const revisionsID = "revisions"

// revisionsPage issues the quote, lists what was issued, and compares.
type revisionsPage struct {
	q      *quoteScreen
	body   *page
	stands *kit.Prose
	issue  *kit.Button
	states map[quote.State]*kit.Button
	row    *fyne.Container // issue and the states

	rows    *kit.LineTable
	acts    *fyne.Container // for the chosen revision
	history *kit.LineTable

	before, after             *kit.Field
	compare                   *kit.FieldGrid
	compared                  *kit.Prose
	lines, steps, inputs, set *kit.LineTable
	working                   *kit.Working // what the chosen line was and is
	comparing                 *follower[desk.Comparison]
	from, to                  string
}

// stateWords are the states on their buttons.
var stateWords = map[quote.State]string{
	quote.Issued: "Issued after all", quote.Accepted: "Accepted", quote.Declined: "Declined",
	quote.Lapsed: "Lapsed", quote.Withdrawn: "Withdraw", quote.Draft: "Back to draft",
}

func newRevisionsPage(q *quoteScreen) stagePage {
	p := &revisionsPage{q: q, stands: kit.NewProse(""), states: map[quote.State]*kit.Button{}, compared: kit.NewProse("")}
	p.issue = kit.NewButton("Issue …", kit.Primary, q.w.guarded(q.issue))
	objects := []fyne.CanvasObject{p.issue}
	for _, s := range quote.States() {
		p.states[s] = kit.NewButton(stateWords[s], kit.Plain, q.w.guarded(func() { q.become(s) }))
		objects = append(objects, p.states[s])
	}
	p.row = leading(objects...)
	p.rows = titled("Issued", "", "Stands until", "Price before tax")
	p.rows.OnOpen = q.w.guardedText(q.openIssued)
	p.acts = leading(
		kit.NewButton("Open the proposal", kit.Plain, q.w.guarded(func() { p.onChosen(q.openIssued) })).WithIcon(theme.IconNameDocument),
		kit.NewButton("Save it again …", kit.Plain, q.w.guarded(func() { p.onChosen(q.saveIssued) })).WithIcon(theme.IconNameDocumentSave),
	)
	p.history = titled("What became of it", "", "Who", "When")
	p.comparison()
	p.body = newPage(
		kit.NewHeading("Revisions", "What was sent to the client never changes; what you change afterwards is the next letter"),
		p.stands, p.row, p.rows, p.acts, p.compare, p.compared, p.steps, p.lines, p.working, p.inputs, p.set, p.history,
	)
	return p
}

// comparison makes the lower half of the page.
func (p *revisionsPage) comparison() {
	p.before = p.choice("from", "Compare", &p.from)
	p.after = p.choice("to", "with", &p.to)
	p.compare = kit.NewFieldGrid(p.before, p.after)
	p.steps = titled("From direct cost to price", "", "", "Change")
	p.lines = titled("Lines", "", "", "Change")
	p.working = kit.NewWorking()
	p.lines.OnSelect = p.q.w.guardedText(func(string) {
		p.showWorking()
		p.body.relay()
	})
	p.inputs = titled("What was typed", "", "Before", "After")
	p.set = titled("Shop book", "", "Before", "After")
	p.comparing = newComparing(p.q, func() (string, string) { return p.from, p.to })
}

func (p *revisionsPage) choice(id, label string, to *string) *kit.Field {
	return kit.NewField(kit.FieldSpec{
		ID: "revisions." + id, Kind: kit.ChoiceField, Label: label,
		OnChanged: p.q.w.guardedText(func(name string) {
			*to = name
			p.show()
			p.body.relay()
		}),
	})
}

func (p *revisionsPage) onChosen(do func(letter string)) {
	if letter := p.rows.Selected(); letter != "" {
		do(letter)
	}
}

func (p *revisionsPage) page() *page { return p.body }

func (p *revisionsPage) focus() {
	for _, o := range p.row.Objects {
		if b := o.(*kit.Button); b.Visible() {
			p.q.w.win.Canvas().Focus(b)
			return
		}
	}
}

func (p *revisionsPage) show() {
	p.q.issued.follow()
	is, rows := p.q.sheet.Quote(), p.q.issued
	p.stands.Say(p.standing(is))
	p.issue.SetText("Issue revision " + is.Letter + " …")
	show(p.issue, is.State == quote.Draft)
	may := map[quote.State]bool{}
	for _, s := range p.q.sheet.May() {
		may[s] = true
	}
	for s, b := range p.states {
		show(b, may[s])
	}
	p.row.Refresh()
	chosen := p.rows.Selected()
	p.rows.SetLines(rows.lines(p.q.sheet.Latest().Currency))
	if chosen == "" {
		p.rows.Select(rows.last())
	}
	p.history.SetLines(rows.history())
	show(p.history, len(rows.steps) > 1)
	any := len(rows.rows) > 0
	for _, o := range []fyne.CanvasObject{p.rows, p.acts, p.compare} {
		show(o, any)
	}
	p.showComparison(any)
}

// standing says how the quote stands.
func (p *revisionsPage) standing(is quote.Quote) string {
	last := p.q.issued.last()
	switch {
	case p.q.issued.err != nil:
		return "What was issued cannot be read. " + sentence(p.q.issued.err)
	case is.State != quote.Draft && last != "":
		return fmt.Sprintf("Revision %s is %s. If you change anything in the quote, it is a draft again, of revision %s.", last, is.State, is.Letter)
	case is.State != quote.Draft:
		return "The quote is " + string(is.State) + "."
	case last != "":
		return fmt.Sprintf("Revision %s is being worked on; %s stands as it was issued.", is.Letter, last)
	}
	return "Nothing has been issued yet. Revision " + is.Letter + " is being worked on."
}

func (p *revisionsPage) showComparison(any bool) {
	choices := p.q.issued.choices()
	if !any {
		for _, o := range []fyne.CanvasObject{p.compared, p.steps, p.lines, p.working, p.inputs, p.set} {
			o.Hide()
		}
		return
	}
	if p.from == "" || p.to == "" {
		p.from, p.to = p.q.issued.last(), draftName
	}
	for f, name := range map[*kit.Field]string{p.before: p.from, p.after: p.to} {
		f.SetOptions(choices)
		f.SetText(name)
	}
	p.comparing.follow(fmt.Sprint(p.from, " ", p.to, " ", choices))
	c, ok := p.comparing.now()
	p.compared.Say(p.comparedWords(c, ok))
	set := func(t *kit.LineTable, lines []kit.Line) {
		t.SetLines(lines)
		show(t, ok && len(lines) > 0)
	}
	shown := c
	if c.OtherMoney {
		shown.Lines, shown.Steps = nil, nil
	}
	set(p.steps, differenceLines(shown, shown.Steps))
	set(p.lines, differenceLines(shown, shown.Lines))
	set(p.inputs, changedLines(slices.Concat(c.Inputs, c.Words)))
	set(p.set, changedLines(c.Book))
	p.showWorking()
}

// showWorking says what the chosen line was and is.
func (p *revisionsPage) showWorking() {
	c, ok := p.comparing.now()
	var chosen int
	if _, err := fmt.Sscan(p.lines.Selected(), &chosen); err != nil || !ok || chosen >= len(c.Lines) || c.OtherMoney {
		p.working.Set(kit.Reckoning{})
		return
	}
	d := c.Lines[chosen]
	one := func(name, text string, a money.Amount) kit.ReckoningInput {
		if text == "" {
			return kit.ReckoningInput{Name: name, Value: "–"}
		}
		return kit.ReckoningInput{Name: name, Value: amount(c.Currency, a), Origin: text}
	}
	p.working.Set(kit.Reckoning{
		Name: d.Item, Formula: change(c.Currency, d.Change()),
		Inputs: []kit.ReckoningInput{one("before", d.Before, d.From), one("after", d.After, d.To)},
	})
}

// comparedWords say what all the changes come to.
func (p *revisionsPage) comparedWords(c desk.Comparison, ok bool) string {
	switch {
	case p.comparing.err != nil:
		return "They cannot be compared. " + sentence(p.comparing.err)
	case !ok && p.comparing.busy:
		return "Being compared …"
	case !ok:
		return "The draft cannot be compared while something in it is wrong."
	case c.OtherMoney:
		return "Their prices are in different currencies, so amounts are not compared."
	case c.Alike():
		return "They are alike."
	case c.Before == c.To && len(c.Lines)+len(c.Steps) == 0:
		return "The price is the same, " + c.Currency.Print(c.To, locale) + "; what was typed, or the shop book, is not."
	}
	return fmt.Sprintf("The price goes from %s to %s: %s.", c.Currency.Print(c.Before, locale), c.Currency.Print(c.To, locale), change(c.Currency, c.To-c.Before))
}
