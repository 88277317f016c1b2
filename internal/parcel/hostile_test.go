package parcel

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
)

func TestTheForgeryItselfIsSound(t *testing.T) {
	assert.Len(t, unpacked(t, sound(t).bytes(t)).Attached, 3)
	assert.Len(t, unpacked(t, sound(t).raw(t, func(*zip.FileHeader) {})).Attached, 3)
}

func TestWhatIsNoParcelIsSaidToBeNone(t *testing.T) {
	assert.Contains(t, refusal(t, nil), "is no parcel; choose a file that ends in .meltparcel")
	assert.Contains(t, refusal(t, []byte("Dear town, this is a letter.")), "is no parcel")
	assert.Contains(t, refusal(t, forged{{name: "word/document.xml"}}.bytes(t)), "is an archive, but no parcel")
	assert.Contains(t, refusal(t, forged{{name: markEntry, data: []byte("recipe 3")}}.bytes(t)), "is an archive, but no parcel")
	assert.Contains(t, refusal(t, forged{{name: markEntry, data: []byte("parcel 0")}}.bytes(t)), "no parcel")
	assert.Contains(t, refusal(t, forged{{name: markEntry, data: []byte("parcel -1")}}.bytes(t)), "no parcel")
	assert.Contains(t, refusal(t, forged{}.bytes(t)), "is no parcel")
	f := sound(t)
	f[0], f[1] = f[1], f[0]
	assert.Contains(t, refusal(t, f.bytes(t)), "no parcel", "the mark comes first")
}

func TestANewerParcelIsRefusedWithWhatToDo(t *testing.T) {
	for _, version := range []string{"2", "17", "99999999999999999999999"} {
		got := refusal(t, forged{{name: markEntry, data: []byte("parcel " + version + "\n")}}.bytes(t))
		assert.Contains(t, got, "is of version "+version+", newer than this program")
		assert.Contains(t, got, "bring this program up to date, or ask for a parcel written by an older one")
	}
	f := sound(t)
	f[0].data = []byte("parcel 2\n")
	assert.Contains(t, refusal(t, append(f, entry{name: "folder/of a later version"}).bytes(t)), "newer", "its rules may be others")
}

func TestNoPathLeavesTheParcel(t *testing.T) {
	for _, name := range []string{"../../somebody/.profile", "/etc/passwd", `..\..\startup.exe`, "C:evil.png", "a/b.png", "..", "NUL", "com7.png", "two\nlines", "invoice\u202egnp.exe", strings.Repeat("long", 99), " .png", "dir/"} {
		f := append(sound(t), entry{name: name})
		assert.Contains(t, refusal(t, f.bytes(t)), "which is no plain name of a file", "%q as an entry", name)
		f = sound(t).listed(t, func(m *manifest) { m.Parts[len(m.Parts)-1].Name = name })
		assert.Contains(t, refusal(t, f.bytes(t)), "which has a name that is no plain name of a file", "%q as the name of a scan", name)
		c := ferryman(t)
		c.Attached[2].Name = name
		assert.Error(t, Write(io.Discard, c, everything), "%q is not sent either", name)
	}
	for name, kind := range map[string]Kind{"form.exe": Scan, "form.stl.bat": Scan, "form": Scan, "front.svg": Picture, "front.stl": Picture} {
		f := sound(t).listed(t, func(m *manifest) { m.Parts[3].Name, m.Parts[3].Kind = name, kind })
		assert.Contains(t, refusal(t, f.bytes(t)), "“"+name+"”, which does not end in .", name)
		err := Write(io.Discard, Contents{Attached: []Attachment{Attach(kind, name, nil)}}, Options{})
		require.Error(t, err)
		assert.Contains(t, err.Error(), "as a "+string(kind)+" does; give it another name")
	}
	link := sound(t).raw(t, func(h *zip.FileHeader) {
		if h.Name == "scan-1" {
			h.SetMode(0o777 | 1<<27) // a symbolic link
		}
	})
	assert.Contains(t, refusal(t, link), "no plain name of a file")
}

