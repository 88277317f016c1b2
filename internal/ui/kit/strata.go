package kit

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"meltwright/internal/ui/look"
)

// strata is the column of a rail, in which each stage has the height of its share,
// with bands that lead from its parts to the rows: drawn at the screen's own
// pixels, because bands have curved edges.
type strata struct {
	raster *canvas.Raster
	layers []layer
	place  strataPlan
	strong [2]int // the rows whose bands are drawn more strongly
	plain  bool   // there is no column, only the rows' own colours
}

// layer is one stage's part of the column.
type layer struct {
	share  float64
	colour fyne.ThemeColorName
	hollow bool // by others: an outline only
}

// strataPlan is where things are across a rail.
type strataPlan struct{ column, bands, swatch, rows float32 }

func newStrata() *strata {
	s := &strata{strong: [2]int{none, none}}
	s.raster = canvas.NewRaster(s.draw)
	return s
}

// plan divides the width of a rail: a narrow one spends less on the bands.
func (s *strata) plan(width float32) strataPlan {
	left, column, bands, bar := gap(12), px(17), px(29), px(5)
	if s.plain {
		left, column, bands = 0, 0, 0
	} else if width < px(250) {
		left, column, bands = gap(8), px(12), px(18)
	}
	return strataPlan{column: left, bands: left + column, swatch: left + column + bands, rows: left + column + bands + bar}
}

// setRows takes the shares and colours of the rows.
func (s *strata) setRows(rows []RailRow) {
	changed := len(rows) != len(s.layers)
	for len(s.layers) < len(rows) {
		s.layers = append(s.layers, layer{})
	}
	s.layers = s.layers[:len(rows)]
	for i, row := range rows {
		share := row.Share
		if !(share > 0) || math.IsInf(share, 0) {
			share = 0
		}
		l := layer{share: share, colour: row.Colour, hollow: row.State == StageByOthers}
		changed = changed || s.layers[i] != l
		s.layers[i] = l
	}
	if changed {
		s.raster.Refresh()
	}
}

// emphasise draws two bands more strongly.
func (s *strata) emphasise(chosen, hovered int) {
	if strong := [2]int{chosen, hovered}; s.strong != strong {
		s.strong = strong
		s.raster.Refresh()
	}
}

// lay gives the drawing its place beside n rows.
func (s *strata) lay(p strataPlan, top, rowHeight float32, n int) {
	if s.place != p {
		s.place = p
		s.raster.Refresh()
	}
	put(s.raster, p.column, top, p.rows-p.column, rowHeight*float32(n))
}

// draw paints the column, w by h pixels.
func (s *strata) draw(w, h int) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	size := s.raster.Size()
	if size.Width <= 0 || len(s.layers) == 0 {
		return img
	}
	scale := float64(w) / float64(size.Width)
	across := func(x float32) int { return int(math.Round(float64(x-s.place.column) * scale)) }
	b := brush{
		img: img, column: across(s.place.bands), swatch: across(s.place.swatch), right: w,
		hair: math.Max(1, math.Round(scale)), cover: make([]float64, h+2),
	}
	edges := s.edges(float64(h))
	row := float64(h) / float64(len(s.layers))
	for i, l := range s.layers {
		from, to := edges[i], edges[i+1]
		tone := nrgba(colour(l.colour))
		b.segment(from, to, tone)
		b.band(from, to, float64(i)*row, float64(i+1)*row, tone, s.strength(i))
		b.mark(float64(i)*row, float64(i+1)*row, tone, l.hollow)
	}
	if edges[len(s.layers)] == 0 {
		b.segment(0, float64(h), nrgba(colour(look.Rule)))
	}
	return img
}

// edges are the heights at which one part of the column ends and the next begins.
func (s *strata) edges(height float64) []float64 {
	var whole float64
	for _, l := range s.layers {
		whole += l.share
	}
	edges := make([]float64, len(s.layers)+1)
	if whole == 0 {
		return edges
	}
	var sum float64
	for i, l := range s.layers {
		sum += l.share
		edges[i+1] = sum / whole * height
	}
	return edges
}

// strength is how strongly row i's band is drawn, 0 to 1.
func (s *strata) strength(i int) float64 {
	switch i {
	case s.strong[0]:
		return 0.85
	case s.strong[1]:
		return 0.6
	}
	return 0.26
}
