package ui

import (
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// headRefs are the fields of a commission's head that choose a client and a call
// among those that are kept. Where there are none they are not there.
type headRefs struct {
	q            *quoteScreen
	client, call *kit.Field
	site         *kit.Field // of the client's
}

func newHeadRefs(q *quoteScreen) *headRefs {
	r := &headRefs{q: q}
	choice := func(id, label, none string, chosen func(string)) *kit.Field {
		return kit.NewField(kit.FieldSpec{ID: "head." + id, Kind: kit.ChoiceField, Label: label, Default: none, Wide: true, OnChanged: q.w.guardedText(chosen)})
	}
	r.call = choice("ofcall", "Answers the call", "none", r.chooseCall)
	r.client = choice("ofclient", "From your clients", "nobody on the list", r.chooseClient)
	r.site = choice("ofsite", "From their sites", "none of them", r.chooseSite)
	for _, f := range []*kit.Field{r.call, r.client, r.site} {
		f.SetVisible(false)
	}
	return r
}

func (r *headRefs) chooseClient(name string) {
	var c quote.Client
	if i := placeOf(r.q.w.people.clientNames(), name); i >= 0 {
		c = r.q.w.people.clients[i]
	}
	r.q.edit(func() { r.q.sheet.SetClient(c) })
}

func (r *headRefs) chooseCall(name string) {
	var c quote.Call
	if i := placeOf(r.q.w.people.callNames(), name); i >= 0 {
		c = r.q.w.people.calls[i]
	}
	r.q.edit(func() { r.q.sheet.SetCall(c, r.q.w.people.client(c.Client)) })
}

func (r *headRefs) chooseSite(name string) {
	if name != "" {
		r.q.edit(func() { r.q.sheet.SetPlace(name) })
	}
}

func (r *headRefs) show() {
	is, p := r.q.sheet.Quote(), r.q.w.people
	r.client.SetVisible(len(p.clients) > 0)
	r.client.SetOptions(p.clientNames())
	r.client.SetText(p.clientName(is.Client))
	r.call.SetVisible(len(p.calls) > 0)
	r.call.SetOptions(p.callNames())
	r.call.SetText(p.callName(is.Call))
	r.call.SetHint(r.callHint(p.call(is.Call)))
	var sites []string
	standing := ""
	for _, s := range p.client(is.Client).Sites {
		sites = append(sites, s.Name)
		if s.Name == is.Commission.Place {
			standing = s.Name
		}
	}
	r.site.SetVisible(len(sites) > 0)
	r.site.SetOptions(sites)
	r.site.SetText(standing)
}

// callHint says when the call closes, and how the price stands to its budget.
func (r *headRefs) callHint(c quote.Call) string {
	closes := ""
	if !c.Due.IsZero() {
		closes = "closes on " + day(c.Due) + ", " + r.q.w.awayFrom(c.Due)
	}
	return joined(closes, r.budget(c.Budget))
}

// budget sets the total with tax against what there is to spend.
func (r *headRefs) budget(text string) string {
	e, ok := r.q.sheet.Estimate()
	if text == "" || !ok {
		return text
	}
	there, err := e.Currency.Parse(text)
	switch {
	case err != nil:
		return "budget " + text
	case e.Total > there:
		return spent(e) + e.Currency.Whole(there, locale) + ": " + e.Currency.Whole(e.Total-there, locale) + " over"
	}
	return spent(e) + e.Currency.Whole(there, locale) + ": " + e.Currency.Whole(there-e.Total, locale) + " to spare"
}

func spent(e *estimate.Estimate) string {
	return "with tax " + e.Currency.Whole(e.Total, locale) + " of a budget of "
}
