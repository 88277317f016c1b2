package kit

import (
	"image"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/drawing"
	"meltwright/internal/ui/look"
)

// PageStrip lists the pages of a document, each small over its number, in as many
// rows as it takes. One of them is chosen: by a tap, or by the arrow keys.
type PageStrip struct {
	widget.BaseWidget
	OnSelect func(page int)

	pages   []drawing.Scene
	small   []*smallPage // as many as there ever were pages
	chosen  int
	focused bool
}

// smallPage is one page of a strip.
type smallPage struct {
	sheet  *canvas.Raster
	edge   *canvas.Rectangle
	number *ink
	drawn  *image.RGBA // the page at its size, kept while neither changes
}

var (
	_ fyne.Tappable      = (*PageStrip)(nil)
	_ fyne.Focusable     = (*PageStrip)(nil)
	_ desktop.Cursorable = (*PageStrip)(nil)
)

// NewPageStrip makes an empty strip.
func NewPageStrip(onSelect func(page int)) *PageStrip {
	s := &PageStrip{OnSelect: onSelect}
	s.ExtendBaseWidget(s)
	return s
}

// SetPages shows other pages. The scenes are not to be changed after that.
func (s *PageStrip) SetPages(pages []drawing.Scene) {
	if len(pages) == len(s.pages) && (len(pages) == 0 || &pages[0] == &s.pages[0]) {
		return
	}
	s.pages = pages
	for len(s.small) < len(pages) {
		s.small = append(s.small, s.newPage(len(s.small)))
	}
	for _, p := range s.small {
		p.drawn = nil
	}
	s.chosen = max(0, min(s.chosen, len(pages)-1))
	s.Refresh()
}

func (s *PageStrip) newPage(i int) *smallPage {
	p := &smallPage{edge: &canvas.Rectangle{}, number: newInk(theme.SizeNameCaptionText, look.Muted, plain)}
	p.number.Alignment = fyne.TextAlignCenter
	p.number.say(strconv.Itoa(i + 1))
	p.sheet = canvas.NewRaster(func(w, h int) image.Image {
		if p.drawn == nil || p.drawn.Rect.Dx() != w || p.drawn.Rect.Dy() != h {
			p.drawn = s.picture(i, w, h)
		}
		return p.drawn
	})
	return p
}

// picture draws a page small, on the white of its paper.
func (s *PageStrip) picture(i, w, h int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	if i >= len(s.pages) {
		return out
	}
	page := s.pages[i]
	ground := drawing.Shape{Path: drawing.Rect(0, 0, page.Width, page.Height), Fill: drawing.Sheet}
	page.Items = append([]drawing.Item{ground}, page.Items...)
	if img, ok := Pixels(page, drawing.Light(), w, h).(*image.RGBA); ok {
		return img
	}
	return out
}

// Chosen is the page that is chosen, from 0.
func (s *PageStrip) Chosen() int { return s.chosen }

// Choose marks a page without telling OnSelect.
func (s *PageStrip) Choose(page int) {
	if page != s.chosen && page >= 0 && page < len(s.pages) {
		s.chosen = page
		s.Refresh()
	}
}

func (s *PageStrip) choose(page int) {
	if page < 0 || page >= len(s.pages) || page == s.chosen {
		return
	}
	s.Choose(page)
	if s.OnSelect != nil {
		s.OnSelect(page)
	}
}

// The measures of a strip at plain text size.
const (
	smallWide = 44
	smallGap  = 10
)

// cell is the size of a page with its number and the space around it, and how
// many stand in a row of so much width.
func (s *PageStrip) cell(width float32) (w, sheet, h float32, across int) {
	w = px(smallWide)
	ratio := 1.414 // of A4, while there is none
	if len(s.pages) > 0 && s.pages[0].Width > 0 {
		ratio = s.pages[0].Height / s.pages[0].Width
	}
	sheet = round(w * float32(ratio))
	h = sheet + letterSize(theme.SizeNameCaptionText)*1.5 + px(smallGap)/2
	return w, sheet, h, max(1, int((width+px(smallGap))/(w+px(smallGap))))
}

func (s *PageStrip) heightFor(width float32) float32 {
	if len(s.pages) == 0 {
		return 0
	}
	_, _, h, across := s.cell(width)
	return float32((len(s.pages)+across-1)/across) * h
}

// at is which page lies at a place, -1 for none.
func (s *PageStrip) at(p fyne.Position) int {
	w, _, h, across := s.cell(s.Size().Width)
	column := int(p.X / (w + px(smallGap)))
	i := int(p.Y/h)*across + column
	if column >= across || i >= len(s.pages) || i < 0 {
		return -1
	}
	return i
}

// Tapped implements fyne.Tappable.
func (s *PageStrip) Tapped(e *fyne.PointEvent) { s.choose(s.at(e.Position)) }

// Cursor implements desktop.Cursorable.
func (s *PageStrip) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained implements fyne.Focusable.
func (s *PageStrip) FocusGained() { s.focused = true; s.Refresh(); Reveal(s) }

// FocusLost implements fyne.Focusable.
func (s *PageStrip) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune implements fyne.Focusable.
func (s *PageStrip) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (s *PageStrip) TypedKey(e *fyne.KeyEvent) {
	_, _, _, across := s.cell(s.Size().Width)
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyPageUp:
		s.choose(s.chosen - 1)
	case fyne.KeyRight, fyne.KeyPageDown:
		s.choose(s.chosen + 1)
	case fyne.KeyUp:
		s.choose(s.chosen - across)
	case fyne.KeyDown:
		s.choose(s.chosen + across)
	case fyne.KeyHome:
		s.choose(0)
	case fyne.KeyEnd:
		s.choose(len(s.pages) - 1)
	}
}

// CreateRenderer implements fyne.Widget.
func (s *PageStrip) CreateRenderer() fyne.WidgetRenderer {
	return face{objects: s.objects, layout: s.lay, min: func() fyne.Size {
		return fyne.NewSize(px(smallWide), s.heightFor(max(s.Size().Width, px(smallWide))))
	}, refresh: func() { s.lay(s.Size()) }}
}

func (s *PageStrip) objects() (all []fyne.CanvasObject) {
	for _, p := range s.small[:len(s.pages)] {
		all = append(all, p.sheet, p.edge, p.number.Text)
	}
	return all
}

// lay places the pages and gives each its edge: bronze for the chosen one, and
// thick where the strip has the focus.
func (s *PageStrip) lay(size fyne.Size) {
	w, sheet, h, across := s.cell(size.Width)
	for i, p := range s.small[:len(s.pages)] {
		x, y := float32(i%across)*(w+px(smallGap)), float32(i/across)*h
		put(p.sheet, x, y, w, sheet)
		putCrisp(p.edge, x-1, y-1, w+2, sheet+2)
		put(p.number.Text, x, y+sheet+1, w, letterSize(theme.SizeNameCaptionText)*1.4)
		name, thick, tint := look.Rule, float32(1), look.Muted
		if i == s.chosen {
			name, thick, tint = look.Accent, 2, look.Ink
			if s.focused {
				thick = 3
			}
		}
		outline(p.edge, name, thick)
		p.number.tint(tint)
		p.number.weigh(i == s.chosen)
		p.number.dress()
		if p.drawn == nil {
			p.sheet.Refresh()
		}
	}
}