// A bomb of the usual sort: much of nothing, packed small.
func TestABombIsRefused(t *testing.T) {
	f := sound(t).with(t, "scan-1", make([]byte, 20<<20))
	assert.Contains(t, refusal(t, f.bytes(t)), "which is made to fill the disk")
	f = sound(t).with(t, "commission.json", append(slices.Clone(sound(t)[1].data), bytes.Repeat([]byte(" "), mostJSON)...))
	assert.Contains(t, refusal(t, f.bytes(t)), "Parcel, its commission is larger than any")
	f = sound(t)
	f[f.at(manifestEntry)].data = bytes.Repeat([]byte(" "), mostManifest+1)
	assert.Contains(t, refusal(t, f.bytes(t)), "its manifest is larger than any")

	c := ferryman(t)
	c.Attached = []Attachment{Attach(Scan, "nothing.stl", make([]byte, 20<<20))}
	err := Write(io.Discard, c, everything)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "its scan “nothing.stl” is almost nothing but the same few signs")
}

// A bomb that lies about its size: the head says little, and much comes out.
func TestSizesAreCountedAndNotBelieved(t *testing.T) {
	for _, claim := range []uint64{0, 10, 1 << 20, 1 << 62} {
		data := sound(t).raw(t, func(h *zip.FileHeader) {
			if h.Name == "scan-1" {
				h.UncompressedSize64 = claim
			}
		})
		refusal(t, data)
	}
	f := sound(t).listed(t, func(m *manifest) { m.Parts[0].Size = -1 })
	assert.Contains(t, refusal(t, f.bytes(t)), "its commission is larger than any")
	f = sound(t).listed(t, func(m *manifest) { m.Parts[0].Size++ })
	assert.Contains(t, refusal(t, f.bytes(t)), "its commission is not as large as it says")
	f = sound(t).listed(t, func(m *manifest) { m.Parts[len(m.Parts)-1].Size = 77 })
	f[f.at("scan-1")].data = deflated(t, f[f.at("scan-1")].data)
	both := f.raw(t, func(h *zip.FileHeader) {
		if h.Name == "scan-1" {
			h.Method, h.UncompressedSize64 = zip.Deflate, 77
		}
	})
	assert.Contains(t, refusal(t, both), "its scan “ferryman.stl” was damaged on the way (zip: ")

	endless := &sealed{r: io.NopCloser(bytes.NewReader(make([]byte, 99))), part: part{Kind: Scan, Name: "long.stl"}, left: 77, sum: sha256.New()}
	n, err := io.Copy(io.Discard, endless)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "its scan “long.stl” is larger than it says")
	assert.LessOrEqual(t, n, int64(77))
}

func TestPartsThatLieOverOneAnotherAreRefused(t *testing.T) {
	data := packed(t, ferryman(t), everything)
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	// The second picture's entry in the list of the archive is led to the first's.
	first, _ := z.File[slices.IndexFunc(z.File, func(f *zip.File) bool { return f.Name == "picture-1" })].DataOffset()
	start := first - int64(len("picture-1")) - 30
	at := bytes.LastIndex(data, []byte("picture-2")) - 4
	binary.LittleEndian.PutUint32(data[at:], uint32(start))
	assert.Contains(t, refusal(t, data), "has parts that lie over one another")
}

func TestAnArchiveOfAMillionFilesIsRefusedBeforeItFillsTheMemory(t *testing.T) {
	var many forged
	many = append(many, sound(t)...)
	for i := range mostEntries {
		many = append(many, entry{name: fmt.Sprint("x", i)})
	}
	assert.Contains(t, refusal(t, many.bytes(t)), "holds more files than any parcel")
	for i := range 60_000 {
		many = append(many, entry{name: fmt.Sprint("y", i)})
	}
	assert.Contains(t, refusal(t, many.bytes(t)), "holds more files than any parcel")
	f := sound(t).listed(t, func(m *manifest) {
		for range mostEntries {
			m.Parts = append(m.Parts, part{Kind: "hologram"})
		}
	})
	assert.Contains(t, refusal(t, f.bytes(t)), "holds more files than any parcel")
}

