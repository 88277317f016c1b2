package desk

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
)

// fileMark says what a commission file is, and in which version of the form.
const fileMark = "commission 1"

// mostFile is the largest commission file that is read.
const mostFile = 64 << 20

// commissionFile is a commission, and what was written for its papers, with the
// mark of its file.
type commissionFile struct {
	Meltwright string            `json:"meltwright"`
	About      string            `json:"about,omitempty"`     // passed over when read
	Explained  map[string]string `json:"explained,omitempty"` // what each key is, by its path; passed over when read
	estimate.Commission
	Words map[string]string `json:"words,omitempty"` // of the quote, by part
}

// EncodeCommission writes a commission, and the words of its quote, as a file
// that scripts can make and change: JSON, every input as the text somebody would
// type.
func EncodeCommission(w io.Writer, c estimate.Commission, words map[string]string) error {
	return encode(w, commissionFile{Meltwright: fileMark, Commission: c, Words: words})
}

func encode(w io.Writer, f commissionFile) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(f)
}

// DecodeCommission reads a commission file: the commission, and the words for its
// papers. What is wrong with the file comes back as a fault; what is wrong with
// its inputs is the estimate's to say.
func DecodeCommission(r io.Reader) (c estimate.Commission, words map[string]string, err error) {
	data, err := io.ReadAll(io.LimitReader(r, mostFile+1))
	if err != nil {
		return c, nil, fault.Fault{Field: "Commission file", Problem: "cannot be read: " + err.Error()}
	}
	if len(data) > mostFile {
		return c, nil, fault.Fault{Field: "Commission file", Problem: "is larger than 64 MB", Remedy: "give a commission file"}
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	var f commissionFile
	if err := d.Decode(&f); err != nil {
		return c, nil, notJSON(err, data)
	}
	if f.Meltwright != fileMark {
		return c, nil, fault.Fault{Where: "meltwright", Field: "Commission file, “meltwright”", Value: f.Meltwright, Problem: "is not the mark of a commission file of this version", Remedy: "it should read “" + fileMark + "”"}
	}
	return f.Commission, f.Words, nil
}

// notJSON turns a decoder's error into a sentence with the line it is on.
func notJSON(err error, data []byte) fault.Fault {
	f := fault.Fault{Field: "Commission file", Problem: strings.TrimPrefix(err.Error(), "json: "), Remedy: "compare it with what “meltwright-cli example” prints"}
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	at := int64(-1)
	switch {
	case errors.As(err, &syntax):
		at, f.Problem = syntax.Offset, "is not JSON: "+syntax.Error()
	case errors.As(err, &kind):
		at, f.Problem = kind.Offset, fmt.Sprintf("has a %s where %s wants text between quotes", kind.Value, kind.Field)
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF):
		f.Problem = "ends too early"
	}
	if at >= 0 {
		f.Field += fmt.Sprintf(", line %d", 1+bytes.Count(data[:min(int(at), len(data))], []byte("\n")))
	}
	return f
}
