package look

import (
	"image/color"
	"math"
)

// Contrast is how far apart two opaque colours are to the eye, from 1 (the same)
// to 21 (black on white): the contrast ratio of WCAG 2.1, (L1+0.05)/(L2+0.05).
func Contrast(a, b color.Color) float64 {
	la, lb := luminance(a), luminance(b)
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

// luminance is WCAG 2.1's relative luminance of an sRGB colour, 0 to 1.
func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

// linear undoes sRGB's curve for one channel of 0 to 65535.
func linear(channel uint32) float64 {
	s := float64(channel) / 0xffff
	if s <= 0.03928 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

// Over is what is seen where top, perhaps half transparent, lies on an opaque ground.
func Over(top, ground color.NRGBA) color.NRGBA {
	mix := func(t, g uint8) uint8 {
		a := float64(top.A) / 255
		return uint8(math.Round(float64(t)*a + float64(g)*(1-a)))
	}
	return color.NRGBA{R: mix(top.R, ground.R), G: mix(top.G, ground.G), B: mix(top.B, ground.B), A: 0xff}
}
