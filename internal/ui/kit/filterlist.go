package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// ListRow is one row of a FilterList.
type ListRow struct {
	Title    string
	Subtitle string
	Amount   string
	State    string              // a word: "draft", "issued"
	Tone     fyne.ThemeColorName // of the state's outline; "" is that of lesser text
}

// FilterList is a long list with a place to search above it. It draws only the
// rows that can be seen, and asks for each when it is.
type FilterList struct {
	widget.BaseWidget
	OnFilter func(text string) // told at every keystroke; answer with SetRows
	OnSelect func(i int)       // the user chose another row
	OnOpen   func(i int)       // Enter, or a tap on the chosen row

	search *Entry
	count  *ink
	empty  *para
	row    func(i int) ListRow
	list   *rowList
	scroll *FocusScroll
	glass  *badge
}

// NewFilterList makes an empty list; hint stands in the empty search.
func NewFilterList(hint string) *FilterList {
	l := &FilterList{search: NewEntry(1), empty: newPara(theme.SizeNameText)}
	l.count = newInk(theme.SizeNameCaptionText, look.Muted, plain).trailing()
	l.glass = newBadge(theme.IconNameSearch, look.Muted)
	l.list = newRowList(func() stripRow { return newListCell() }, func(r stripRow, i int) {
		r.(*listCell).show(l.row(i), i == l.list.chosen)
	})
	l.list.rowSize = listRowHeight
	l.list.onSelect = func(i int) { tellIndex(l.OnSelect, i) }
	l.list.onOpen = func(i int) { tellIndex(l.OnOpen, i) }
	l.scroll = NewFocusScroll(l.list)
	l.search.SetPlaceHolder(hint)
	l.search.OnChanged = func(s string) { tell(l.OnFilter, s) }
	l.search.OnEscape = func() { l.search.SetText("") }
	l.search.onArrow = l.list.TypedKey
	l.search.OnSubmitted = func(string) { l.list.open() }
	l.ExtendBaseWidget(l)
	return l
}

func tellIndex(f func(int), i int) {
	if f != nil {
		f(i)
	}
}

// SetRows says how many rows there are and what each is; count is written over
// the list ("12 of 340"), and empty in its place when there is no row. No row is
// chosen then: what was may stand elsewhere now.
func (l *FilterList) SetRows(n int, row func(i int) ListRow, count, empty string) {
	l.row = row
	l.count.say(count)
	l.empty.say(span{text: empty, colour: look.Muted})
	show(l.empty, n == 0)
	l.list.setRows(n, none)
	l.scroll.Refresh()
	l.lay(l.Size())
}

// Select chooses row i without telling anybody and brings it into view; -1 none.
func (l *FilterList) Select(i int) {
	l.list.choose(i)
	if i >= 0 {
		RevealPart(l.list, float32(i)*l.list.rowHeight(), float32(i+1)*l.list.rowHeight())
	}
}

// Selected is the chosen row, -1 for none.
func (l *FilterList) Selected() int { return l.list.chosen }

// Search is what stands in the search.
func (l *FilterList) Search() string { return l.search.Text }

// SetSearch puts a text into the search without telling OnFilter.
func (l *FilterList) SetSearch(text string) { l.search.put(text) }

// Focus puts the keyboard into the search.
func (l *FilterList) Focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l.search); c != nil {
		c.Focus(l.search)
	}
}

// Held implements Holder.
func (l *FilterList) Held() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.search, l.scroll}
}

func (l *FilterList) lay(s fyne.Size) {
	h := l.search.MinSize().Height
	count := l.count.natural()
	side := px(18)
	put(l.glass, gap(4), (h-side)/2, side, side)
	left := gap(4) + side + gap(8)
	wide := min(s.Width-left-count-gap(16), px(460))
	put(l.search, left, 0, wide, h)
	l.count.place(s.Width-count, 0, count, h)
	top := h + gap(12)
	put(l.scroll, 0, top, s.Width, s.Height-top)
	put(l.empty, gap(4), top+gap(12), s.Width-gap(8), l.empty.heightFor(s.Width-gap(8)))
}

// CreateRenderer implements fyne.Widget.
func (l *FilterList) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(l.glass.Image, l.search, l.count.Text, l.scroll, l.empty),
		layout:  l.lay,
		min:     func() fyne.Size { return fyne.NewSize(px(320), px(200)) },
		refresh: func() {
			l.glass.dress()
			l.count.dress()
			l.search.Refresh()
			l.empty.Refresh()
			l.scroll.Refresh()
			l.lay(l.Size())
			canvas.Refresh(l)
		},
	}
}

func listRowHeight() float32 {
	return lineHeight(theme.SizeNameText) + lineHeight(theme.SizeNameCaptionText) + gap(18)
}

// listCell is what one row of a list shows.
type listCell struct {
	title, subtitle, amount, state *ink
	pill, rule                     *canvas.Rectangle
	seen                           []fyne.CanvasObject
	at                             [3]float32 // y, width, height: the pill follows its word
}

func newListCell() *listCell {
	c := &listCell{
		title:    newInk(theme.SizeNameText, look.Ink, bold),
		subtitle: newInk(theme.SizeNameCaptionText, look.Muted, plain),
		amount:   newInk(theme.SizeNameText, look.Ink, plain).trailing(),
		state:    newInk(theme.SizeNameCaptionText, look.Muted, plain),
		pill:     &canvas.Rectangle{}, rule: &canvas.Rectangle{},
	}
	c.state.Alignment = fyne.TextAlignCenter
	c.seen = []fyne.CanvasObject{c.rule, c.pill, c.title.Text, c.subtitle.Text, c.amount.Text, c.state.Text}
	c.dress()
	return c
}

func (c *listCell) objects() []fyne.CanvasObject { return c.seen }

func (c *listCell) dress() {
	for _, t := range []*ink{c.title, c.subtitle, c.amount, c.state} {
		t.dress()
	}
	fill(c.rule, look.Rule)
	outline(c.pill, c.state.colour, 1)
}

func (c *listCell) show(r ListRow, chosen bool) {
	c.title.say(r.Title)
	c.subtitle.say(r.Subtitle)
	c.amount.say(r.Amount)
	c.amount.weigh(chosen)
	tone := r.Tone
	if tone == "" {
		tone = look.Muted
	}
	c.state.tint(tone)
	outline(c.pill, tone, 1)
	c.pill.Hidden = r.State == ""
	if c.state.say(r.State) {
		c.place(c.at[0], c.at[1], c.at[2])
	}
}

// place gives amount and state columns of their own at the right.
func (c *listCell) place(y, width, height float32) {
	c.at = [3]float32{y, width, height}
	first, second := lineHeight(theme.SizeNameText), lineHeight(theme.SizeNameCaptionText)
	edge := gap(12)
	amountW := max(px(96), c.amount.natural())
	amountX := width - edge - amountW
	c.amount.place(amountX, y, amountW, height)
	stateW := px(88)
	pillW := c.state.natural() + 2*gap(9)
	pillH := second + gap(5)
	stateX := amountX - gap(14) - stateW
	putCrisp(c.pill, stateX+(stateW-pillW)/2, y+(height-pillH)/2, pillW, pillH)
	c.pill.CornerRadius = round(pillH) / 2
	c.state.place(stateX, y, stateW, height)
	room := stateX - gap(14) - edge
	top := y + (height-first-second)/2
	c.title.place(edge, top, room, first)
	c.subtitle.place(edge, top+first, room, second)
	put(c.rule, 0, y+height-1, width, 1)
}