func TestAPartThatIsNotWhatWasSentIsNamed(t *testing.T) {
	f := sound(t)
	f[f.at("scan-1")].data = bytes.ToUpper(f[f.at("scan-1")].data)
	assert.Contains(t, refusal(t, f.bytes(t)), "its scan “ferryman.stl” was damaged or changed on the way: its checksum is another")
	f = sound(t).listed(t, func(m *manifest) { m.Parts[0].SHA256 = "" })
	assert.Contains(t, refusal(t, f.bytes(t)), "its commission was damaged or changed")
	f = slices.Delete(sound(t), 3, 4)
	assert.Contains(t, refusal(t, f.bytes(t)), "Parcel, its shop book is missing; ask for the parcel again")
	f = slices.Delete(sound(t), len(sound(t))-1, len(sound(t)))
	assert.Contains(t, refusal(t, f.bytes(t)), "its manifest is missing")
	f = sound(t).listed(t, func(m *manifest) { m.Parts = m.Parts[1:] })
	assert.Contains(t, refusal(t, f.bytes(t)), "its commission is missing")
	f = sound(t).listed(t, func(m *manifest) { m.Parts = append(m.Parts, m.Parts[0]) })
	assert.Contains(t, refusal(t, f.bytes(t)), "lists “commission.json” twice")
	f = append(sound(t), entry{name: "second"}).listed(t, func(m *manifest) { m.Parts = append(m.Parts, part{Kind: commissionPart, Entry: "second"}) })
	assert.Contains(t, refusal(t, f.bytes(t)), "its commission is there twice")
	f = append(sound(t), entry{name: "words.json"})
	assert.Contains(t, refusal(t, f.bytes(t)), "holds “words.json” twice")
	f = sound(t).listed(t, func(m *manifest) { m.Parts[0].Entry = manifestEntry })
	assert.Contains(t, refusal(t, f.bytes(t)), "lists “manifest.json” twice")
}

func TestALockedOrOddlyPackedParcelIsRefused(t *testing.T) {
	data := sound(t).raw(t, func(h *zip.FileHeader) { h.Flags |= 1 })
	assert.Contains(t, refusal(t, data), "is locked with a password; ask for it without one")
	data = sound(t).raw(t, func(h *zip.FileHeader) {
		if h.Name == "words.json" {
			h.Method = 95
		}
	})
	assert.Contains(t, refusal(t, data), "its words was damaged on the way (zip: unsupported compression algorithm)")
}

func TestWrongTypesGiveSentences(t *testing.T) {
	for _, x := range []struct{ entry, data, want string }{
		{"commission.json", `{"title": 7}`, "its commission has a number where text belongs, in “title”"},
		{"commission.json", `{"pieces": {"a": 1}}`, "has a group of values where a list belongs, in “pieces”"},
		{"commission.json", `{"pieces": [{"inputs": ["5 mm"]}]}`, "has a list where a group of values belongs, in “pieces.inputs”"},
		{"commission.json", `{"options": [{"recommended": "yes"}]}`, "has text where yes or no belongs"},
		{"commission.json", `[]`, "has a list where a group of values belongs"},
		{"commission.json", `"hello"`, "has text where a group of values belongs"},
		{"commission.json", ``, "is not the JSON it should be"},
		{"commission.json", `{"title": "x"`, "is not the JSON it should be"},
		{"commission.json", `{"title": "x"} {}`, "more follows after its end"},
		{"commission.json", `{"pieces": [{"scan": {"profile": {"within": "AAAA"}}}]}`, "the stored wall profile is damaged"},
		{"words.json", `{"idea": 3}`, "has a number where text belongs"},
		{"book.json", `{"settings": 3}`, "its shop book has a number where a group of values belongs, in “settings”"},
		{"book.json", `{"tables": {"alloys": [[1]]}}`, "has a list where a group of values belongs"},
		{"picture-1", "GIF89a and so on", "its picture “front view.png” is neither PNG nor JPEG"},
	} {
		got := refusal(t, sound(t).with(t, x.entry, []byte(x.data)).bytes(t))
		assert.Contains(t, got, x.want, x.data)
	}
	f := sound(t)
	f[f.at(manifestEntry)].data = []byte(`{"parts": [{"size": "large"}]}`)
	assert.Contains(t, refusal(t, f.bytes(t)), "its manifest has text where a number belongs, in “parts.size”")
}

