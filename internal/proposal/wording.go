package proposal

import (
	"bytes"
	"errors"
	"io/fs"
	"path"
	"strings"
	"sync"
	"text/template"

	"meltwright/internal/fault"
	"meltwright/templates"
)

// wording is the words of one language. The first thing that goes wrong with a
// template is kept, so that those who ask for words need not check each time.
type wording struct {
	templates *template.Template
	err       error
}

// ours are the languages' own wordings, read once.
var ours sync.Map // code → *template.Template

// wordingOf gives the words of a language, with those in a shop's own folder in
// the place of ours. What a language lacks is said in English.
func wordingOf(code string, own fs.FS) (*wording, error) {
	t, err := ourWording(code)
	if err != nil {
		return nil, err
	}
	if own == nil {
		return &wording{templates: t}, nil
	}
	t, err = t.Clone()
	if err == nil {
		err = readWording(t, own, code)
	}
	return &wording{templates: t}, err
}

// ourWording gives the words that come with the program.
func ourWording(code string) (*template.Template, error) {
	if t, ok := ours.Load(code); ok {
		return t.(*template.Template), nil
	}
	t := template.New(code).Option("missingkey=error")
	for _, folder := range []string{"en", code} {
		if err := readWording(t, templates.Wording, folder); err != nil {
			return nil, err
		}
	}
	ours.Store(code, t)
	return t, nil
}

// readWording reads every template of a folder, by the name of its file. A
// folder that is not there has none.
func readWording(t *template.Template, from fs.FS, folder string) error {
	names, err := fs.Glob(from, path.Join(folder, "*.tmpl"))
	if err != nil {
		return wordingFault(folder, err)
	}
	for _, name := range names {
		words, err := fs.ReadFile(from, name)
		if err == nil {
			_, err = t.New(strings.TrimSuffix(path.Base(name), ".tmpl")).Parse(string(words))
		}
		if err != nil {
			return wordingFault(name, err)
		}
	}
	return nil
}

// wordingFault says which template is wrong, and where in it.
func wordingFault(name string, err error) error {
	problem := err.Error()
	problem = strings.TrimPrefix(problem, "template: ")
	if errors.Is(err, fs.ErrPermission) {
		problem = "cannot be read"
	}
	return fault.Fault{
		Where: "wording." + name, Field: "Wording", Value: name, Problem: "will not do: " + problem,
		Remedy: "put it right, or take the file away to have the program's own words",
	}
}

// say gives the words called name, with data put in.
func (w *wording) say(name string, data any) string {
	var b bytes.Buffer
	err := w.templates.ExecuteTemplate(&b, name, data)
	if err != nil && w.err == nil {
		w.err = wordingFault(name, err)
	}
	return strings.TrimSpace(b.String())
}

// label gives words that need no data.
func (w *wording) label(name string) string { return w.say(name, nil) }
