package ui

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// listScreen is the list of quotes, or of those in the bin.
type listScreen struct {
	w        *Window
	bar      *kit.TopBar
	list     *kit.FilterList
	order    *listOrder
	soon     *soonest
	body     *fyne.Container // what falls due, filters, list
	sheet    *kit.Sheet
	pager    *pager
	bin      bool
	waiting  string // what is being waited for, "" for nothing
	path     string
	readOnly bool
	marked   quote.ID // stays marked when the list is read again
	opens    bool     // Return came before the answer to what was typed: it opens that
}

func newListScreen(w *Window) *listScreen {
	l := &listScreen{w: w, bar: kit.NewTopBar(), list: kit.NewFilterList("Search number, title, client, call, place, piece")}
	l.pager = &pager{w: w, told: l.show}
	l.list.OnFilter = w.guardedText(func(string) {
		l.opens = false
		l.reload()
	})
	l.list.OnOpen = w.guardedNumber(func(i int) {
		if l.opens = !l.pager.settled(); !l.opens {
			l.onRow(i, l.open)
		}
	})
	l.list.OnSelect = w.guardedNumber(func(i int) { l.onRow(i, func(r quote.Summary) { l.marked = r.ID }) })
	l.order, l.soon = newListOrder(w, l.reload), newSoonest(w)
	l.body = &fyne.Container{Layout: listLayout{}, Objects: []fyne.CanvasObject{l.soon.scroll, l.order.row, l.list}}
	l.soon.told = func() { l.body.Layout.Layout(l.body.Objects, l.body.Size()) }
	l.sheet = kit.NewSheet(l.bar, nil, kit.NewPadded(28, 18, l.body), nil)
	l.head()
	return l
}

func (l *listScreen) content() fyne.CanvasObject { return l.sheet }
func (l *listScreen) leave()                     {}

func (l *listScreen) arrive() {
	l.head()
	l.w.seek(l.list)
	show(l.soon.scroll, !l.bin && len(l.soon.list) > 0)
	if l.w.desk != nil && !l.bin {
		l.soon.read() // first, because a quote may lapse by it
	}
	l.reload()
}

// seek puts the keyboard into a list's search. A screen that has just been made
// does not know its canvas yet, so the window's is asked.
func (w *Window) seek(l *kit.FilterList) {
	if f, ok := l.Held()[0].(fyne.Focusable); ok {
		w.win.Canvas().Focus(f)
	}
}

// head writes the bar for the list or for the bin.
func (l *listScreen) head() {
	where := ""
	if l.path != "" {
		where = joined(l.w.desk.Book().Shop, filepath.Base(l.path))
	}
	if l.readOnly {
		where += " · to read only"
	}
	if l.bin {
		l.bar.SetTitle("Bin", where)
		l.bar.SetBack(l.w.guarded(l.w.showList))
		l.bar.SetActions(kit.Action{Text: "Bring back", Icon: theme.IconNameContentUndo, Primary: true, Do: l.w.guarded(func() { l.onMarked(l.restore) })})
		return
	}
	l.bar.SetTitle("Quotes", where)
	l.bar.SetBack(nil)
	l.bar.SetActions(
		kit.Action{Text: "Bin", Do: l.w.guarded(l.w.showBin)},
		kit.Action{Text: "Clients and calls", Do: l.w.guarded(l.w.showCards)},
		kit.Action{Text: "Shop book", Do: l.w.guarded(l.w.showBook)},
		kit.Action{Text: "Duplicate", Do: l.w.guarded(func() { l.onMarked(l.duplicate) })},
		kit.Action{Text: "Delete", Do: l.w.guarded(func() { l.onMarked(l.remove) })},
		kit.Action{Text: "New quote", Icon: theme.IconNameContentAdd, Primary: true, Do: l.w.guarded(l.w.newQuote)},
	)
}

func (l *listScreen) offers() offers {
	o := offers{find: l.list.Focus}
	if l.bin {
		return o
	}
	o.duplicate = func() { l.onMarked(l.duplicate) }
	o.remove = func() { l.onMarked(l.remove) }
	return o
}

// wait says what the list is waiting for.
func (l *listScreen) wait(text string) {
	l.waiting = text
	l.list.SetRows(0, l.row, "", text)
}

func (l *listScreen) opened(path string, readOnly bool) {
	l.path, l.readOnly, l.waiting = path, readOnly, ""
	l.w.desk.Sign(l.w.options.Who)
	l.head()
	l.w.readPeople(nil)
	l.soon.read()
	l.w.seek(l.list)
	l.w.offerRescued()
}

// reload reads the list again.
func (l *listScreen) reload() {
	if l.w.desk != nil {
		l.pager.ask(l.order.narrow(quote.Filter{Words: l.list.Search(), Bin: l.bin, Today: l.w.options.Now()}))
	}
}

// show shows what has been read.
func (l *listScreen) show(err error) {
	if err != nil {
		l.w.tell("The quotes cannot be read", sentence(err))
		return
	}
	l.list.SetRows(l.pager.total, l.row, l.count(), l.none())
	l.mark()
	if l.opens && l.pager.settled() {
		l.opens = false
		l.onRow(l.list.Selected(), l.open)
	}
}

// mark marks the quote that was marked before, or the first.
func (l *listScreen) mark() {
	if l.pager.total == 0 {
		l.list.Select(-1)
		return
	}
	for i, r := range l.pager.pages[0] {
		if r.ID == l.marked {
			l.list.Select(i)
			return
		}
	}
	if l.list.Selected() < 0 || l.list.Search() != "" {
		l.list.Select(0)
	}
}

