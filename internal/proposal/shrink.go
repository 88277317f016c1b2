package proposal

import "image"

// plane is one sheet of a picture's samples, or several side by side in each
// pixel.
type plane struct {
	pix        []byte
	stride     int
	wide, high int
	each       int // samples of a pixel
}

// shrunk gives the plane with so many pixels, each the mean of the area it
// covers, which loses no fine line and adds none.
func (p plane) shrunk(wide, high int) plane {
	if p.wide == wide && p.high == high {
		return p
	}
	out := plane{make([]byte, wide*high*p.each), wide * p.each, wide, high, p.each}
	across, down := spans(p.wide, wide), spans(p.high, high)
	line := make([]float32, out.stride)
	sum := make([]float32, out.stride)
	scale := float32(wide) / float32(p.wide) * float32(high) / float32(p.high)
	at := -1 // the row that line holds
	for y, s := range down {
		clear(sum)
		for row := s.from; row < s.to; row++ {
			if row != at {
				p.squeeze(row, across, line)
				at = row
			}
			weight := s.weight(row)
			for i, v := range line {
				sum[i] += v * weight
			}
		}
		to := out.pix[y*out.stride:]
		for i, v := range sum {
			to[i] = byte(min(v*scale+0.5, 255))
		}
	}
	return out
}

// span is the samples that one pixel of a smaller plane covers; of the first and
// the last it may cover only a part.
type span struct {
	from, to    int
	first, last float32
}

// spans divides n samples among so many pixels.
func spans(n, pixels int) []span {
	all := make([]span, pixels)
	for i := range all {
		a, b := i*n, (i+1)*n // in parts of a sample: pixels to each
		s := span{from: a / pixels, to: (b + pixels - 1) / pixels}
		s.first = float32((s.from+1)*pixels-a) / float32(pixels)
		s.last = float32(b-(s.to-1)*pixels) / float32(pixels)
		if s.to-s.from == 1 {
			s.first = float32(b-a) / float32(pixels)
		}
		all[i] = s
	}
	return all
}

func (s span) weight(i int) float32 {
	switch i {
	case s.from:
		return s.first
	case s.to - 1:
		return s.last
	}
	return 1
}

// squeeze adds up one row's samples, pixel by pixel of the smaller plane.
func (p plane) squeeze(row int, across []span, into []float32) {
	from := p.pix[row*p.stride:]
	n := p.each
	for x, s := range across {
		for k := range n {
			v := float32(from[s.from*n+k]) * s.first
			if s.to-s.from > 1 {
				var whole uint32
				for i := (s.from+1)*n + k; i < (s.to-1)*n; i += n {
					whole += uint32(from[i])
				}
				v += float32(whole) + float32(from[(s.to-1)*n+k])*s.last
			}
			into[x*n+k] = v
		}
	}
}

// shrinkPhoto shrinks a photograph as the camera stored it: light, and colour at
// half of its resolution.
func shrinkPhoto(img *image.YCbCr, wide, high int) *image.YCbCr {
	b := img.Bounds()
	c := img.SubsampleRatio
	cw, ch := colourSize(b.Dx(), b.Dy(), c)
	y := plane{img.Y[img.YOffset(b.Min.X, b.Min.Y):], img.YStride, b.Dx(), b.Dy(), 1}.shrunk(wide, high)
	half := func(pix []byte) plane {
		return plane{pix[img.COffset(b.Min.X, b.Min.Y):], img.CStride, cw, ch, 1}.shrunk((wide+1)/2, (high+1)/2)
	}
	return photoOf(y, half(img.Cb), half(img.Cr))
}

// photoOf puts a photograph together.
func photoOf(y, cb, cr plane) *image.YCbCr {
	return &image.YCbCr{
		Y: y.pix, Cb: cb.pix, Cr: cr.pix, YStride: y.stride, CStride: cb.stride,
		SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: image.Rect(0, 0, y.wide, y.high),
	}
}

// colourSize is how many samples of colour a photograph has.
func colourSize(wide, high int, r image.YCbCrSubsampleRatio) (w, h int) {
	switch r {
	case image.YCbCrSubsampleRatio422:
		return (wide + 1) / 2, high
	case image.YCbCrSubsampleRatio420:
		return (wide + 1) / 2, (high + 1) / 2
	case image.YCbCrSubsampleRatio440:
		return wide, (high + 1) / 2
	case image.YCbCrSubsampleRatio411:
		return (wide + 3) / 4, high
	case image.YCbCrSubsampleRatio410:
		return (wide + 3) / 4, (high + 1) / 2
	}
	return wide, high
}
