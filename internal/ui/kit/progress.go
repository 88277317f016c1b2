package kit

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Progress shows over a window how far a long piece of work has come, and can
// call it off. The work runs elsewhere and reports through fyne.Do.
type Progress struct {
	gauge  *gauge
	cancel *Button
	pop    *widget.PopUp
}

// ShowProgress shows a progress at nothing yet. cancel is called once, when the
// user calls the work off; the progress stays until Done.
func ShowProgress(c fyne.Canvas, title, text string, cancel func()) *Progress {
	p := &Progress{gauge: newGauge()}
	p.cancel = NewButton("Cancel", Plain, func() {
		p.cancel.Disable()
		p.cancel.SetText("Stopping …")
		cancel()
	})
	p.cancel.OnEscape = p.cancel.press
	p.pop = widget.NewModalPopUp(newCard(title, text, p.gauge, []*Button{p.cancel}, c.Size()), c)
	p.pop.Show()
	c.Focus(p.cancel)
	return p
}

// Set says how much is done, 0 to 1, and what is being done; below 0 means that
// nobody knows how much.
func (p *Progress) Set(share float64, doing string) { p.gauge.set(share, doing) }

// Done takes the progress away.
func (p *Progress) Done() { p.pop.Hide() }

// gauge is a bar that fills, with a line below it.
type gauge struct {
	widget.BaseWidget
	share           float64
	trough, full    *canvas.Rectangle
	doing, share100 *ink
}

func newGauge() *gauge {
	g := &gauge{trough: &canvas.Rectangle{}, full: &canvas.Rectangle{}}
	g.doing = newInk(theme.SizeNameCaptionText, look.Muted, plain)
	g.share100 = newInk(theme.SizeNameCaptionText, look.Muted, plain).trailing()
	g.ExtendBaseWidget(g)
	return g
}

func (g *gauge) set(share float64, doing string) {
	g.share = min(share, 1)
	g.doing.say(doing)
	g.share100.say("")
	if share >= 0 {
		g.share100.say(fmt.Sprintf("%.0f %%", 100*g.share))
	}
	g.lay(g.Size())
}

func (g *gauge) lay(s fyne.Size) {
	thick, line := px(10), lineHeight(theme.SizeNameCaptionText)
	g.trough.CornerRadius, g.full.CornerRadius = thick/2, thick/2
	put(g.trough, 0, 0, s.Width, thick)
	put(g.full, 0, 0, s.Width*float32(max(g.share, 0)), thick)
	right := px(48)
	g.doing.place(0, thick+gap(4), s.Width-right, line)
	g.share100.place(s.Width-right, thick+gap(4), right, line)
}

// CreateRenderer implements fyne.Widget.
func (g *gauge) CreateRenderer() fyne.WidgetRenderer {
	dress := func() {
		fill(g.trough, look.Trough)
		fill(g.full, look.Accent)
		g.doing.dress()
		g.share100.dress()
	}
	dress()
	return face{
		objects: just(g.trough, g.full, g.doing.Text, g.share100.Text),
		layout:  g.lay,
		min: func() fyne.Size {
			return fyne.NewSize(px(200), px(10)+gap(4)+lineHeight(theme.SizeNameCaptionText))
		},
		refresh: func() {
			dress()
			g.lay(g.Size())
			canvas.Refresh(g)
		},
	}
}
