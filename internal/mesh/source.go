package mesh

import (
	"context"
	"errors"
	"fmt"
	"io"

	"meltwright/internal/fault"
)

// input is a file being read.
type input struct {
	src   io.ReaderAt
	size  int64
	name  string
	meter *meter
	// beside opens a file of the same folder; nil where there is no folder.
	beside func(name string) (file io.ReaderAt, size int64, shut func(), err error)
}

// fault is an error about this file: problem is a clause, remedy one too.
func (in *input) fault(problem, remedy string) fault.Fault {
	return fault.Fault{Where: "scan", Field: "Scan file " + in.name, Problem: problem, Remedy: remedy}
}

// section reads the n bytes from at on, as far as the file has them, counting
// them on the meter.
func (in *input) section(at, n int64) io.Reader {
	at = min(max(at, 0), in.size)
	return &metered{io.NewSectionReader(in.src, at, min(max(n, 0), in.size-at)), in.meter}
}

// all reads the whole file; text in UTF-16 comes as plain bytes.
func (in *input) all() io.Reader {
	var mark [2]byte
	n, _ := in.src.ReadAt(mark[:], 0)
	r := in.section(0, in.size)
	switch {
	case n == 2 && mark == [2]byte{0xfe, 0xff}:
		return &narrow{wide: r, high: 0}
	case n == 2 && mark == [2]byte{0xff, 0xfe}:
		return &narrow{wide: r, high: 1}
	}
	return r
}

// A metered reader counts what it gives, and stops when the meter says so.
type metered struct {
	in    io.Reader
	meter *meter
}

func (r *metered) Read(p []byte) (int, error) {
	n, err := r.in.Read(p)
	if stop := r.meter.add(n); stop != nil {
		return 0, stop
	}
	return n, err
}

// A narrow reader turns UTF-16 into one byte a character, which is enough for
// formats whose words are ASCII; any other character becomes a question mark.
type narrow struct {
	wide io.Reader
	high int // which byte of a pair is the upper one
}

func (r *narrow) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	pair := make([]byte, 2*len(p))
	n, err := io.ReadAtLeast(r.wide, pair, 2)
	if errors.Is(err, io.ErrUnexpectedEOF) {
		err = io.EOF // half a character is none
	}
	if n%2 == 1 { // a reader may stop within a pair; take the rest of it
		if _, more := io.ReadFull(r.wide, pair[n:n+1]); more == nil {
			n++
		}
	}
	for i := range n / 2 {
		c := uint16(pair[2*i+1-r.high]) | uint16(pair[2*i+r.high])<<8
		switch {
		case c < 0x80:
			p[i] = byte(c)
		case c == 0xfeff: // the mark at the beginning
			p[i] = ' '
		default:
			p[i] = '?'
		}
	}
	return n / 2, err
}

// excuse tells a failure to read apart from the end of the file and from
// being asked to stop, and puts it in a sentence.
func (in *input) excuse(err error) error {
	switch {
	case err == nil, errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return nil
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.As(err, new(fault.Fault)):
		return err
	}
	return in.fault(fmt.Sprintf("could not be read to its end (%v)", err), "copy it to this computer and open it from there")
}
