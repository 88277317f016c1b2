// Package estimate turns a commission and a shop book into an estimate: the
// quantities and the cost of every stage of a bronze, line by line, each with
// its working, and the price.
//
// It is pure: the same commission and the same shop book give the same estimate.
// The stages are one table, Stages; each has a file of its own, which holds its
// inputs, its lines and its cautions. Adding a stage is one file and one row.
package estimate

import (
	"maps"
	"slices"

	"meltwright/internal/mesh"
)

// Commission is what is to be made, as typed: every input is text, kept as it
// was entered, right or wrong, under the path of its field ("form.wall").
// An input that is not there has the value that the stage proposes.
type Commission struct {
	Title    string            `json:"title"`
	Client   string            `json:"client,omitempty"`
	Place    string            `json:"place,omitempty"`
	Currency string            `json:"currency,omitempty"` // ISO 4217; empty is the shop book's
	Units    string            `json:"units,omitempty"`    // "metric" or "inch-pound"; empty is the shop book's
	Inputs   map[string]string `json:"inputs,omitempty"`   // of the whole commission
	Pieces   []Piece           `json:"pieces"`
	Extras   []Extra           `json:"extras,omitempty"`
	Options  []Option          `json:"options,omitempty"`
	Ranges   map[string]string `json:"ranges,omitempty"` // how sure: "hours.metalwork": "0.9 / 1 / 1.5"
}

// Option is another way to make the same commission: at another height, or with
// other inputs. What it does not say is the commission's own.
type Option struct {
	Name        string              `json:"name,omitempty"`
	Height      string              `json:"height,omitempty"` // of the first piece; the others scale along unless they stay
	Inputs      map[string]string   `json:"inputs,omitempty"` // of the whole commission
	Pieces      []map[string]string `json:"pieces,omitempty"` // of each piece, by its place
	Recommended bool                `json:"recommended,omitempty"`
	Why         string              `json:"why,omitempty"` // the sentence that goes with a recommendation
}

// Clone gives a copy that shares nothing with o.
func (o Option) Clone() Option {
	o.Inputs = maps.Clone(o.Inputs)
	pieces := make([]map[string]string, len(o.Pieces))
	for i, p := range o.Pieces {
		pieces[i] = maps.Clone(p)
	}
	o.Pieces = pieces
	return o
}

// Piece is one sculpture of the commission: a figure, its dog, a bench.
type Piece struct {
	Name   string            `json:"name"`
	Inputs map[string]string `json:"inputs,omitempty"`
	Scan   *mesh.Scan        `json:"scan,omitempty"` // where the form is a scan: as measured; never changed in place
	// ScanFile names a scan that is yet to be opened, in files that people write.
	ScanFile *ScanFile           `json:"scan_file,omitempty"`
	Solids   []map[string]string `json:"solids,omitempty"` // where the form is solids: shape, count, ends and sizes
	Ranges   map[string]string   `json:"ranges,omitempty"` // how sure: "area": "0.95 / 1 / 1.1"
}

// Extra is a line of the user's own, in the stage it belongs to.
type Extra struct {
	Stage    string `json:"stage"`
	Item     string `json:"item"`
	Quantity string `json:"quantity"`
	Unit     string `json:"unit,omitempty"`
	Rate     string `json:"rate"`
}

// Clone gives a copy that shares nothing with c.
func (c Commission) Clone() Commission {
	c.Inputs, c.Ranges = maps.Clone(c.Inputs), maps.Clone(c.Ranges)
	c.Extras = slices.Clone(c.Extras)
	options := make([]Option, len(c.Options))
	for i, o := range c.Options {
		options[i] = o.Clone()
	}
	if c.Options != nil {
		c.Options = options
	}
	pieces := make([]Piece, len(c.Pieces))
	for i, p := range c.Pieces {
		pieces[i] = p.Clone()
	}
	c.Pieces = pieces
	return c
}

// Clone gives a copy that shares nothing with p.
func (p Piece) Clone() Piece {
	p.Inputs, p.Ranges = maps.Clone(p.Inputs), maps.Clone(p.Ranges)
	solids := make([]map[string]string, len(p.Solids))
	for i, s := range p.Solids {
		solids[i] = maps.Clone(s)
	}
	if p.Solids != nil {
		p.Solids = solids
	}
	return p
}

// With gives a copy of c with one input set: of piece number piece, or of the
// whole commission where piece is Whole. Empty text takes the input away, so
// that it has its proposed value again.
func (c Commission) With(piece int, path, text string) Commission {
	d := c.Clone()
	in := &d.Inputs
	if piece != Whole {
		in = &d.Pieces[piece].Inputs
	}
	if text == "" {
		delete(*in, path)
		return d
	}
	if *in == nil {
		*in = map[string]string{}
	}
	(*in)[path] = text
	return d
}

// WithRange gives a copy of c with the range of one uncertain input set, of a
// piece or of the whole commission; empty text takes it away.
func (c Commission) WithRange(piece int, key, text string) Commission {
	d := c.Clone()
	in := &d.Ranges
	if piece != Whole {
		in = &d.Pieces[piece].Ranges
	}
	if text == "" {
		delete(*in, key)
		return d
	}
	if *in == nil {
		*in = map[string]string{}
	}
	(*in)[key] = text
	return d
}

// Whole is the piece number of what belongs to the whole commission.
const Whole = -1
