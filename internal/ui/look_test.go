package ui

import (
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// scenes are what the window is looked at in.
var scenes = map[string]func(*bench){
	"list":       func(b *bench) { b.menu("All quotes") },
	"commission": func(b *bench) { b.quote().choose(desk.Head) },
	"form":       func(b *bench) { b.quote().choose("form") },
	"shell":      func(b *bench) { b.quote().choose("shell") },
	"price":      func(b *bench) { b.quote().choose("price") },
	"fault": func(b *bench) {
		b.fill("form.wall", "-3")
	},
	"shopbook": func(b *bench) {
		b.menu("Shop book")
		b.book().choose("Wax")
	},
	"alloys": func(b *bench) {
		b.menu("Shop book")
		b.book().choose("alloys")
	},
}

var bothModes = map[string]look.Mode{"light": look.Light, "dark": look.Dark}

// mastered are the scenes whose markup is kept: one of each screen. Their
// figures are those of the demo and of the starting shop book.
var mastered = []string{"list", "shell", "fault", "shopbook"}

func TestTheScreensLookAsTheyDid(t *testing.T) {
	for _, scene := range mastered {
		for variant, mode := range bothModes {
			t.Run(scene+"-"+variant, func(t *testing.T) {
				b := sit(t, withDemo)
				b.wear(mode, 100)
				b.win.Resize(fyne.NewSize(1280, 820))
				scenes[scene](b)
				test.AssertRendersToMarkup(t, scene+"-"+variant+".xml", b.win.Canvas())
			})
		}
	}
}

// At every size and text size every word of a page is within the window: what
// does not fit is scrolled to or cut with a sign, never lost at the right edge.
func TestNothingRunsOutOfTheWindow(t *testing.T) {
	views := []struct {
		size    fyne.Size
		percent int
	}{{fyne.NewSize(1280, 820), 100}, {fyne.NewSize(1024, 700), 100}, {fyne.NewSize(1024, 700), 200}}
	for scene, stage := range scenes {
		for _, v := range views {
			t.Run(fmt.Sprintf("%s %.0f %d", scene, v.size.Width, v.percent), func(t *testing.T) {
				b := sit(t, withDemo)
				b.wear(look.Light, v.percent)
				b.win.Resize(v.size)
				stage(b)
				b.holdsItsWords(v.size.Width)
				b.picture(fmt.Sprintf("%s-%.0f-%d", scene, v.size.Width, v.percent))
			})
		}
	}
}

// holdsItsWords fails if a text, but for those in entries, which scroll by
// themselves, goes beyond the window's width.
func (b *bench) holdsItsWords(width float32) {
	b.Helper()
	typed := map[fyne.CanvasObject]bool{}
	walk(b.win.Canvas().Content(), func(o fyne.CanvasObject) {
		if e, ok := o.(*kit.Entry); ok {
			walk(e, func(o fyne.CanvasObject) { typed[o] = true })
		}
		if text, ok := o.(*canvas.Text); ok && text.Text != "" && !typed[o] {
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(text)
			assert.LessOrEqual(b, at.X+min(text.MinSize().Width, text.Size().Width), width+1, text.Text)
		}
	})
}

// picture keeps what the window shows where UI_PICTURES says, for whoever wants
// to look.
func (b *bench) picture(name string) {
	dir := os.Getenv("UI_PICTURES")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(b, err)
	require.NoError(b, png.Encode(f, b.win.Canvas().Capture()))
	require.NoError(b, f.Close())
}

func TestTheLookIsRemembered(t *testing.T) {
	b := sit(t, withDemo)
	b.menu("Dark")
	b.menu("Text 150 %")
	b.menu("Larger text")
	assert.Equal(t, look.Dark, b.w.look.theme.Mode())
	assert.Equal(t, 175, b.w.look.theme.Percent())
	again := Dress(b.w.app)
	assert.Equal(t, look.Dark, again.Mode())
	assert.Equal(t, 175, again.Percent())
	b.menu("Plain text size")
	b.menu("Light")
	assert.Equal(t, 100, b.w.look.theme.Percent())
}
