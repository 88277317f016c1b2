package ui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// rescuable is a subject that can be written to a file of its own while the store
// refuses it.
type rescuable interface{ rescued() ([]byte, error) }

// rescueEnding is how the names of such files end.
const rescueEnding = ".commission.json"

// rescued writes the quote as a commission file.
func (q *quoteScreen) rescued() ([]byte, error) {
	var b bytes.Buffer
	err := desk.EncodeCommission(&b, q.sheet.Commission(), q.sheet.Quote().Words)
	return b.Bytes(), err
}

// shelter writes what cannot be kept into a file elsewhere: in the folder for that,
// or in the one for passing files, which may lie on another disk. It is small, and
// is written whole or not at all.
func (w *Window) shelter(k *keeping) {
	r, ok := k.subject.(rescuable)
	if !ok || w.options.Rescue == "" || errors.Is(k.err, quote.ErrOutdated) {
		return
	}
	data, err := r.rescued()
	if err != nil {
		return
	}
	if k.rescue != "" && replaceFile(k.rescue, data) == nil {
		return
	}
	k.rescue = ""
	name := w.options.Now().Format("2006-01-02 150405.000000") + rescueEnding
	for _, folder := range []string{w.options.Rescue, filepath.Join(os.TempDir(), filepath.Base(w.options.Rescue))} {
		if os.MkdirAll(folder, 0o700) == nil && replaceFile(filepath.Join(folder, name), data) == nil {
			k.rescue = filepath.Join(folder, name)
			return
		}
	}
}

// unshelter takes that file away again, once the store has what was in it.
func (w *Window) unshelter(k *keeping) {
	if k.rescue != "" {
		_ = os.Remove(k.rescue) // one that stays is offered again
		k.rescue = ""
	}
}

// sheltered says where what was typed lies meanwhile.
func (w *Window) sheltered(k *keeping) string {
	if k.rescue == "" {
		return ""
	}
	return " Meanwhile it also lies in " + k.rescue + "."
}

// offerRescued offers what an earlier window could not keep.
func (w *Window) offerRescued() {
	if w.options.Rescue == "" || w.readOnly {
		return
	}
	folder := w.options.Rescue
	w.do(func() func() {
		var files []string
		for _, f := range []string{folder, filepath.Join(os.TempDir(), filepath.Base(folder))} {
			found, _ := filepath.Glob(filepath.Join(f, "*"+rescueEnding)) // the pattern is ours
			files = append(files, found...)
		}
		slices.Sort(files)
		return func() {
			if len(files) > 0 {
				w.askRescued(files)
			}
		}
	})
}

func (w *Window) askRescued(files []string) {
	w.ask(&kit.Ask{
		Title: "Bring back what could not be kept?",
		Text: fmt.Sprintf("When the program was last closed, the disk had refused %s. What was typed lies in\n%s",
			counted(len(files), "change"), strings.Join(files, "\n")),
		Choices: []kit.Choice{
			{Text: "Not now", Safe: true},
			{Text: "Bring back as new quotes", Style: kit.Primary, Do: func() { w.bringBackRescued(files) }},
		},
	})
}

// bringBackRescued keeps each file as a new quote, and only then takes it away.
func (w *Window) bringBackRescued(files []string) {
	d := w.desk
	w.do(func() func() {
		var err error
		n := 0
		for _, path := range files {
			if err = bringBack(d, path); err != nil {
				break
			}
			n++
		}
		return func() {
			w.list.reload()
			if err != nil {
				w.tell("Not all of it came back", sentence(err))
				return
			}
			w.say(counted(n, "quote") + " brought back.")
		}
	})
}

func bringBack(d *desk.Desk, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	c, words, err := desk.DecodeCommission(f)
	_ = f.Close() // it was only read
	if err != nil {
		return err
	}
	if _, err = d.Take(context.Background(), quote.Quote{Commission: c, Words: words}); err != nil {
		return err
	}
	return os.Remove(path)
}
