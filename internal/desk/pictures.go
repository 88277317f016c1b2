package desk

import (
	"context"
	"slices"
	"sync"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// mostPicture is the largest file of a picture that is taken in.
const mostPicture = 64 << 20

// Slimmer is what papers can do for pictures besides printing them: give one as
// it is worth keeping. Papers that cannot have them kept as they come.
type Slimmer interface {
	Slim(p quote.Picture) (quote.Picture, error)
}

// TakePicture takes a picture's file in: looked at, made no larger than papers
// need, and kept. Any goroutine may call it; what it gives is for Sheet.AddPicture
// or SetMark. Name is the file's, for faults.
func (d *Desk) TakePicture(ctx context.Context, name string, data []byte) (quote.Shown, error) {
	if len(data) > mostPicture {
		return quote.Shown{}, fault.Fault{Field: "Picture", Value: name, Problem: "is larger than 64 MB", Remedy: "give a smaller one"}
	}
	p := quote.Picture{Name: name, Data: data}
	if s, ok := d.papers.(Slimmer); ok {
		var err error
		if p, err = s.Slim(p); err != nil {
			return quote.Shown{}, err
		}
	}
	id, err := d.store.KeepPicture(ctx, p.Data)
	return quote.Shown{Picture: id}, err
}

// PictureFile gives a picture's file; any goroutine may call it.
func (d *Desk) PictureFile(ctx context.Context, id quote.PictureID) ([]byte, error) {
	return d.album.file(ctx, id)
}

// Marks gives the shop's own pictures by name, and SetMark sets one or, with no
// picture, takes it away; any goroutine may call them.
func (d *Desk) Marks(ctx context.Context) (map[string]quote.PictureID, error) {
	return d.store.Marks(ctx)
}

// SetMark sets one of the shop's own pictures.
func (d *Desk) SetMark(ctx context.Context, name string, id quote.PictureID) error {
	return d.store.SetMark(ctx, name, id)
}

// album holds the files of the pictures that were looked at last.
type album struct {
	store quote.Store
	mu    sync.Mutex
	files map[quote.PictureID][]byte
	order []quote.PictureID
}

// mostHeld is how many pictures an album holds.
const mostHeld = 40

func (a *album) file(ctx context.Context, id quote.PictureID) ([]byte, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if data, ok := a.files[id]; ok {
		return data, nil
	}
	data, err := a.store.Picture(ctx, id)
	if err != nil {
		return nil, err
	}
	if a.files == nil {
		a.files = map[quote.PictureID][]byte{}
	}
	a.files[id], a.order = data, append(a.order, id)
	if len(a.order) > mostHeld {
		delete(a.files, a.order[0])
		a.order = a.order[1:]
	}
	return data, nil
}

// pictures are those that go on the papers of a quote: the shop's own, then its own.
func (a *album) pictures(ctx context.Context, own []quote.Shown) (all []quote.Picture, err error) {
	marks, err := a.store.Marks(ctx)
	if err != nil {
		return nil, err
	}
	shown := slices.Clone(own)
	for _, name := range slices.Backward(quote.Marks()) {
		if id, ok := marks[name]; ok {
			shown = slices.Insert(shown, 0, quote.Shown{Picture: id, Name: name})
		}
	}
	for _, x := range shown {
		data, err := a.file(ctx, x.Picture)
		if err != nil {
			return nil, err
		}
		all = append(all, quote.Picture{Name: x.Name, Data: data, Caption: x.Caption})
	}
	return all, nil
}

// changePictures changes the list of pictures in one step of undo.
func (s *Sheet) changePictures(name string, f func([]quote.Shown) []quote.Shown) {
	to := s.stands()
	to.pictures = f(slices.Clone(s.quote.Pictures))
	s.turn(name, to)
}

// AddPicture adds a picture to the quote; the first of all is its cover.
func (s *Sheet) AddPicture(p quote.Shown) {
	s.changePictures("", func(all []quote.Shown) []quote.Shown {
		if len(all) == 0 {
			p.Name = quote.Cover
		}
		return append(all, p)
	})
}

// SetCaption types what stands below a picture; typing on is one step of undo.
func (s *Sheet) SetCaption(i int, text string) {
	s.changePictures("caption", func(all []quote.Shown) []quote.Shown {
		all[i].Caption = text
		return all
	})
}

// SetCover makes one picture the cover, or where it is that already none.
func (s *Sheet) SetCover(i int) {
	s.changePictures("", func(all []quote.Shown) []quote.Shown {
		was := all[i].Name
		for k := range all {
			all[k].Name = ""
		}
		if was == "" {
			all[i].Name = quote.Cover
		}
		return all
	})
}

// MovePicture moves a picture by so many places, as far as there are, and gives
// its new number.
func (s *Sheet) MovePicture(i, by int) int {
	to := max(0, min(i+by, len(s.quote.Pictures)-1))
	if to != i {
		s.changePictures("", func(all []quote.Shown) []quote.Shown {
			move(all, i, to)
			return all
		})
	}
	return to
}

// RemovePicture takes a picture out of the quote; undo brings it back.
func (s *Sheet) RemovePicture(i int) {
	s.changePictures("", func(all []quote.Shown) []quote.Shown { return slices.Delete(all, i, i+1) })
}
