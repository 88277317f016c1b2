package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// RailState says how a stage stands.
type RailState int

// The states of a stage.
const (
	StageOK       RailState = iota // reckoned
	StageFault                     // something in it needs attention
	StageByOthers                  // not part of this work
)

// RailRow is one stage in the rail.
type RailRow struct {
	ID     string
	Name   string
	Detail string  // "62 h"; of a StageFault, what is wrong
	Amount string  // "6,310"
	Share  float64 // of the whole, 0 to 1
	Colour fyne.ThemeColorName
	State  RailState
}

// Rail is the list of stages, in the order of the work, with a column beside it
// in which every stage takes the height of its share of the cost; a band leads
// from each part of the column to its row. Up and Down choose, Enter goes on.
type Rail struct {
	widget.BaseWidget
	OnSelect func(id string) // the user chose another stage
	OnEnter  func(id string) // Enter on the chosen stage: on to its fields

	scroll *FocusScroll
	body   *railBody
}

// NewRail makes an empty rail.
func NewRail() *Rail {
	r := &Rail{}
	r.body = newRailBody(r)
	r.scroll = NewFocusScroll(r.body)
	r.ExtendBaseWidget(r)
	return r
}

// WithoutColumn takes the column of shares away: for a list of parts that cost
// nothing by themselves.
func (r *Rail) WithoutColumn() *Rail {
	r.body.strata.plain = true
	return r
}

// SetRows shows rows. The chosen stage stays chosen if it is still there.
func (r *Rail) SetRows(rows []RailRow) { r.body.setRows(rows) }

// Select chooses a stage without telling anybody.
func (r *Rail) Select(id string) {
	r.body.choose(r.body.find(id))
	r.body.reveal()
}

// Selected is the ID of the chosen stage, "" for none.
func (r *Rail) Selected() string {
	if i := r.body.chosen; i >= 0 && i < len(r.body.rows) {
		return r.body.rows[i].ID
	}
	return ""
}

// Focus puts the keyboard into the rail.
func (r *Rail) Focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.body); c != nil {
		c.Focus(r.body)
	}
}

// Held implements Holder.
func (r *Rail) Held() []fyne.CanvasObject { return []fyne.CanvasObject{r.scroll} }

// CreateRenderer implements fyne.Widget.
func (r *Rail) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(r.scroll),
		layout: func(s fyne.Size) {
			r.body.view = s.Height
			r.scroll.Resize(s)
		},
		min:     func() fyne.Size { return fyne.NewSize(px(150), 3*railRowLeast()) },
		refresh: func() { r.scroll.Refresh() },
	}
}

// railRowLeast is the least height of a row.
func railRowLeast() float32 {
	return lineHeight(theme.SizeNameText) + lineHeight(theme.SizeNameCaptionText) + gap(9)
}
