package ui

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"

	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// scanFiles are the files of scans that are kept with a quote, as far as the
// window knows by now.
type scanFiles struct {
	q     *quoteScreen
	asked quote.ID
	kept  map[string]quote.ScanFile // by their sums
}

// look asks the store which files are kept, once, and then has them shown.
func (f *scanFiles) look(show func()) {
	id := f.q.sheet.Quote().ID
	if id == 0 || id == f.asked {
		return
	}
	f.asked = id
	d := f.q.w.desk
	f.q.w.do(func() func() {
		list, err := d.KeptScanFiles(context.Background(), id)
		return func() {
			if err != nil {
				f.asked = 0
				return
			}
			f.kept = map[string]quote.ScanFile{}
			for _, k := range list {
				f.kept[k.SHA256] = k
			}
			show()
		}
	})
}

func (f *scanFiles) has(sha256 string) bool {
	_, ok := f.kept[sha256]
	return ok
}

// set keeps the file of a scan with the quote, or keeps it no longer. The quote
// itself is kept first, for a new one has no place yet.
func (f *scanFiles) set(k *mesh.Scan, path string, keep bool) {
	w := f.q.w
	f.q.kept.now()
	w.do(func() func() { return func() { f.change(f.q.sheet.Quote().ID, k, path, keep) } })
}

func (f *scanFiles) change(id quote.ID, k *mesh.Scan, path string, keep bool) {
	w, d := f.q.w, f.q.w.desk
	if id == 0 {
		w.tell("The scan’s file was not kept", "The quote itself could not be kept yet; try again when it is.")
		return
	}
	w.do(func() func() {
		var err error
		if keep {
			err = d.KeepScanFile(context.Background(), id, k, path)
		} else {
			err = d.DropScanFile(context.Background(), id, k.SHA256)
		}
		return func() {
			f.asked = 0
			if err != nil {
				w.tell("The scan’s file was not kept", sentence(err))
			}
			f.look(f.q.show)
		}
	})
}

// save asks where a kept file goes, and writes it there as it was.
func (f *scanFiles) save(k *mesh.Scan) {
	w, d, id := f.q.w, f.q.w.desk, f.q.sheet.Quote().ID
	w.askPath(pathQuestion{
		title: "The scan’s file", text: "Where should it lie?", do: "Write it", path: filepath.Join(documents(), k.File),
		take: func(path string) {
			w.do(func() func() {
				var b bytes.Buffer
				err := d.WriteScanFile(context.Background(), id, k.SHA256, &b)
				if err == nil {
					err = replaceFile(path, b.Bytes())
				}
				return func() { w.written("The scan’s file", path, err) }
			})
		},
	})
}

// open opens a kept file as a scan, from a folder that goes when it is read.
func (f *scanFiles) open(k *mesh.Scan) {
	w, d, id := f.q.w, f.q.w.desk, f.q.sheet.Quote().ID
	w.do(func() func() {
		folder, err := os.MkdirTemp("", "meltwright-")
		path := filepath.Join(folder, filepath.Base(k.File))
		if err == nil {
			var b bytes.Buffer
			if err = d.WriteScanFile(context.Background(), id, k.SHA256, &b); err == nil {
				err = os.WriteFile(path, b.Bytes(), 0o600)
			}
		}
		return func() {
			if err != nil {
				w.tell("The scan cannot be opened", sentence(err))
				return
			}
			f.q.readScan(path, func() { _ = os.RemoveAll(folder) })
		}
	})
}

// newKeepField asks whether the file itself goes into the quote.
func (a *scanAsk) newKeepField() *kit.Field {
	return kit.NewField(kit.FieldSpec{
		ID: "scan.keep", Kind: kit.CheckField, Label: "Its file", Caption: "keep it with the quote", Default: kit.No,
		OnChanged: a.s.w.guardedText(func(text string) { a.s.keep = text == kit.Yes }),
	})
}

// showKeep shows whether the file is to be kept, and how much room it takes.
func (a *scanAsk) showKeep() {
	a.keepFile.SetText(yesOrNo(a.s.keep))
	hint := "no estimate needs it"
	if info, err := os.Stat(a.s.path); err == nil {
		hint = fmt.Sprintf("%s; %s", megabytes(info.Size()), hint)
	}
	a.keepFile.SetHint(hint)
}

// megabytes prints the size of a file.
func megabytes(n int64) string {
	return quantity.Significant(max(float64(n)/1e6, 0.01), 2) + " MB"
}
