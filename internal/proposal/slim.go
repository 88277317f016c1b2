package proposal

import "meltwright/internal/quote"

// slimSide is the longest side of a picture that is worth keeping for papers, in
// pixels: the width of a page's text, and a little more, at 300 dots an inch.
const slimSide = 2000

// Slim gives a picture as it is worth keeping: upright, no larger than papers
// need, and without what a camera notes beside it, such as the place. Who keeps
// pictures does so once, when they are handed in, and every paper is quicker for
// it. The error is a fault.Fault that names the picture.
func Slim(p quote.Picture) (quote.Picture, error) {
	f, err := look(p)
	if err != nil {
		return quote.Picture{}, err
	}
	if file, ok := bareJPEG(p.Data); ok && f.turned <= 1 && f.wide <= slimSide && f.high <= slimSide {
		p.Data = file // as it is already
		return p, nil
	}
	const points = slimSide / dotsPerPoint
	ready, err := f.ready(points, points)
	if err != nil {
		return quote.Picture{}, err
	}
	ready.seeThrough = true
	if err := ready.press(); err != nil {
		return quote.Picture{}, pictureFault(p, "cannot be kept: "+err.Error(), "use another")
	}
	p.Data = ready.file
	return p, nil
}
