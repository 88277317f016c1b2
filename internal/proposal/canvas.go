package proposal

import (
	"image/color"
	"math"

	"github.com/jung-kurt/gofpdf"

	"meltwright/internal/drawing"
)

// ink draws scenes on the page of a PDF that is open.
type ink struct {
	pdf    *gofpdf.Fpdf
	plates []*plate
}

var _ drawing.Canvas = ink{}

// FillPath fills p by the non-zero winding rule.
func (k ink) FillPath(p drawing.Path, c color.NRGBA) {
	if len(p) == 0 {
		return
	}
	k.pdf.SetFillColor(int(c.R), int(c.G), int(c.B))
	k.trace(p)
	k.pdf.DrawPath("F")
}

// StrokePath draws along p with mitred corners and cut ends.
func (k ink) StrokePath(p drawing.Path, width float64, dash []float64, c color.NRGBA) {
	if len(p) == 0 {
		return
	}
	k.pdf.SetDrawColor(int(c.R), int(c.G), int(c.B))
	k.pdf.SetLineWidth(width)
	k.pdf.SetLineJoinStyle("miter")
	k.pdf.SetLineCapStyle("butt")
	k.pdf.SetDashPattern(dash, 0)
	k.trace(p)
	k.pdf.DrawPath("D")
}

// DrawText writes words so that their baseline begins at the place given.
func (k ink) DrawText(words string, f drawing.Face, size float64, at drawing.Point, c color.NRGBA) {
	k.pdf.SetFont(fontOf(f).family, "", size)
	k.pdf.SetTextColor(int(c.R), int(c.G), int(c.B))
	k.pdf.Text(at.X, at.Y, words)
}

// trace sets out p. The PDF library writes ends of lines to a hundredth of a
// point and those of curves more finely: a closed curve would not quite meet its
// beginning, and its corner there be drawn as a spike.
func (k ink) trace(p drawing.Path) {
	for _, s := range p {
		for i := range s.P {
			s.P[i] = drawing.Point{X: math.Round(s.P[i].X*100) / 100, Y: math.Round(s.P[i].Y*100) / 100}
		}
		switch s.Op {
		case drawing.MoveTo:
			k.pdf.MoveTo(s.P[0].X, s.P[0].Y)
		case drawing.LineTo:
			k.pdf.LineTo(s.P[0].X, s.P[0].Y)
		case drawing.CubicTo:
			k.pdf.CurveBezierCubicTo(s.P[0].X, s.P[0].Y, s.P[1].X, s.P[1].Y, s.P[2].X, s.P[2].Y)
		case drawing.Close:
			k.pdf.ClosePath()
		}
	}
}
