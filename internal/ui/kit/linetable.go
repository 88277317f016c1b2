package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// LineKind says what a row of a LineTable is.
type LineKind int

// The kinds of row.
const (
	LineItem     LineKind = iota // quantity × rate = cost; may be chosen
	LineHead                     // the name of a group, such as a piece
	LineSubtotal                 // what a group comes to
	LineTotal                    // what all comes to
)

// Line is one row, in the words and digits to be shown.
type Line struct {
	ID       string // tells lines apart from one update to the next
	Kind     LineKind
	Name     string // "Stucco, fused silica"
	Quantity string // "148.0"
	Unit     string // "kg"
	Rate     string // "2.35"
	Per      string // "/ kg"
	Cost     string // "347.80"
}

// LineTable shows lines: name, quantity, rate and cost, the figures right-aligned
// with their units beside them. One line may be chosen. It belongs in a
// FocusScroll and is quick at any length.
type LineTable struct {
	widget.BaseWidget
	OnSelect func(id string) // the user chose another line
	OnOpen   func(id string) // Enter, or a tap on the chosen line

	lines   []Line
	widths  []cells // what each line's cells take, beside lines
	letters float32 // the text size they were measured in
	cols    columns
	heads   [4]*ink // Line, Quantity, Rate, Cost
	rule    *canvas.Rectangle
	list    *rowList
}

// NewLineTable makes an empty table.
func NewLineTable() *LineTable {
	t := &LineTable{rule: &canvas.Rectangle{}}
	for i, name := range []string{"Line", "Quantity", "Rate", "Cost"} {
		t.heads[i] = newInk(theme.SizeNameCaptionText, look.Muted, plain)
		if i > 0 {
			t.heads[i].trailing()
		}
		t.heads[i].say(name)
	}
	t.list = newRowList(func() stripRow { return newLineRow(&t.cols) }, t.fillRow)
	t.list.can = func(i int) bool { return t.lines[i].Kind == LineItem }
	t.list.onSelect = func(i int) { tell(t.OnSelect, t.lines[i].ID) }
	t.list.onOpen = func(i int) { tell(t.OnOpen, t.lines[i].ID) }
	t.ExtendBaseWidget(t)
	return t
}

func tell(f func(string), s string) {
	if f != nil {
		f(s)
	}
}

// SetHeads changes the words over the columns, for another language.
func (t *LineTable) SetHeads(line, quantity, rate, cost string) {
	for i, s := range []string{line, quantity, rate, cost} {
		t.heads[i].say(s)
	}
}

// SetLines shows lines. The chosen line stays chosen if it is still there.
func (t *LineTable) SetLines(lines []Line) {
	chosen := t.Selected()
	many := len(t.lines)
	t.measure(lines)
	t.settle()
	t.list.setRows(len(lines), t.find(chosen))
	if many != len(lines) {
		t.relay(t.Size())
	}
}

// Select chooses the line of that ID without telling anybody; an ID that is not
// there chooses none.
func (t *LineTable) Select(id string) { t.list.choose(t.find(id)) }

// Selected is the ID of the chosen line, "" for none.
func (t *LineTable) Selected() string {
	if i := t.list.chosen; i >= 0 && i < len(t.lines) {
		return t.lines[i].ID
	}
	return ""
}

// Held implements Holder.
func (t *LineTable) Held() []fyne.CanvasObject { return []fyne.CanvasObject{t.list} }

func (t *LineTable) find(id string) int {
	for i, l := range t.lines {
		if id != "" && l.ID == id && l.Kind == LineItem {
			return i
		}
	}
	return none
}

func (t *LineTable) fillRow(row stripRow, i int) {
	row.(*lineRow).show(t.lines[i], i == t.list.chosen)
}

// measure takes the lines in and notes what room their cells need; a line that
// stayed the same is not measured again.
func (t *LineTable) measure(lines []Line) {
	widths := make([]cells, len(lines))
	for i, l := range lines {
		if i < len(t.lines) && t.lines[i] == l && t.letters == theme.TextSize() {
			widths[i] = t.widths[i]
		} else {
			widths[i] = cellsOf(l)
		}
	}
	t.lines, t.widths, t.letters = append(t.lines[:0], lines...), widths, theme.TextSize()
}

// settle gives the columns their widths.
func (t *LineTable) settle() {
	if t.letters != theme.TextSize() {
		t.measure(append([]Line(nil), t.lines...))
	}
	var most cells
	for _, c := range t.widths {
		most = most.wider(c)
	}
	if t.cols.set(most, t.heads, t.Size().Width) {
		t.list.strip.width = -1 // every row is placed anew
	}
}

func (t *LineTable) dress() {
	for _, h := range t.heads {
		h.dress()
	}
	fill(t.rule, look.Edge)
}

// CreateRenderer implements fyne.Widget.
func (t *LineTable) CreateRenderer() fyne.WidgetRenderer {
	t.dress()
	return face{
		objects: just(t.heads[0].Text, t.heads[1].Text, t.heads[2].Text, t.heads[3].Text, t.rule, t.list),
		layout:  t.relay,
		min: func() fyne.Size {
			return fyne.NewSize(px(280), t.headHeight()+t.list.MinSize().Height)
		},
		refresh: func() {
			t.dress()
			t.list.Refresh()
			t.relay(t.Size())
			canvas.Refresh(t)
		},
	}
}

func (t *LineTable) headHeight() float32 { return px(30) }

func (t *LineTable) relay(s fyne.Size) {
	t.settle()
	h := t.headHeight()
	t.heads[0].place(t.cols.name.x, 0, t.cols.name.w, h)
	t.heads[1].place(0, 0, t.cols.quantityEdge(), h)
	t.heads[2].place(0, 0, t.cols.rateEdge(), h)
	t.heads[3].place(0, 0, t.cols.cost.end(), h)
	put(t.rule, 0, h-1, s.Width, 1)
	put(t.list, 0, h, s.Width, t.list.MinSize().Height)
	t.list.relay(false)
}
