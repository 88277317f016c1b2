package proposal

import (
	"bytes"
	"compress/zlib"
	"crypto/md5"
	"encoding/binary"
	"fmt"
	"io"
	"regexp"
	"strconv"
)

// archive makes the library's document one that archives take: PDF/A-1b (ISO
// 19005-1). It adds what the library leaves out: what colours mean, the
// particulars as metadata, which glyphs are in each font, how many bookmarks
// there are, the language, and a name for the file made from what is in it.
func (d *document) archive(raw []byte) ([]byte, error) {
	a, err := takeApart(raw)
	if err != nil {
		return nil, err
	}
	if err := a.countGlyphs(); err != nil {
		return nil, err
	}
	a.countBookmarks()
	a.objects[a.info] = moment.ReplaceAll(a.objects[a.info], []byte("Date (D:$1+00'00')"))
	metadata := a.add(stream("/Type /Metadata /Subtype /XML", d.metadata()))
	colours := a.add(compressed("/N 3", screenColours()))
	a.objects[a.root] = fmt.Appendf(nil, "%d 0 obj\n<<\n/Type /Catalog\n/Pages 1 0 R\n%s/Metadata %d 0 R\n"+
		"/OutputIntents [<</Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (%s) /Info (%s) /DestOutputProfile %d 0 R>>]\n"+
		"/Lang (%s)\n/ViewerPreferences <</DisplayDocTitle true>>\n>>\nendobj\n",
		a.root, outlinesOf(a.objects[a.root]), metadata, screenName, screenName, colours, d.tongue())
	return a.putTogether(), nil
}

// tongue is the language of the document's words (RFC 5646).
func (d *document) tongue() string {
	if d.language == "" {
		return "en"
	}
	return d.language
}

// parts are the objects of a document by their numbers, the first of which is 1.
type parts struct {
	objects    [][]byte // each with its number and its end; 0 is none
	root, info int
}

var (
	trailerAt = regexp.MustCompile(`/Root (\d+) 0 R\n/Info (\d+) 0 R`)
	outlines  = regexp.MustCompile(`(?m)^/Outlines \d+ 0 R\n/PageMode /UseOutlines\n`)
	cidFont   = regexp.MustCompile(`/Subtype /CIDFontType2[\s\S]*/FontDescriptor (\d+) 0 R[\s\S]*/CIDToGIDMap (\d+) 0 R`)
	fontFile  = regexp.MustCompile(`/FontFile2 \d+ 0 R>>`)
	moment    = regexp.MustCompile(`Date \(D:(\d{14})\)`)
	mapBytes  = regexp.MustCompile(`/Length (\d+)`)
)

// errLibrary is what is told where the library's document is not as it writes
// them.
var errLibrary = fmt.Errorf("the document has another form than is known")

// takeApart finds the objects of a document by its table of them (ISO 32000-1,
// 7.5.4).
func takeApart(raw []byte) (*parts, error) {
	at := bytes.LastIndex(raw, []byte("startxref\n"))
	if at < 0 {
		return nil, errLibrary
	}
	var table, first, count int
	if _, err := fmt.Sscanf(string(raw[at:]), "startxref\n%d", &table); err != nil || table < 0 || table >= len(raw) {
		return nil, errLibrary
	}
	if _, err := fmt.Sscanf(string(raw[table:min(table+64, len(raw))]), "xref\n%d %d", &first, &count); err != nil || first != 0 {
		return nil, errLibrary
	}
	a := &parts{objects: make([][]byte, count)}
	rows := raw[table+len("xref\n"):]
	rows = rows[bytes.IndexByte(rows, '\n')+1:]
	const row = 20
	for n := 1; n < count; n++ {
		if len(rows) < (n+1)*row {
			return nil, errLibrary
		}
		from, err := strconv.Atoi(string(rows[n*row : n*row+10]))
		if err != nil || from >= table {
			return nil, errLibrary
		}
		a.objects[n] = raw[from:] // cut below, once all are known
	}
	for n := 1; n < count; n++ {
		end := objectEnd(a.objects[n])
		if end < 0 {
			return nil, errLibrary
		}
		a.objects[n] = a.objects[n][:end:end]
	}
	m := trailerAt.FindSubmatch(raw[table:])
	if m == nil {
		return nil, errLibrary
	}
	a.root, a.info = number(m[1]), number(m[2])
	return a, nil
}

// objectEnd is where an object ends. What is in a stream may look like an end, so
// a stream is stepped over by its length.
func objectEnd(object []byte) int {
	const mark = "endobj\n"
	from := 0
	begin := bytes.Index(object, []byte("\nstream\n"))
	first := bytes.Index(object, []byte(mark))
	if begin >= 0 && begin < first {
		m := mapBytes.FindSubmatch(object[:begin])
		if m == nil {
			return -1
		}
		if from = begin + len("\nstream\n") + number(m[1]); from > len(object) {
			return -1
		}
	}
	end := bytes.Index(object[from:], []byte(mark))
	if end < 0 {
		return -1
	}
	return from + end + len(mark)
}

