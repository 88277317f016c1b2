package ui

import (
	"context"
	"os"
	"path/filepath"

	"meltwright/internal/mesh"
	"meltwright/internal/ui/kit"
)

// scanPrefs is where the computer remembers the files of scans, by their sums:
// the quote keeps what was measured, and no path.
const (
	scanPrefs  = "scan.file."
	scanFolder = "scan.folder"
)

// scanPath is where the file of a kept scan was last seen, "" for nowhere.
func (w *Window) scanPath(k *mesh.Scan) string {
	if k == nil {
		return ""
	}
	path := w.app.Preferences().String(scanPrefs + k.SHA256)
	if _, err := os.Stat(path); err != nil {
		return ""
	}
	return path
}

func (w *Window) rememberScan(path string, o *mesh.Opened) {
	if whole, err := filepath.Abs(path); err == nil {
		w.app.Preferences().SetString(scanPrefs+o.SHA256, whole)
		w.app.Preferences().SetString(scanFolder, filepath.Dir(whole))
	}
}

// openScan opens the file of the chosen piece's scan again, or asks for one.
func (q *quoteScreen) openScan() {
	k := q.pieces()[q.piece].Scan
	if path := q.w.scanPath(k); path != "" {
		q.readScan(path, nil)
		return
	}
	if k != nil && q.files.has(k.SHA256) {
		q.files.open(k)
		return
	}
	name := ""
	if k != nil {
		name = k.File
	}
	q.askScan(name)
}

// askScan asks for the file of a scan.
func (q *quoteScreen) askScan(name string) {
	folder := q.w.app.Preferences().String(scanFolder)
	if folder == "" {
		folder, _ = os.UserHomeDir()
	}
	q.askScanAt(filepath.Join(folder, name)+trailing(name), "A file that scanners and modelling programs write: STL, OBJ, PLY, 3MF, glTF or GLB.")
}

// trailing ends the path of a folder, so that a name can be typed on.
func trailing(name string) string {
	if name == "" {
		return string(filepath.Separator)
	}
	return ""
}

func (q *quoteScreen) askScanAt(path, text string) {
	q.w.askPath(pathQuestion{
		title: "Which scan?", text: text, path: path, do: "Open", existing: true,
		take: func(path string) { q.readScan(path, nil) },
	})
}

// readScan reads a scan away from the window, and shows it when it is read. A file
// that lies there only for now has done called when it is needed no longer; any
// other is remembered.
func (q *quoteScreen) readScan(path string, done func()) {
	w, e := q.w, &errand{}
	kept, target := q.pieces()[q.piece].Scan, q.targetHeight()
	p := kit.ShowProgress(w.win.Canvas(), "Reading "+filepath.Base(path), "A scan of a million triangles takes a moment.", w.guarded(e.stop))
	over := func(apply func()) func() {
		return func() {
			p.Done()
			apply()
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	e.cancel = cancel
	w.apart(func() func() {
		if done != nil {
			defer done()
		}
		o, standing, err := stoodScan(ctx, path, kept, target, w.telling(ctx, func(share float64) { p.Set(share, "") }))
		switch {
		case ctx.Err() != nil:
			return over(func() {})
		case err != nil:
			return over(func() { q.askScanAt(path, sentence(err)) })
		}
		return over(func() {
			if done == nil {
				w.rememberScan(path, o)
			}
			w.show(newScanScreen(q, path, o, standing))
		})
	})
}

// stoodScan reads a scan and stands it as it stood before, or as proposed.
func stoodScan(ctx context.Context, path string, kept *mesh.Scan, target float64, tell func(float64)) (*mesh.Opened, *mesh.Standing, error) {
	o, err := mesh.OpenScan(ctx, path, func(done float64) { tell(0.9 * done) })
	if err != nil {
		return nil, nil, err
	}
	how := o.Propose(target)
	if kept != nil && kept.SHA256 == o.SHA256 {
		how = kept.Stance
	}
	tell(0.95)
	standing, err := o.Stand(ctx, how)
	return o, standing, err
}

// targetHeight is the height that is typed for the chosen piece, in metres; 0
// for none, for then it is as its form is known now.
func (q *quoteScreen) targetHeight() float64 {
	e, _ := q.sheet.Estimate()
	if q.pieces()[q.piece].Inputs["form.height"] == "" || e == nil || q.piece >= len(e.Pieces) {
		return 0
	}
	return float64(e.Pieces[q.piece].Height)
}
