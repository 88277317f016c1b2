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
// its inputs is the estimate's to say: where the file is JSON, the commission comes
// beside the faults.
func DecodeCommission(r io.Reader) (c estimate.Commission, words map[string]string, err error) {
	data, err := io.ReadAll(io.LimitReader(r, mostFile+1))
	if err != nil {
		return c, nil, fault.Fault{Field: "Commission file", Problem: "cannot be read: " + err.Error()}
	}
	if len(data) > mostFile {
		return c, nil, fault.Fault{Field: "Commission file", Problem: "is larger than 64 MB", Remedy: "give a commission file"}
	}
	data = bytes.TrimPrefix(data, []byte("\uFEFF")) // some editors begin a text with it
	var f commissionFile
	faults, err := checkJSON(data, f)
	if err != nil {
		return c, nil, err
	}
	if err := json.NewDecoder(bytes.NewReader(data)).Decode(&f); err != nil && len(faults) == 0 {
		return c, nil, notJSON(err, data)
	}
	if f.Meltwright != fileMark {
		faults = append(faults, fault.Fault{Where: "meltwright", Field: "Commission file, “meltwright”", Value: f.Meltwright, Problem: "is not the mark of a commission file of this version", Remedy: "it should read “" + fileMark + "”"})
	}
	return f.Commission, f.Words, faults.Err()
}

// notJSON turns a decoder's error into a sentence with the line it is on.
func notJSON(err error, data []byte) fault.Fault {
	f := fault.Fault{Field: "Commission file", Problem: "is not a commission: " + strings.TrimPrefix(err.Error(), "json: "), Remedy: "compare it with what “meltwright-cli example” prints"}
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF):
		f.Problem = "ends too early"
	case errors.As(err, &syntax):
		f.Problem = "is not JSON: " + syntax.Error()
		f.Field += fmt.Sprintf(", line %d", 1+bytes.Count(data[:min(int(syntax.Offset), len(data))], []byte("\n")))
	}
	return f
}
