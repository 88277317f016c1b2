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

// commissionFile is a commission with the mark of its file.
type commissionFile struct {
	Meltwright string `json:"meltwright"`
	About      string `json:"about,omitempty"`
	estimate.Commission
}

// EncodeCommission writes a commission as a file that scripts can make and
// change: JSON, every input as the text somebody would type.
func EncodeCommission(w io.Writer, c estimate.Commission) error {
	return encode(w, commissionFile{Meltwright: fileMark, Commission: c})
}

func encode(w io.Writer, f commissionFile) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(f)
}

// DecodeCommission reads a commission file. What is wrong with the file comes
// back as a fault; what is wrong with its inputs is the estimate's to say.
func DecodeCommission(r io.Reader) (estimate.Commission, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostFile+1))
	if err != nil {
		return estimate.Commission{}, fault.Fault{Field: "Commission file", Problem: "cannot be read: " + err.Error()}
	}
	if len(data) > mostFile {
		return estimate.Commission{}, fault.Fault{Field: "Commission file", Problem: "is larger than 64 MB", Remedy: "give a commission file"}
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	var f commissionFile
	if err := d.Decode(&f); err != nil {
		return estimate.Commission{}, notJSON(err, data)
	}
	if f.Meltwright != fileMark {
		return estimate.Commission{}, fault.Fault{Where: "meltwright", Field: "Commission file, “meltwright”", Value: f.Meltwright, Problem: "is not the mark of a commission file of this version", Remedy: "it should read “" + fileMark + "”"}
	}
	return f.Commission, nil
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

// Example is a commission file with every input of every stage explained beside
// it, in keys that begin with two strokes and are passed over when read.
func Example(w io.Writer) error {
	c := weirKeeper()
	f := commissionFile{
		Meltwright: fileMark,
		About:      "Every input is text, as you would type it, with any unit. Lines whose key begins with // explain the input that follows; they may be left out. An input that is left out has its starting value.",
		Commission: c,
	}
	f.Inputs = explained(c.Inputs, false)
	for i, p := range c.Pieces {
		if i == 0 {
			f.Pieces[i].Inputs = explained(p.Inputs, true)
		}
	}
	return encode(w, f)
}

// explained adds to inputs an explanation of every field there is.
func explained(inputs map[string]string, perPiece bool) map[string]string {
	out := map[string]string{}
	for k, v := range inputs {
		out[k] = v
	}
	for _, st := range estimate.Stages {
		for _, f := range st.Fields(perPiece) {
			out["//"+f.Path()] = f.Explain()
		}
	}
	return out
}