func number(digits []byte) int {
	n, err := strconv.Atoi(string(digits))
	if err != nil {
		return 0
	}
	return n
}

// add puts an object behind the others and gives its number.
func (a *parts) add(body []byte) int {
	n := len(a.objects)
	object := fmt.Appendf(nil, "%d 0 obj\n", n)
	a.objects = append(a.objects, append(append(object, body...), "\nendobj\n"...))
	return n
}

// stream is the body of an object that holds data.
func stream(dictionary string, data []byte) []byte {
	out := fmt.Appendf(nil, "<<%s /Length %d>>\nstream\n", dictionary, len(data))
	return append(append(out, data...), "\nendstream"...)
}

func compressed(dictionary string, data []byte) []byte {
	var b bytes.Buffer
	w := zlib.NewWriter(&b)
	_, _ = w.Write(data) // a buffer takes everything
	_ = w.Close()
	return stream(dictionary+" /Filter /FlateDecode", b.Bytes())
}

// countGlyphs lists the glyphs that each font holds, as a bit for every character
// that leads to one (ISO 32000-1, table 124).
func (a *parts) countGlyphs() error {
	for n := 1; n < len(a.objects); n++ {
		m := cidFont.FindSubmatch(a.objects[n])
		if m == nil || bytes.Contains(a.objects[n], []byte("\nstream\n")) {
			continue
		}
		descriptor, glyphs := number(m[1]), number(m[2])
		if descriptor >= len(a.objects) || glyphs >= len(a.objects) {
			return errLibrary
		}
		table, err := inflated(a.objects[glyphs])
		if err != nil {
			return err
		}
		set := make([]byte, 1<<13)
		set[0] = 0x80 // the glyph of what is missing
		for c := 0; 2*c+1 < len(table) && c < 1<<16; c++ {
			if binary.BigEndian.Uint16(table[2*c:]) != 0 {
				set[c/8] |= 0x80 >> (c % 8)
			}
		}
		at := a.add(compressed("", set))
		a.objects[descriptor] = fontFile.ReplaceAllFunc(a.objects[descriptor], func(file []byte) []byte {
			return fmt.Appendf(nil, "%s/CIDSet %d 0 R>>", bytes.TrimSuffix(file, []byte(">>")), at)
		})
	}
	return nil
}

// inflated is the data of an object that is a compressed stream.
func inflated(object []byte) ([]byte, error) {
	begin := bytes.Index(object, []byte("stream\n"))
	if begin < 0 {
		return nil, errLibrary
	}
	r, err := zlib.NewReader(bytes.NewReader(object[begin+len("stream\n"):]))
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return io.ReadAll(io.LimitReader(r, 1<<18))
}

// countBookmarks says how many bookmarks stand open at the top.
func (a *parts) countBookmarks() {
	open := 0
	root := 0
	for n := 1; n < len(a.objects); n++ {
		if bytes.Contains(a.objects[n], []byte("<</Type /Outlines")) {
			root = n
		}
	}
	if root == 0 {
		return
	}
	parent := fmt.Appendf(nil, "/Parent %d 0 R", root)
	for n := 1; n < len(a.objects); n++ {
		if bytes.Contains(a.objects[n], parent) {
			open++
		}
	}
	a.objects[root] = bytes.Replace(a.objects[root], []byte("<</Type /Outlines"), fmt.Appendf(nil, "<</Type /Outlines /Count %d", open), 1)
}

// outlinesOf is what a catalogue says of bookmarks; nothing where there are none.
func outlinesOf(catalogue []byte) []byte { return outlines.Find(catalogue) }

// putTogether writes the document anew, with a table of where its objects are and
// a name made from them all.
func (a *parts) putTogether() []byte {
	size := 0
	for _, o := range a.objects {
		size += len(o) + 20
	}
	out := append(make([]byte, 0, size+512), "%PDF-1.4\n%\xe2\xe3\xcf\xd3\n"...)
	at := make([]int, len(a.objects))
	for n := 1; n < len(a.objects); n++ {
		at[n] = len(out)
		out = append(out, a.objects[n]...)
	}
	name := md5.Sum(out) // names the file, guards nothing
	table := len(out)
	out = fmt.Appendf(out, "xref\n0 %d\n0000000000 65535 f \n", len(a.objects))
	for n := 1; n < len(a.objects); n++ {
		out = fmt.Appendf(out, "%010d 00000 n \n", at[n])
	}
	return fmt.Appendf(out, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n/ID [<%x> <%x>]\n>>\nstartxref\n%d\n%%%%EOF\n", len(a.objects), a.root, a.info, name, name, table)
}