func (l *listScreen) count() string {
	s := quantity.Number(float64(l.pager.total), 0) + " quote"
	if l.pager.total != 1 {
		s += "s"
	}
	if l.bin {
		return s + " in the bin"
	}
	return s
}

// none is what an empty list says.
func (l *listScreen) none() string {
	switch {
	case l.list.Search() != "":
		return "No quote has “" + strings.TrimSpace(l.list.Search()) + "” in its number, title, client, call, place or pieces" + map[bool]string{true: ", of those you chose to see"}[l.order.narrowed()] + "."
	case l.order.narrowed():
		return "There is no such quote."
	case l.bin:
		return "The bin is empty."
	}
	return "No quotes yet. Begin one with “New quote”, or Ctrl+N: a height and a wall are enough for a first price."
}

func (l *listScreen) row(i int) kit.ListRow {
	r, ok := l.pager.at(i)
	if !ok {
		return kit.ListRow{Title: "…"}
	}
	return listRow(r)
}

// listRow shows one quote.
func listRow(r quote.Summary) kit.ListRow {
	title := r.Title
	if title == "" {
		title = "Untitled"
	}
	var about []string
	for _, s := range []string{r.Number + r.Letter, r.Client, r.Place} {
		if s != "" {
			about = append(about, s)
		}
	}
	if !r.Due.IsZero() {
		about = append(about, "closes "+day(r.Due))
	}
	about = append(about, "changed "+r.Changed.Local().Format("2 January 2006"))
	price := r.Price
	if price == "" {
		price = "no price yet"
	}
	return kit.ListRow{Title: title, Subtitle: strings.Join(about, " · "), Amount: price, State: string(r.State), Tone: tones[r.State]}
}

var tones = map[quote.State]fyne.ThemeColorName{
	quote.Issued: look.Bronze, quote.Accepted: look.Good, quote.Declined: look.Bad,
}

func (l *listScreen) onRow(i int, f func(quote.Summary)) {
	if i < 0 {
		return
	}
	if r, ok := l.pager.at(i); ok {
		f(r)
	}
}

// onMarked does something to the marked quote, or says that none is.
func (l *listScreen) onMarked(f func(quote.Summary)) {
	if i := l.list.Selected(); i >= 0 {
		l.onRow(i, f)
		return
	}
	l.w.say("Mark a quote first.")
}

// open opens a quote; one in the bin is brought back first.
func (l *listScreen) open(r quote.Summary) {
	if l.bin {
		l.restore(r)
		return
	}
	l.marked = r.ID
	l.w.openQuote(r.ID, (*desk.Desk).Put)
}

func (l *listScreen) duplicate(r quote.Summary) { l.w.openQuote(r.ID, (*desk.Desk).PutCopy) }

// openQuote reads a quote and puts it, or a copy of it, on the desk.
func (w *Window) openQuote(id quote.ID, put func(*desk.Desk, quote.Quote) *desk.Sheet) {
	d := w.desk
	w.do(func() func() {
		q, err := d.Fetch(context.Background(), id)
		if err != nil {
			return func() { w.tell("This quote cannot be opened", sentence(err)) }
		}
		return func() { w.show(newQuoteScreen(w, put(d, q))) }
	})
}

// openQuoteAt opens a quote at one of its pages.
func (w *Window) openQuoteAt(id quote.ID, page string) {
	w.openQuote(id, (*desk.Desk).Put)
	w.do(func() func() {
		return func() {
			if q, ok := w.screen.(*quoteScreen); ok && q.sheet.Quote().ID == id {
				q.choose(page)
			}
		}
	})
}

// newQuote begins a quote.
func (w *Window) newQuote() {
	if w.desk != nil {
		w.show(newQuoteScreen(w, w.desk.PutNew()))
	}
}

// remove puts a quote into the bin, and offers the way back.
func (l *listScreen) remove(r quote.Summary) { l.w.removeQuote(r.ID, listRow(r).Title) }

func (w *Window) removeQuote(id quote.ID, title string) {
	d := w.desk
	w.do(func() func() {
		err := d.Delete(context.Background(), id)
		return func() {
			if err != nil {
				w.tell("This quote stays where it is", sentence(err))
				return
			}
			w.list.bin = false
			w.showList()
			w.offer(fmt.Sprintf("“%s” is in the bin.", title), "Bring back", func() { w.restoreQuote(id, title) })
		}
	})
}

func (l *listScreen) restore(r quote.Summary) { l.w.restoreQuote(r.ID, listRow(r).Title) }

func (w *Window) restoreQuote(id quote.ID, title string) {
	d := w.desk
	w.do(func() func() {
		err := d.Restore(context.Background(), id)
		return func() {
			if err != nil {
				w.tell("This quote stays in the bin", sentence(err))
				return
			}
			w.list.marked = id
			w.list.reload()
			w.say(fmt.Sprintf("“%s” is back.", title))
		}
	})
}

// showList shows the list of quotes, showBin that of those in the bin.
func (w *Window) showList() { w.showQuotes(false) }

func (w *Window) showBin() { w.showQuotes(true) }

func (w *Window) showQuotes(bin bool) {
	w.list.bin = bin
	w.list.list.SetSearch("")
	w.list.order.clear()
	w.show(w.list)
}
