package ui

import (
	"bytes"
	"context"
	"image"

	// The forms that pictures are kept in.
	_ "image/gif"
	_ "image/jpeg"
	_ "image/png"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// thumbnail shows a kept picture, small.
type thumbnail struct {
	w     *Window
	image *canvas.Image
	box   *fyne.Container
	is    quote.PictureID
}

// thumbHeight is how high a picture is shown, at plain text size.
const thumbHeight = 240

func newThumbnail(w *Window) *thumbnail {
	t := &thumbnail{w: w, image: &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth}}
	t.box = &fyne.Container{Layout: thumbLayout{}, Objects: []fyne.CanvasObject{t.image}}
	t.box.Hide()
	return t
}

// show shows a picture of the store; the empty one takes it away.
func (t *thumbnail) show(id quote.PictureID, relay func()) {
	if id == t.is {
		return
	}
	t.is, t.image.Image = id, nil
	show(t.box, id != "")
	if id == "" {
		return
	}
	d := t.w.desk
	t.w.do(func() func() {
		data, err := d.PictureFile(context.Background(), id)
		small := smaller(data)
		return func() {
			if t.is != id {
				return
			}
			t.image.Image = small
			show(t.box, err == nil && small != nil)
			t.image.Refresh()
			relay()
		}
	})
}

// smaller reads a picture and makes it small enough to be drawn at once; nil
// where it cannot be read.
func smaller(data []byte) image.Image {
	const most = 900
	full, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil
	}
	b := full.Bounds()
	scale := min(1, most/float64(max(b.Dx(), b.Dy(), 1)))
	if scale == 1 {
		return full
	}
	small := image.NewRGBA(image.Rect(0, 0, max(1, int(float64(b.Dx())*scale)), max(1, int(float64(b.Dy())*scale))))
	draw.ApproxBiLinear.Scale(small, small.Bounds(), full, b, draw.Src, nil)
	return small
}

// thumbLayout gives a picture its height, and the width that goes with it, at the
// left.
type thumbLayout struct{}

func (thumbLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	wide := s.Width
	if m := objects[0].(*canvas.Image).Image; m != nil {
		wide = min(wide, s.Height*float32(m.Bounds().Dx())/float32(max(m.Bounds().Dy(), 1)))
	}
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(wide, s.Height))
}

func (thumbLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(120, thumbHeight*theme.TextSize()/14)
}

// askPicture asks for a picture's file, takes it in and gives it on.
func (w *Window) askPicture(title string, take func(quote.Shown)) {
	w.askPath(pathQuestion{
		title: title, text: "A photograph or a drawing: JPEG, PNG, GIF or WebP. The file itself is only read.", path: w.pictured, do: "Add it", existing: true,
		take: func(path string) {
			w.pictured = path
			w.say("Taking it in …")
			d := w.desk
			w.do(func() func() {
				shown, err := takePicture(d, path)
				return func() {
					if err != nil {
						w.tell("This picture was not added", sentence(err))
						return
					}
					w.say("It is added.")
					take(shown)
				}
			})
		},
	})
}

// pictureRow makes a row of buttons for what can be done to a picture.
func pictureRow(w *Window, names []string, do ...func()) (buttons []*kit.Button, row *fyne.Container) {
	var objects []fyne.CanvasObject
	for i, name := range names {
		b := kit.NewButton(name, kit.Quiet, w.guarded(do[i]))
		buttons, objects = append(buttons, b), append(objects, b)
	}
	return buttons, leading(objects...)
}