func TestHugeNumbersDepthsAndCountsAreRefused(t *testing.T) {
	piece := `{"scan": {"box_m": [1, 1, 2]}}`
	for _, x := range []struct{ data, want string }{
		{`{"pieces": [{"scan": {"area_m2": 1e400}}]}`, "holds the number “1e400”, which is beyond anything that is cast"},
		{`{"pieces": [{"scan": {"area_m2": 1e13}}]}`, "beyond anything that is cast"},
		{`{"pieces": [{"scan": {"triangles": 99999999999999999999}}]}`, "beyond anything that is cast"},
		{`{"pieces": [{"scan": {"area_m2": 0.` + strings.Repeat("1", 1<<20) + `}}]}`, "beyond anything that is cast"},
		{`{"pieces": [{"scan": {"area_m2": -3}}]}`, "has a measure below zero"},
		{`{"pieces": [{"scan": {"box_m": [1, 1, 20000]}}]}`, "is not of a size that a form has"},
		{`{"pieces": [{"scan": {"picture": "R0lG"}}]}`, "is neither PNG nor JPEG"},
		{strings.Repeat("[", 100_000), "more deeply than any quote does"},
		{`{"extras": ` + strings.Repeat(`{"a":`, 100_000), "more deeply than any quote does"},
		{`{"pieces": [` + strings.Repeat("{},", 60_000) + "{}]}", "holds more single values than any quote does"},
		{`{"pieces": [` + strings.Repeat(piece+",", 600) + piece + "]}", "holds 601 pieces; there may be up to 500"},
		{`{"options": [` + strings.Repeat("{},", 200) + "{}]}", "holds 201 options"},
		{`{"title": "` + strings.Repeat("é", 60_000) + `"}`, "holds a text of 120000 bytes, “ééé"},
	} {
		got := refusal(t, sound(t).with(t, "commission.json", []byte(x.data)).bytes(t))
		assert.Contains(t, got, x.want, "%.60s", x.data)
		assert.Less(t, len(got), 400)
	}
}

// A PNG's first chunk is its width and height (ISO/IEC 15948, 11.2.2).
func TestAPictureThatSaysItIsHugeIsRefused(t *testing.T) {
	bomb := drawn(t, "png")
	binary.BigEndian.PutUint32(bomb[16:], 60_000)
	binary.BigEndian.PutUint32(bomb[20:], 60_000)
	binary.BigEndian.PutUint32(bomb[29:], crc32.ChecksumIEEE(bomb[12:29]))
	assert.Contains(t, refusal(t, sound(t).with(t, "picture-1", bomb).bytes(t)), "says it is 60000 × 60000 points large")
	c := ferryman(t)
	c.Attached[0] = Attach(Picture, "bomb.png", bomb)
	err := Write(io.Discard, c, everything)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "Picture “bomb.png” says it is 60000 × 60000")
}

