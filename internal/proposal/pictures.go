package proposal

import (
	"math"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/quote"
)

// The room of pictures, in points.
const (
	logoWide, logoHigh = 150.0, 58.0
	pictureHigh        = 292.0 // of one that has the width of the page
	besideHigh         = 300.0 // of upright ones side by side
	besideGap          = 14.0
)

// shown is a picture with its place in a proposal.
type shown struct {
	photo
	plate      *plate
	wide, high float64 // as printed, in points
}

// images are the pictures of a proposal.
type images struct {
	logo, cover *shown
	rows        [][]*shown // the others, in the rows they stand in
}

// all lists every picture.
func (im images) all() (list []*shown) {
	for _, s := range append([]*shown{im.logo, im.cover}, flatten(im.rows)...) {
		if s != nil {
			list = append(list, s)
		}
	}
	return list
}

func flatten(rows [][]*shown) (list []*shown) {
	for _, r := range rows {
		list = append(list, r...)
	}
	return list
}

// takePictures looks at the pictures of the paper, gives each its room, and
// makes them ready, several at once.
func (o *offer) takePictures() error {
	var others []*shown
	for _, p := range o.paper.Pictures {
		f, err := look(p)
		if err != nil {
			return err
		}
		s := &shown{photo: f}
		switch p.Name {
		case quote.Logo:
			s.fit(logoWide, logoHigh)
			o.images.logo = s
		case quote.Cover:
			o.images.cover = s
		default:
			others = append(others, s)
		}
	}
	o.images.rows = inRows(others, o.sheet.wide())
	o.cover() // finds the room of its picture
	all := o.images.all()
	return inParallel(len(all), func(i int) (err error) {
		all[i].plate, err = all[i].ready(all[i].wide, all[i].high, o.seen)
		return err
	})
}

// ready makes the plate of a picture: decoded where somebody looks at the pages
// on a screen, and otherwise as it is, if it will do.
func (s *shown) ready(wide, high float64, seen bool) (*plate, error) {
	if !seen {
		if p, ok := s.photo.asIs(wide, high); ok {
			return p, nil
		}
	}
	return s.photo.ready(wide, high)
}

// fit gives a picture the largest size that a room has for it whole, and no
// larger than its pixels are good for: 96 to the inch.
func (s *shown) fit(wide, high float64) {
	const coarsest = 96.0 / 72
	across, down := float64(s.photo.wide), float64(s.photo.high)
	scale := min(wide/across, high/down, 1/coarsest)
	s.wide, s.high = across*scale, down*scale
}

// inRows puts two upright pictures that follow each other side by side, and
// every other one in a row of its own.
func inRows(list []*shown, wide float64) (rows [][]*shown) {
	for i := 0; i < len(list); i++ {
		if i+1 < len(list) && list[i].upright() && list[i+1].upright() {
			pair := list[i : i+2]
			for _, s := range pair {
				s.fit((wide-besideGap)/2, besideHigh)
			}
			rows = append(rows, pair)
			i++
			continue
		}
		list[i].fit(wide, pictureHigh)
		rows = append(rows, list[i:i+1])
	}
	return rows
}

func (s *shown) upright() bool { return s.photo.high > s.photo.wide }

// at is the picture with its top left corner at x and y.
func (s *shown) at(x, y float64) drawing.Item {
	p := drawing.Picture{At: drawing.Point{X: x, Y: y}, Width: s.wide, Height: s.high}
	if s.plate != nil {
		p.Image = s.plate.image
	}
	return p
}

// pictures sets the pictures that have no place of their own, with their
// captions.
func (o *offer) pictures(key string) []strip {
	if len(o.images.rows) == 0 {
		return nil
	}
	strips := o.running(o.blocksOf(key), bodyStyle)
	if len(strips) > 0 {
		strips[len(strips)-1].keep = true
	}
	for i, row := range o.images.rows {
		before := 18.0
		if i == 0 {
			before = 6
		}
		strips = append(strips, o.pictureRow(row, before))
	}
	return strips
}

// pictureRow is a row of pictures on one line, each over its caption.
func (o *offer) pictureRow(row []*shown, before float64) strip {
	st := strip{before: before}
	foot := 0.0
	for _, s := range row {
		foot = math.Max(foot, s.high)
	}
	x := 0.0
	room := (o.wide - besideGap*float64(len(row)-1)) / float64(len(row))
	for _, s := range row {
		st.items = append(st.items, s.at(x, foot-s.high))
		lines, height := o.caption(s, x, foot+4, room)
		st.items = append(st.items, lines...)
		st.height = math.Max(st.height, foot+height)
		x += room + besideGap
	}
	return st
}

// caption is the words below a picture, and how high they are with the space
// above them.
func (o *offer) caption(s *shown, x, y, room float64) (items []drawing.Item, height float64) {
	if strings.TrimSpace(s.Caption) == "" {
		return nil, 0
	}
	lines, cs := o.lines(smallStyle, s.Caption, math.Min(room, measure))
	for i, words := range cs.clamp(lines, 4, math.Min(room, measure)) {
		items = append(items, cs.line(words, x, y+float64(i)*cs.lead, drawing.Start))
		height = 4 + float64(i+1)*cs.lead
	}
	return items, height
}
