package proposal

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"meltwright/internal/buildinfo"
	"meltwright/internal/drawing"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// Maker makes the papers of quotes. The zero Maker has the program's own words,
// in English.
type Maker struct {
	// Wording is a shop's own words: templates such as en/care.tmpl, which stand
	// in the place of ours. Nil is none.
	Wording fs.FS
	// Language is that of proposals whose quote names none, such as "fr".
	Language string
}

// Proposal writes the client's proposal as PDF. The error is a fault.Fault where
// a template or the choice of sections is wrong.
func (m Maker) Proposal(w io.Writer, p quote.Paper) error {
	d, err := m.proposal(p)
	if err != nil {
		return err
	}
	return send(w, d.pdf)
}

// CostSheet writes the shop's own sheet, every line with its working, as PDF.
func (m Maker) CostSheet(w io.Writer, p quote.Paper) error {
	return send(w, costSheet(p).pdf)
}

// Workbook writes the cost sheet as a spreadsheet (Office Open XML) whose
// formulas reckon the price from the lines.
func (m Maker) Workbook(w io.Writer, p quote.Paper) error {
	return send(w, func(out *bytes.Buffer) error { return workbook(out, p) })
}

// Pages gives the pages of the proposal as they are printed, for a window.
func (m Maker) Pages(p quote.Paper) ([]drawing.Scene, error) {
	d, err := m.offered(p, true)
	if err != nil {
		return nil, err
	}
	return d.pages, nil
}

// Missing lists the letters of the proposal that the fonts have no drawing for,
// each once: those of scripts beyond Latin, Greek and Cyrillic, and emoji. On
// paper a question mark stands for each of them.
func (m Maker) Missing(p quote.Paper) ([]rune, error) {
	d, err := m.offered(p, true) // pictures need not be as sharp as on paper
	if err != nil {
		return nil, err
	}
	return d.lost, nil
}

// send makes a paper in full before anything of it is written. A fault of the
// libraries that make them is an error like any other.
func send(w io.Writer, make func(*bytes.Buffer) error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fault.Fault{Field: "Paper", Problem: fmt.Sprintf("could not be made (%v)", r), Remedy: "look for unusual signs in the texts, and tell the program's makers"}
		}
	}()
	var b bytes.Buffer
	if err := make(&b); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// document is a paper ready to be written.
type document struct {
	sheet         sheet
	title, author string
	language      string // of its words; empty is English
	date          string // ISO
	pages         []drawing.Scene
	marks         []mark
	lost          []rune
	plates        []*plate // the pictures on its pages
}

// finish makes scenes of pages, with what stands on each of them: number and
// count are those of the page, from 1.
func (d *document) finish(pages []folio, furniture func(number, count int) []drawing.Item) {
	for i, p := range pages {
		items := append(p.items, furniture(i+1, len(pages))...)
		d.pages = append(d.pages, drawing.Scene{Width: d.sheet.width, Height: d.sheet.height, Items: items})
	}
}

// creator is the program, as papers name it.
func creator() string { return strings.TrimSpace(buildinfo.Name + " " + buildinfo.Version) }
