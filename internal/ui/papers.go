package ui

import (
	"bytes"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"

	"meltwright/internal/desk"
)

// papers are the documents of a quote, as the window calls them.
var papers = map[desk.Print]struct{ name, extension, where string }{
	desk.Proposal:  {"proposal", "pdf", "The proposal"},
	desk.CostSheet: {"cost sheet", "pdf", "The cost sheet"},
	desk.Workbook:  {"cost sheet", "xlsx", "The workbook"},

	desk.OrderList:  {"order list", "pdf", "The order list"},
	desk.OrderSheet: {"order list", "csv", "The order list"},
	desk.Traveller:  {"traveller", "pdf", "The traveller"},
	desk.Lines:      {"lines", "csv", "The table of lines"},
}

// write asks where a paper of the quote goes, and writes it there as the quote
// stands now. Letters that cannot be printed are told with the question.
func (q *quoteScreen) write(which desk.Print) {
	paper := papers[which]
	put, err := q.sheet.Ready(which)
	if err != nil {
		q.w.tell("There is no "+paper.name+" yet", sentence(err))
		return
	}
	q.onLost(which, func(warning string) { q.askWhere(which, put, warning) })
}

func (q *quoteScreen) askWhere(which desk.Print, put func(io.Writer) error, warning string) {
	paper := papers[which]
	text := "Where should it lie?"
	if warning != "" {
		text = warning + "\n\n" + text
	}
	q.w.askPath(pathQuestion{
		title: paper.where, text: text, do: "Write it",
		path: filepath.Join(documents(), q.sheet.FileName(paper.name, paper.extension)),
		take: func(path string) {
			q.w.say("Writing " + filepath.Base(path) + " …")
			q.w.do(func() func() {
				var b bytes.Buffer
				err := put(&b)
				if err == nil {
					err = replaceFile(path, b.Bytes())
				}
				return func() { q.w.written(paper.where, path, err) }
			})
		},
	})
}

// written says where a paper lies, or why it was not written.
func (w *Window) written(what, path string, err error) {
	if err != nil {
		w.tell(what+" was not written", sentence(err))
		return
	}
	w.offer(fmt.Sprintf("%s lies in %s.", what, path), "Show", func() {
		if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
			w.tell("The file cannot be shown", sentence(err))
		}
	})
}

// replaceFile writes a file beside path and then puts it in its place, so that
// there is never half a file.
func replaceFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".meltwright-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already once it is in its place
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Chmod(f.Name(), 0o644)
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// documents is the folder that papers are proposed to lie in.
func documents() string {
	home, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	if d := filepath.Join(home, "Documents"); isFolder(d) {
		return d
	}
	return home
}

func isFolder(path string) bool {
	is, err := os.Stat(path)
	return err == nil && is.IsDir()
}
