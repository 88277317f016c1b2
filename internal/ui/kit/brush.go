package kit

import (
	"image"
	"image/color"
)

// brush paints a strata's shapes into pixels. Heights are exact: an edge is
// softened by how much of its pixel is covered.
type brush struct {
	img                   *image.NRGBA
	column, swatch, right int     // where the bands begin and end, and the drawing ends
	hair                  float64 // the width of a hairline
	cover                 []float64
	low, high             int // the pixels of cover that anything was soaked into
}

func nrgba(c color.Color) color.NRGBA { return color.NRGBAModel.Convert(c).(color.NRGBA) }

// segment paints one part of the column, a hairline apart from the next.
func (b *brush) segment(from, to float64, tone color.NRGBA) {
	if to-from > 3*b.hair {
		to -= b.hair
	}
	b.soak(from, to, 1)
	b.press(0, b.column, tone, 1)
}

// band paints the way from a part of the column to its row. Where it is steep a
// pixel sees many heights of it, so each is looked at several times across.
func (b *brush) band(from, to, rowTop, rowBottom float64, tone color.NRGBA, strength float64) {
	if to <= from {
		return
	}
	const looks = 12
	wide := float64(b.swatch - b.column)
	for x := b.column; x < b.swatch; x++ {
		for k := range looks {
			t := (float64(x-b.column) + (float64(k)+0.5)/looks) / wide
			t = t * t * (3 - 2*t)
			b.soak(from+(rowTop-from)*t, to+(rowBottom-b.hair-to)*t, 1.0/looks)
		}
		b.press(x, x+1, tone, strength)
	}
}

// mark paints the bar at the head of a row, hollow for what others do.
func (b *brush) mark(top, bottom float64, tone color.NRGBA, hollow bool) {
	bottom -= b.hair
	left, hair := b.swatch, int(b.hair)
	right := min(left+5*hair, b.right)
	if !hollow {
		b.soak(top, bottom, 1)
		b.press(left, right, tone, 1)
		return
	}
	b.soak(top, bottom, 1)
	b.press(left, left+hair, tone, 1)
	b.soak(top, bottom, 1)
	b.press(right-hair, right, tone, 1)
	b.soak(top, top+b.hair, 1)
	b.soak(bottom-b.hair, bottom, 1)
	b.press(left+hair, right-hair, tone, 1)
}

// soak notes that the stretch between two heights is covered, with a weight. What
// is noted are the changes of cover from pixel to pixel, which press sums up.
func (b *brush) soak(from, to, weight float64) {
	if to > from {
		b.edge(from, weight)
		b.edge(to, -weight)
	}
}

func (b *brush) edge(at, weight float64) {
	high := len(b.cover) - 2
	at = max(0, min(at, float64(high)))
	y := int(at)
	part := at - float64(y)
	b.cover[y] += weight * (1 - part)
	b.cover[y+1] += weight * part
	b.low, b.high = min(b.low, y), max(b.high, y+2)
}

// press paints what was soaked into the pixel columns from x to before until, and
// begins anew.
func (b *brush) press(x, until int, tone color.NRGBA, strength float64) {
	var sum float64
	for y := b.low; y < min(b.high, len(b.cover)-2); y++ {
		sum += b.cover[y]
		if sum > 1e-4 {
			opacity := uint32(min(sum, 1)*strength*255 + 0.5)
			at := b.img.PixOffset(x, y)
			for range until - x {
				b.dot(at, tone, opacity)
				at += 4
			}
		}
	}
	if b.low < b.high {
		clear(b.cover[b.low:b.high])
	}
	b.low, b.high = len(b.cover), 0
}

// dot lays a colour of an opacity of 0 to 255 over the pixel at an offset.
func (b *brush) dot(at int, tone color.NRGBA, opacity uint32) {
	p := b.img.Pix[at : at+4 : at+4]
	under := uint32(p[3])
	if opacity == 255 || under == 0 {
		p[0], p[1], p[2], p[3] = tone.R, tone.G, tone.B, uint8(opacity)
		return
	}
	rest := under * (255 - opacity) / 255
	over := opacity + rest
	mix := func(t, u uint8) uint8 { return uint8((uint32(t)*opacity + uint32(u)*rest + over/2) / over) }
	p[0], p[1], p[2], p[3] = mix(tone.R, p[0]), mix(tone.G, p[1]), mix(tone.B, p[2]), uint8(over)
}