func TestUnknownPartsArePassedOverWithANote(t *testing.T) {
	f := append(sound(t), entry{name: "hologram-1", data: []byte("???")}, entry{name: "stowaway.exe"})
	f = f.listed(t, func(m *manifest) { m.Parts = append(m.Parts, part{Kind: "hologram", Entry: "hologram-1"}) })
	f = f.with(t, "commission.json", []byte(`{"title": "Later", "mood": "wistful", "pieces": [{"name": "Figure"}]}`))
	c := unpacked(t, f.bytes(t))
	assert.Equal(t, "Later", c.Commission.Title)
	assert.Equal(t, "Figure", c.Commission.Pieces[0].Name)
	assert.Len(t, c.Attached, 3)
	assert.Equal(t, []string{
		"Its commission speaks of “mood”, which this version does not know; that and what else it does not know was passed over.",
		"The parcel holds a “hologram”, which this version does not know; it was passed over.",
		"The parcel also holds “stowaway.exe”, which its manifest does not list; it was passed over.",
	}, c.Notes)
}

// A path in a commission would be a file of whoever opens the parcel.
func TestNoPathToAScanIsSentOrTaken(t *testing.T) {
	c := ferryman(t)
	c.Commission.Pieces[1].ScanFile = &estimate.ScanFile{Path: "D:/mara/private/pole.stl"}
	data := packed(t, c, everything)
	hides(t, data, "mara")
	assert.Equal(t, []string{"Names of scan files on the sender's disk (1): open the scan itself."}, unpacked(t, data).LeftOut)
	assert.NotNil(t, c.Commission.Pieces[1].ScanFile, "at home it stays")

	f := sound(t).with(t, "commission.json", []byte(`{"pieces": [{"scan_file": {"path": "//elsewhere/share/x.stl"}}]}`))
	got := unpacked(t, f.bytes(t))
	assert.Nil(t, got.Commission.Pieces[0].ScanFile)
	assert.Equal(t, []string{"Its commission names a scan file on a disk, which may be any file of yours; that was passed over."}, got.Notes)
}

func TestARowOfNothingInABookIsAnEmptyRow(t *testing.T) {
	f := sound(t).with(t, "book.json", []byte(`{"currency": "CAD", "tables": {"alloys": [null]}}`))
	rows := unpacked(t, f.bytes(t)).Book.Tables["alloys"]
	require.Len(t, rows, 1)
	assert.NotNil(t, rows[0])
}

// brittle is a disk that fails behind some place.
type brittle struct {
	*bytes.Reader
	from int64
}

func (b brittle) ReadAt(p []byte, at int64) (int, error) {
	if at+int64(len(p)) > b.from {
		return 0, errors.New("input/output error")
	}
	return b.Reader.ReadAt(p, at)
}

func (b brittle) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestADiskThatFailsIsNotTakenForADamagedParcel(t *testing.T) {
	data := packed(t, ferryman(t), everything)
	_, err := Read(brittle{bytes.NewReader(data), 100}, int64(len(data)))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "Parcel cannot be read: input/output error; look whether the disk")
	err = Write(brittle{}, ferryman(t), everything)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "Parcel cannot be written: no space left on device")
	c := ferryman(t)
	c.Attached[2].Open = func() (io.ReadCloser, error) { return nil, errors.New("file does not exist") }
	err = Write(io.Discard, c, everything)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "its scan “ferryman.stl” cannot be read: file does not exist")
}

func TestAParcelCutShortAnywhereIsRefused(t *testing.T) {
	data := packed(t, ferryman(t), everything)
	for n := range data {
		refusal(t, data[:n])
	}
}

// Whichever bit turns over on the way, either it is told or it did not matter.
func TestNoTurnedBitGoesUnnoticed(t *testing.T) {
	data := packed(t, ferryman(t), Options{})
	want := unpacked(t, data)
	files := opened(t, &want)
	told := 0
	for at := range data {
		for bit := range 8 {
			data[at] ^= 1 << bit
			got, err := Read(bytes.NewReader(data), int64(len(data)))
			if err != nil {
				told++
			} else {
				require.Equal(t, files, opened(t, &got), "bit %d of byte %d", bit, at)
				require.Equal(t, want, got, "bit %d of byte %d", bit, at)
			}
			data[at] ^= 1 << bit
		}
	}
	t.Logf("%d of %d bits were told of; the others are dates and the like", told, 8*len(data))
	assert.Greater(t, told, 4*len(data))
}
