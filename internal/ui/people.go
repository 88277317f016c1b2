package ui

import (
	"context"
	"fmt"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
)

// people are the clients and the calls that a quote can be for.
type people struct {
	clients []quote.Client
	calls   []quote.Call
}

// readPeople reads them again, and then does something, if it is not nil.
func (w *Window) readPeople(then func()) {
	d := w.desk
	w.do(func() func() {
		var p people
		var err error
		ctx := context.Background()
		if p.clients, err = d.Clients(ctx, "", false); err == nil {
			p.calls, err = d.Calls(ctx, "", false)
		}
		return func() {
			if err == nil { // else the list of quotes says what is wrong with the file
				w.people = p
			}
			if then != nil {
				then()
			}
		}
	})
}

func (p people) client(id quote.ClientID) quote.Client { return desk.ClientOf(p.clients, id) }

func (p people) call(id quote.CallID) quote.Call {
	for _, c := range p.calls {
		if c.ID == id {
			return c
		}
	}
	return quote.Call{}
}

// clientNames are the clients as a choice has them, each by another name.
func (p people) clientNames() []string {
	return apart(len(p.clients), func(i int) string { return p.clients[i].Name })
}

func (p people) callNames() []string {
	return apart(len(p.calls), func(i int) string { return p.calls[i].Title })
}

// apart gives names that tell things apart, those that are alike with a number.
func apart(n int, name func(int) string) []string {
	seen, out := map[string]int{}, make([]string, n)
	for i := range out {
		out[i] = name(i)
		if seen[name(i)]++; seen[name(i)] > 1 {
			out[i] += fmt.Sprintf(" (%d)", seen[name(i)])
		}
	}
	return out
}

// placeOf is where a name stands among others, −1 where it does not.
func placeOf(names []string, name string) int {
	for i, n := range names {
		if n == name {
			return i
		}
	}
	return -1
}

// clientName is a client as choices have it, and callName a call; empty for none.
func (p people) clientName(id quote.ClientID) string {
	for i, c := range p.clients {
		if c.ID == id {
			return p.clientNames()[i]
		}
	}
	return ""
}

func (p people) callName(id quote.CallID) string {
	for i, c := range p.calls {
		if c.ID == id {
			return p.callNames()[i]
		}
	}
	return ""
}

// strung puts texts beside each other with dots between; empty ones are left out.
func strung(texts ...string) (all string) {
	for _, t := range texts {
		all = joined(all, t)
	}
	return all
}
