package parcel

import (
	"bytes"
	"io"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/shop"
)

// Contents are what a parcel holds.
type Contents struct {
	From       string // the sender's shop, as on its papers
	Number     string // of the quote at the sender's: "2026-014"
	Letter     string // the revision: "A"
	Commission estimate.Commission
	Words      map[string]string // written for the papers, by part
	Book       *shop.Book        // the sender's shop book; nil unless it was asked to send it
	Attached   []Attachment
	LeftOut    []string // a sentence for each sort of thing that the sender kept back
	Notes      []string // what reading passed over, a sentence each
}

// Kind says what an attachment is.
type Kind string

// The kinds of attachment.
const (
	Picture Kind = "picture" // PNG or JPEG
	Scan    Kind = "scan"    // a scan file, in any format
)

// Attachment is a file that goes with a quote.
type Attachment struct {
	Kind Kind
	Name string // of the file, without folders
	Size int64  // in bytes; 0 where it is not known yet

	Caption string // of a picture
	Cover   bool   // a picture that is its proposal's cover
	SHA256  string // in hexadecimal; empty where it is not known yet

	// Open gives what is in the file, from its beginning. That of a parcel read
	// needs the parcel to be still there, and gives a fault.Fault if it has changed.
	Open func() (io.ReadCloser, error)
}

// Attach is an attachment whose file is in memory.
func Attach(kind Kind, name string, data []byte) Attachment {
	return Attachment{Kind: kind, Name: name, Size: int64(len(data)), Open: func() (io.ReadCloser, error) {
		return io.NopCloser(bytes.NewReader(data)), nil
	}}
}

// Options say what of the sender's goes along.
type Options struct {
	WithBook    bool // the shop book: rates, materials, capacities
	WithMargins bool // the inputs of the price, and every rate and sum that was typed
}

// The kinds of part besides the attachments.
const (
	commissionPart Kind = "commission"
	wordsPart      Kind = "words"
	bookPart       Kind = "book"
)

// manifest is what lies in a parcel beside its parts.
type manifest struct {
	From    string   `json:"from,omitempty"`
	Number  string   `json:"number,omitempty"`
	Letter  string   `json:"letter,omitempty"`
	LeftOut []string `json:"left_out,omitempty"`
	Parts   []part   `json:"parts"`
}

// part is one part of a parcel, as the manifest has it.
type part struct {
	Kind   Kind   `json:"kind"`
	Name   string `json:"name,omitempty"` // the file's own, of an attachment
	Entry  string `json:"entry"`          // in the archive
	Size   int64  `json:"size"`
	SHA256 string `json:"sha256"`

	Caption string `json:"caption,omitempty"` // of a picture
	Cover   bool   `json:"cover,omitempty"`
}

// most is how large a part of that kind may be.
func (k Kind) most() int64 {
	switch k {
	case Picture:
		return mostPicture
	case Scan:
		return mostScan
	}
	return mostJSON
}

func (k Kind) known() bool { return k.attached() || k.written() }

func (k Kind) attached() bool { return k == Picture || k == Scan }

// written tells of the parts that are JSON, of which there is one of each.
func (k Kind) written() bool { return k == commissionPart || k == wordsPart || k == bookPart }

// called is how a part is spoken of: "Parcel, its picture “front.png”".
func (p part) called() string {
	switch {
	case p.Kind == bookPart:
		return "Parcel, its shop book"
	case p.Kind.attached():
		return "Parcel, its " + string(p.Kind) + " “" + p.Name + "”"
	}
	return "Parcel, its " + string(p.Kind)
}

const askAgain = "ask for the parcel again"

// damaged is the fault of a part that is not what was sent.
func (p part) damaged(problem string) fault.Fault {
	return fault.Fault{Where: p.Entry, Field: p.called(), Problem: problem, Remedy: askAgain}
}

// wrong is the fault of a parcel as a whole.
func wrong(problem, remedy string) fault.Fault {
	return fault.Fault{Field: "Parcel", Problem: problem, Remedy: remedy}
}
