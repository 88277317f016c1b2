package proposal

import (
	"bytes"
	"hash/fnv"
	"strings"
	"time"

	"github.com/jung-kurt/gofpdf"

	"meltwright/internal/drawing"
)

// font is one of the faces as the PDF knows it.
type font struct {
	family string // inside the library
	name   string // of the font itself, in the document
}

// fontNames are the PostScript names of the faces' fonts.
var fontNames = map[drawing.Face]string{
	drawing.Sans: "NotoSans-Regular", drawing.SansSemiBold: "NotoSans-SemiBold", drawing.SansBold: "NotoSans-Bold", drawing.SansItalic: "NotoSans-Italic",
	drawing.Serif: "SourceSerif4-Regular", drawing.SerifBold: "SourceSerif4-SemiBold", drawing.SerifItalic: "SourceSerif4-Italic",
}

// fontOf gives the font of a face. The library writes "utf8" before the family
// and no mark of a subset; the family is as long as makes room for that mark in
// the finished document without moving anything.
func fontOf(f drawing.Face) font {
	name, ok := fontNames[f]
	if !ok {
		name = fontNames[drawing.Sans]
	}
	return font{family: strings.ToLower(name) + "000", name: name}
}

// pdf writes the document. The fonts are embedded, with no more of them than is
// used, and the same document gives the same bytes.
func (d *document) pdf(out *bytes.Buffer) error {
	if err := inParallel(len(d.plates), func(i int) error { return d.plates[i].press() }); err != nil {
		return err
	}
	pdf := d.open()
	used := d.addFonts(pdf)
	k := ink{pdf, d.plates}
	for i, page := range d.pages {
		pdf.AddPage()
		pdf.SetFont(fontOf(drawing.Sans).family, "", 10) // bookmarks are Unicode only while such a font is set
		for _, m := range d.marks {
			if m.page == i {
				pdf.Bookmark(basic(m.words), m.level, m.y)
			}
		}
		page.Draw(k, drawing.Light())
	}
	var raw bytes.Buffer
	if err := pdf.Output(&raw); err != nil {
		return err
	}
	finished, err := d.archive(nameSubsets(raw.Bytes(), used))
	if err != nil {
		return err
	}
	_, err = out.Write(finished)
	return err
}

// open begins an empty PDF with the document's particulars.
func (d *document) open() *gofpdf.Fpdf {
	pdf := gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "pt", Size: gofpdf.SizeType{Wd: d.sheet.width, Ht: d.sheet.height}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(d.dated())
	pdf.SetModificationDate(d.dated())
	title, author := d.particulars()
	pdf.SetTitle(title, true)
	pdf.SetAuthor(author, true)
	pdf.SetCreator(creator(), true)
	pdf.SetProducer(creator(), true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	return pdf
}

// dated is the day of the document, or where it has none some day that stands
// still.
func (d *document) dated() time.Time {
	if t, ok := day(d.date); ok {
		return t
	}
	return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
}

// addFonts puts the fonts that the pages use into the PDF.
func (d *document) addFonts(pdf *gofpdf.Fpdf) []drawing.Face {
	seen := map[drawing.Face]bool{drawing.Sans: true}
	for _, p := range d.pages {
		for _, t := range p.Texts() {
			seen[t.Face] = true
		}
	}
	var used []drawing.Face
	for f := range drawing.Face(len(fontNames)) {
		if seen[f] {
			// The library writes into the bytes it is given.
			pdf.AddUTF8FontFromBytes(fontOf(f).family, "", bytes.Clone(f.TTF()))
			used = append(used, f)
		}
	}
	return used
}

// nameSubsets gives embedded fonts their own names, with the mark of six capitals
// that PDF asks of a subset (ISO 32000-1, 9.6.4). The new names are as long as
// the old ones.
func nameSubsets(pdf []byte, used []drawing.Face) []byte {
	h := fnv.New32a()
	h.Write(pdf)
	n := h.Sum32()
	for _, face := range used {
		f := fontOf(face)
		tag := make([]byte, 6)
		for i, v := 0, n; i < len(tag); i, v = i+1, v/26 {
			tag[i] = byte('A' + v%26)
		}
		n = n*31 + 7
		pdf = bytes.ReplaceAll(pdf, []byte("utf8"+f.family), []byte(string(tag)+"+"+f.name))
	}
	return pdf
}
