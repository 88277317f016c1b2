package desk

import (
	"context"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/lead"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// Booked is what accepted quotes take of the shop.
type Booked struct {
	Bookings []lead.Booking
	Quotes   int      // how many book something from the asked day on
	Left     []string // the numbers of those that cannot be scheduled as they stand
}

// yearsOver is after how many years work that was begun is taken to be over.
const yearsOver = 3

// Booked schedules the accepted quotes, each in what those accepted before it
// have left, and says what they take of the shop from a day on. Where the quote
// asked for is itself accepted, those accepted after it come after it. Their
// hours are reckoned with the shop book as it stands, which knows best what they
// will take. Any goroutine may call it.
func (d *Desk) Booked(ctx context.Context, of quote.Quote, from time.Time) (Booked, error) {
	return bookedIn(ctx, d.store, d.shop, of, from)
}

func bookedIn(ctx context.Context, store quote.Store, s *shop.Shop, of quote.Quote, from time.Time) (b Booked, err error) {
	accepted, err := store.Accepted(ctx)
	if err != nil || len(accepted) == 0 {
		return b, err
	}
	var orders []lead.Order
	var numbers []string
	for _, a := range accepted {
		if a.Quote.ID == of.ID && of.ID != 0 {
			if of.State == quote.Accepted {
				break
			}
			continue
		}
		start := begunOn(a)
		if start.AddDate(yearsOver, 0, 0).Before(from) {
			continue
		}
		e, err := estimate.Of(a.Quote.Commission, s)
		if err != nil {
			b.Left = append(b.Left, a.Quote.Number)
			continue
		}
		orders = append(orders, lead.Order{Commission: a.Quote.Commission, Estimate: e, Start: start})
		numbers = append(numbers, a.Quote.Number)
	}
	schedules, err := lead.Fit(orders, s)
	if err != nil {
		return b, err
	}
	for i, x := range schedules {
		if x.Tasks == nil {
			b.Left = append(b.Left, numbers[i])
		}
		b.add(x, from)
	}
	return b, nil
}

// add takes in what a schedule books from a day on.
func (b *Booked) add(s lead.Schedule, from time.Time) {
	before := len(b.Bookings)
	for _, x := range s.Bookings {
		if !x.Date.Before(from) {
			b.Bookings = append(b.Bookings, x)
		}
	}
	if len(b.Bookings) > before {
		b.Quotes++
	}
}

// begunOn is when an accepted quote's work begins: on the day that is typed for
// it, or that it was accepted on.
func begunOn(a quote.Acceptance) time.Time {
	if t, err := ReadDate("", a.Quote.Words[Start]); err == nil {
		return t
	}
	return dayOf(a.At)
}

// dayOf is the day of a moment, as a date.
func dayOf(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// dated gives the words of a quote that becomes accepted: with the day that its
// work begins, so that what it books stays where it is.
func (s *Sheet) dated(to quote.State) map[string]string {
	if to != quote.Accepted || s.quote.Words[Start] != "" {
		return s.quote.Words
	}
	w := map[string]string{Start: s.desk.now().Format("2 January 2006")}
	for part, text := range s.quote.Words {
		if part != Start {
			w[part] = text
		}
	}
	return w
}
