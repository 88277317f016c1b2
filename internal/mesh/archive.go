package mesh

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
)

// archived are the files packed in an archive.
type archived struct {
	list []packed
	cut  bool // the archive has lost its end, and with it its list of files
}

type packed struct {
	name string
	open func() (io.ReadCloser, error)
}

// find is the file of that name, or nil.
func (a archived) find(name string) *packed {
	name = strings.TrimPrefix(name, "/")
	for i, f := range a.list {
		if strings.EqualFold(strings.TrimPrefix(f.name, "/"), name) {
			return &a.list[i]
		}
	}
	return nil
}

// listArchive finds what is packed in a zip archive: by the list at its end,
// or if that is lost by what stands before each file.
func listArchive(in *input) (a archived, err error) {
	src := &meteredAt{in.src, in.meter}
	r, err := zip.NewReader(src, in.size)
	if err == nil {
		for _, f := range r.File {
			a.list = append(a.list, packed{f.Name, f.Open})
		}
		return a, nil
	}
	if stop := in.meter.ctx.Err(); stop != nil {
		return a, stop
	}
	a = salvage(in)
	if len(a.list) == 0 {
		return a, in.fault(fmt.Sprintf("begins like a 3MF, but its archive cannot be opened (%v)", err), "export or copy it again")
	}
	return a, nil
}

// What stands before each file of an archive (PKWARE APPNOTE 6.3, 4.3.7).
const (
	zipMark   = "PK\x03\x04"
	zipHead   = 30 // bytes before the name
	mostFiles = 1 << 12
	stored    = 0
	deflated  = 8
)

// salvage looks for files in an archive without a list of them.
func salvage(in *input) archived {
	a := archived{cut: true}
	src := &meteredAt{in.src, &meter{ctx: in.meter.ctx}}
	s := newStream(io.NewSectionReader(src, 0, in.size))
	for at := int64(0); len(a.list) < mostFiles; {
		b := s.ahead()
		i := bytes.Index(b, []byte(zipMark))
		if i < 0 && s.eof {
			break
		}
		var past int
		if i < 0 {
			past = len(b) - len(zipMark) + 1 // the mark may straddle the end
		} else {
			s.pos += i
			at += int64(i)
			if f, ok := packedAt(s.ahead(), in, at); ok { // with a whole header at hand
				a.list = append(a.list, f)
			}
			past = 1
		}
		s.pos += past
		at += int64(past)
	}
	return a
}

// packedAt is the file whose header b begins with, at that place of the
// archive.
func packedAt(b []byte, in *input, at int64) (f packed, ok bool) {
	if len(b) < zipHead {
		return f, false
	}
	method := binary.LittleEndian.Uint16(b[8:])
	packedSize := int64(binary.LittleEndian.Uint32(b[18:]))
	nameLength, extraLength := int(binary.LittleEndian.Uint16(b[26:])), int(binary.LittleEndian.Uint16(b[28:]))
	if len(b) < zipHead+nameLength || nameLength == 0 || method != stored && method != deflated {
		return f, false
	}
	f.name = string(b[zipHead : zipHead+nameLength])
	from := at + int64(zipHead+nameLength+extraLength)
	f.open = func() (io.ReadCloser, error) {
		if method == stored {
			return io.NopCloser(in.section(from, packedSize)), nil
		}
		return flate.NewReader(in.section(from, in.size)), nil // it knows its own end
	}
	return f, true
}

// A meteredAt reader counts what is read anywhere in the file.
type meteredAt struct {
	in    io.ReaderAt
	meter *meter
}

func (r *meteredAt) ReadAt(p []byte, at int64) (int, error) {
	n, err := r.in.ReadAt(p, at)
	if stop := r.meter.add(n); stop != nil {
		return 0, stop
	}
	return n, err
}
