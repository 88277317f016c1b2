package parcel

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // pictures are PNG or JPEG
	_ "image/png"
	"io"
	"maps"
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/mesh"
	"meltwright/internal/shop"
)

// reasonable tells of contents that no parcel holds, whichever way they go.
func reasonable(c *Contents) error {
	for _, check := range []func(*Contents) error{countsOf, textsOf, scansOf, attachedOf} {
		if err := check(c); err != nil {
			return err
		}
	}
	return nil
}

func countsOf(c *Contents) error {
	rows := 0
	for _, p := range c.Commission.Pieces {
		rows = max(rows, len(p.Solids))
	}
	if c.Book != nil {
		for _, t := range c.Book.Tables {
			rows = max(rows, len(t))
		}
	}
	for _, x := range []struct {
		what    string
		n, most int
	}{
		{"pieces", len(c.Commission.Pieces), mostPieces},
		{"options", len(c.Commission.Options), mostOptions},
		{"own lines", len(c.Commission.Extras), mostRows},
		{"rows of a table", rows, mostRows},
		{"attachments", len(c.Attached), mostEntries - 10},
		{"notes on what was left out", len(c.LeftOut), mostLeftOut},
	} {
		if x.n > x.most {
			return wrong(fmt.Sprintf("holds %d %s", x.n, x.what), fmt.Sprintf("there may be up to %d", x.most))
		}
	}
	return nil
}

// textsOf looks at the length of every text.
func textsOf(c *Contents) error {
	for _, text := range textsIn(c) {
		if len(text) > mostText {
			return wrong("holds a text of "+fmt.Sprint(len(text))+" bytes, “"+string([]rune(text[:60]))+"…”", fmt.Sprintf("a text may have up to %d", mostText))
		}
	}
	return nil
}

func textsIn(c *Contents) []string {
	k := c.Commission
	out := append([]string{c.From, c.Number, c.Letter, k.Title, k.Client, k.Place, k.Currency, k.Units}, c.LeftOut...)
	add := func(m map[string]string) {
		out = slices.AppendSeq(slices.AppendSeq(out, maps.Keys(m)), maps.Values(m))
	}
	add(c.Words)
	add(k.Inputs)
	add(k.Ranges)
	for _, p := range k.Pieces {
		out = append(out, p.Name)
		if p.Scan != nil {
			out = append(append(out, p.Scan.File, p.Scan.SHA256), p.Scan.Notes...)
		}
		for _, m := range append([]map[string]string{p.Inputs, p.Ranges}, p.Solids...) {
			add(m)
		}
	}
	for _, x := range k.Extras {
		out = append(out, x.Stage, x.Item, x.Quantity, x.Unit, x.Rate)
	}
	for _, o := range k.Options {
		out = append(out, o.Name, o.Height, o.Why)
		for _, m := range append([]map[string]string{o.Inputs}, o.Pieces...) {
			add(m)
		}
	}
	return append(out, bookTexts(c.Book)...)
}

func bookTexts(b *shop.Book) (out []string) {
	if b == nil {
		return nil
	}
	out = append(out, b.Shop, b.Address, b.Currency, b.Units, b.Dated)
	for key, s := range b.Settings {
		out = append(out, key, s.Text, s.Source, s.Dated)
	}
	for key, rows := range b.Tables {
		out = append(out, key)
		for _, r := range rows {
			out = slices.AppendSeq(slices.AppendSeq(out, maps.Keys(r)), maps.Values(r))
		}
	}
	return out
}

// scansOf looks at what was measured on scans: it is believed later on.
func scansOf(c *Contents) error {
	for _, p := range c.Commission.Pieces {
		if problem := scanProblem(p); problem != "" {
			return fault.Fault{Field: "Parcel, the scan of “" + p.Name + "”", Problem: problem, Remedy: "measure the scan again and send it anew"}
		}
	}
	return nil
}

func scanProblem(p estimate.Piece) string {
	s := p.Scan
	if s == nil {
		return ""
	}
	const largest = 1e4 // metres: no form is
	for _, side := range s.Box {
		if side < 0 || side > largest {
			return "is not of a size that a form has"
		}
	}
	sizes := []float64{s.Area, s.Volume, s.Profile.Area, s.Profile.Volume, s.Profile.Reach, s.Plan.Weld}
	for _, sec := range s.Plan.Sections {
		sizes = append(sizes, sec.Area, sec.Volume, sec.Weld)
	}
	if slices.Min(append(sizes, float64(s.Triangles), float64(s.Shells))) < 0 {
		return "has a measure below zero"
	}
	if len(s.Plan.Sections) > mostRows || len(s.Plan.Cuts) > mostRows {
		return "is cut into more sections than anybody casts"
	}
	return pictured(s)
}

func pictured(s *mesh.Scan) string {
	if len(s.Picture) == 0 {
		return ""
	}
	return pictureProblem(bytes.NewReader(s.Picture))
}

func attachedOf(c *Contents) error {
	for _, a := range c.Attached {
		if !a.Kind.attached() {
			return fault.Fault{Field: "Attachment", Value: a.Name, Problem: "is neither picture nor scan", Remedy: "say which it is"}
		}
		if problem := nameProblem(a.Kind, a.Name); problem != "" {
			return fault.Fault{Field: "Attachment", Value: printable(a.Name), Problem: problem, Remedy: "give it another name"}
		}
	}
	return nil
}

// pictureProblem says what is wrong with a picture, by its head: nothing is
// allocated for it.
func pictureProblem(r io.Reader) string {
	c, _, err := image.DecodeConfig(r)
	switch {
	case err != nil:
		return "is neither PNG nor JPEG"
	case c.Width <= 0 || c.Height <= 0 || float64(c.Width)*float64(c.Height) > mostPoints:
		return fmt.Sprintf("says it is %d × %d points large, more than any printed picture", c.Width, c.Height)
	}
	return ""
}
