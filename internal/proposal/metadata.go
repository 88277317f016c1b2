package proposal

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"encoding/xml"
	"fmt"
	"math"
	"strings"
)

// particulars are the title and the author as a document has them: neither is
// ever empty.
func (d *document) particulars() (title, author string) {
	clean := func(s string) string { return cmp.Or(strings.TrimSpace(basic(s)), creator()) }
	return clean(d.title), clean(d.author)
}

// metadata are the document's particulars once more, as XMP (ISO 16684-1), word
// for word what the document itself says of them.
func (d *document) metadata() []byte {
	title, author := d.particulars()
	escaped := func(s string) string {
		var b bytes.Buffer
		_ = xml.EscapeText(&b, []byte(s)) // a buffer takes everything
		return b.String()
	}
	date := d.dated().Format("2006-01-02T15:04:05Z")
	return fmt.Appendf(nil, `<?xpacket begin="%s" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"><pdfaid:part>1</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance></rdf:Description>
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:format>application/pdf</dc:format><dc:title><rdf:Alt><rdf:li xml:lang="x-default">%s</rdf:li></rdf:Alt></dc:title><dc:creator><rdf:Seq><rdf:li>%s</rdf:li></rdf:Seq></dc:creator></rdf:Description>
<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/"><xmp:CreatorTool>%s</xmp:CreatorTool><xmp:CreateDate>%s</xmp:CreateDate><xmp:ModifyDate>%s</xmp:ModifyDate></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"><pdf:Producer>%s</pdf:Producer></rdf:Description>
</rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>`, "\ufeff", escaped(title), escaped(author), escaped(creator()), date, date, escaped(creator()))
}

// screenName is the colour space that the papers' colours are in.
const screenName = "sRGB IEC61966-2.1"

// screenColours is a profile of that space (ICC.1:2001-04): the primaries adapted
// to the white of D50, and the curve of IEC 61966-2-1.
func screenColours() []byte {
	xyz := func(x, y, z float64) []byte {
		out := append([]byte("XYZ "), 0, 0, 0, 0)
		for _, v := range []float64{x, y, z} {
			out = binary.BigEndian.AppendUint32(out, uint32(math.Round(v*65536)))
		}
		return out
	}
	description := binary.BigEndian.AppendUint32(append([]byte("desc"), 0, 0, 0, 0), uint32(len(screenName)+1))
	description = append(append(description, screenName...), make([]byte, 1+4+4+2+1+67)...)
	tags := []struct {
		name string
		data []byte
	}{
		{"desc", description},
		{"cprt", append([]byte("text\x00\x00\x00\x00"), "Public domain\x00"...)},
		{"wtpt", xyz(0.9642, 1, 0.8249)},
		{"rXYZ", xyz(0.4360747, 0.2225045, 0.0139322)},
		{"gXYZ", xyz(0.3850649, 0.7168786, 0.0971045)},
		{"bXYZ", xyz(0.1430804, 0.0606169, 0.7141733)},
		{"rTRC", screenCurve()},
	}
	const head = 128
	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)+2))
	at := head + 4 + 12*(len(tags)+2)
	var data []byte
	entry := func(name string, from, size int) {
		table = append(table, name...)
		table = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(table, uint32(from)), uint32(size))
	}
	for _, t := range tags {
		entry(t.name, at+len(data), len(t.data))
		if t.name == "rTRC" { // the curve is that of all three
			entry("gTRC", at+len(data), len(t.data))
			entry("bTRC", at+len(data), len(t.data))
		}
		data = append(data, t.data...)
		data = append(data, make([]byte, (4-len(data)%4)%4)...)
	}
	return append(append(profileHead(at+len(data)), table...), data...)
}

// profileHead is the head of a profile of a screen's colours, of so many bytes.
func profileHead(size int) []byte {
	h := make([]byte, 128)
	binary.BigEndian.PutUint32(h, uint32(size))
	binary.BigEndian.PutUint32(h[8:], 0x02400000) // version 2.4
	copy(h[12:], "mntrRGB XYZ ")
	for i, v := range []uint16{2000, 1, 1, 0, 0, 0} {
		binary.BigEndian.PutUint16(h[24+2*i:], v)
	}
	copy(h[36:], "acsp")
	for i, v := range []float64{0.9642, 1, 0.8249} {
		binary.BigEndian.PutUint32(h[68+4*i:], uint32(math.Round(v*65536)))
	}
	return h
}

// screenCurve is the light of each value of a channel.
func screenCurve() []byte {
	const points = 1024
	out := binary.BigEndian.AppendUint32(append([]byte("curv"), 0, 0, 0, 0), points)
	for i := range points {
		v := float64(i) / (points - 1)
		light := v / 12.92
		if v > 0.04045 {
			light = math.Pow((v+0.055)/1.055, 2.4)
		}
		out = binary.BigEndian.AppendUint16(out, uint16(math.Round(light*65535)))
	}
	return out
}
