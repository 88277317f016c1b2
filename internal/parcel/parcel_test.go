package parcel

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/shop"
)

// drawn is a picture of a few points.
func drawn(t testing.TB, format string) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 6, 9))
	for i := range m.Pix {
		m.SetGray(i%6, i/6, color.Gray{uint8(40 * i)})
	}
	var b bytes.Buffer
	if format == "png" {
		require.NoError(t, png.Encode(&b, m))
	} else {
		require.NoError(t, jpeg.Encode(&b, m, nil))
	}
	return b.Bytes()
}

// ferryman is a quote with all that a parcel can hold.
func ferryman(t testing.TB) Contents {
	b := shop.Start().With("labour.wax", "61.75 / h", "2026-02-01").WithHouse("Tern Street Foundry", "4 Tern Street", "CAD", "metric", "2026-02-02")
	return Contents{
		From: "Tern Street Foundry", Number: "2026-014", Letter: "B",
		Commission: estimate.Commission{
			Title: "The Ferryman", Client: "Village of Aldersound", Currency: "CAD", Units: "metric",
			Inputs: map[string]string{"price.profit": "27 %", "delivery.distance": "80 km", "delivery.permits": "431.19", "metalwork.rod_price": "39.90 / kg", "//price.profit": "never below 20"},
			Pieces: []estimate.Piece{
				{Name: "Ferryman", Inputs: map[string]string{"form.height": "6'2\"", "form.wall": "5 mm"}},
				{Name: "Pole", Inputs: map[string]string{"form.known_by": "solids"}, Solids: []map[string]string{{"shape": "cylinder", "diameter": "4 cm", "length": "2.6 m"}}},
			},
			Extras:  []estimate.Extra{{Stage: "metalwork", Item: "Name plate", Quantity: "2", Unit: "each", Rate: "182.50"}},
			Options: []estimate.Option{{Name: "Half life", Height: "0.9 m", Inputs: map[string]string{"price.fee_sum": "8123"}}},
		},
		Words: map[string]string{"idea": "He waits for whoever comes last."},
		Book:  &b,
		Attached: []Attachment{
			Attach(Picture, "front view.png", drawn(t, "png")),
			Attach(Picture, "Ébauche.JPG", drawn(t, "jpeg")),
			Attach(Scan, "ferryman.stl", []byte(strings.Repeat("facet normal 0 0 1\n", 300))),
		},
	}
}

func packed(t testing.TB, c Contents, o Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, c, o))
	return b.Bytes()
}

func unpacked(t testing.TB, data []byte) Contents {
	t.Helper()
	c, err := Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	return c
}

// file is an attachment with what is in it.
type file struct {
	kind       Kind
	name, data string
}

// opened takes the attachments out of contents, so that the rest can be compared.
func opened(t require.TestingT, c *Contents) []file {
	var out []file
	for _, a := range c.Attached {
		r, err := a.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		require.NoError(t, r.Close())
		require.Equal(t, a.Size, int64(len(data)))
		out = append(out, file{a.Kind, a.Name, string(data)})
	}
	c.Attached = nil
	return out
}

var everything = Options{WithBook: true, WithMargins: true}

func TestAllThatIsSentArrives(t *testing.T) {
	sent := ferryman(t)
	got := unpacked(t, packed(t, sent, everything))
	assert.Equal(t, opened(t, &sent), opened(t, &got))
	assert.Equal(t, sent, got)
	assert.Empty(t, got.Notes)
	assert.Empty(t, got.LeftOut)
}

func TestTheMeasuredScanGoesWithItsPiece(t *testing.T) {
	sent := ferryman(t)
	sent.Commission.Pieces[0].Scan = &mesh.Scan{File: "ferryman.stl", Triangles: 12, Box: mesh.Vec{0.5, 0.4, 1.88}, Area: 1.9, Volume: 0.07, Picture: drawn(t, "png")}
	got := unpacked(t, packed(t, sent, Options{}))
	assert.Equal(t, sent.Commission.Pieces[0].Scan, got.Commission.Pieces[0].Scan)
}

func TestTheSameQuoteGivesTheSameBytes(t *testing.T) {
	for range 5 {
		assert.Equal(t, packed(t, ferryman(t), Options{}), packed(t, ferryman(t), Options{}))
	}
}

func TestANakedQuoteIsAParcelToo(t *testing.T) {
	assert.Equal(t, Contents{}, unpacked(t, packed(t, Contents{}, everything)))
	assert.Empty(t, unpacked(t, packed(t, Contents{}, Options{})).LeftOut)
}

func TestAnAttachmentCanBeReadAgainAndTellsIfItHasChanged(t *testing.T) {
	data := packed(t, ferryman(t), Options{})
	got := unpacked(t, data)
	first, again := got, got
	assert.Equal(t, opened(t, &first), opened(t, &again))

	at := bytes.Index(data, drawn(t, "png"))
	require.Positive(t, at)
	data[at+30] ^= 1
	r, err := got.Attached[0].Open()
	require.NoError(t, err)
	_, err = io.ReadAll(r)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "Parcel, its picture “front view.png” was damaged")
}

// anyText is what people and pastes bring.
func anyText() *rapid.Generator[string] {
	return rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "O'Brien", "a\x00b", "🐎 horse", "e\u0301", "line\nline\r\n", "\u2028", "<b>&amp;</b>", "\ufeff", "1e400", `\"`, "5 mm"}))
}

func anyTexts(t *rapid.T, label string) map[string]string {
	m := rapid.MapOfN(anyText(), anyText(), 0, 3).Draw(t, label)
	if len(m) == 0 {
		return nil
	}
	return m
}

func anyContents(t *rapid.T) Contents {
	text := func(label string) string { return anyText().Draw(t, label) }
	c := Contents{From: text("from"), Number: text("number"), Letter: text("letter"), Words: anyTexts(t, "words")}
	k := estimate.Commission{Title: text("title"), Client: text("client"), Place: text("place"), Currency: text("currency"), Units: text("units")}
	k.Inputs, k.Ranges = anyTexts(t, "whole"), anyTexts(t, "ranges")
	for range rapid.IntRange(0, 3).Draw(t, "pieces") {
		p := estimate.Piece{Name: text("name"), Inputs: anyTexts(t, "piece"), Ranges: anyTexts(t, "of the piece")}
		for range rapid.IntRange(0, 2).Draw(t, "solids") {
			p.Solids = append(p.Solids, rapid.MapOfN(anyText(), anyText(), 1, 2).Draw(t, "solid"))
		}
		k.Pieces = append(k.Pieces, p)
	}
	for range rapid.IntRange(0, 2).Draw(t, "extras") {
		k.Extras = append(k.Extras, estimate.Extra{Stage: text("stage"), Item: text("item"), Quantity: text("quantity"), Unit: text("unit"), Rate: text("rate")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "options") {
		o := estimate.Option{Name: text("option"), Height: text("height"), Inputs: anyTexts(t, "option's"), Why: text("why"), Recommended: rapid.Bool().Draw(t, "recommended")}
		for range rapid.IntRange(0, 2).Draw(t, "option's pieces") {
			o.Pieces = append(o.Pieces, anyTexts(t, "option's piece"))
		}
		k.Options = append(k.Options, o)
	}
	c.Commission = k
	if rapid.Bool().Draw(t, "book") {
		b := shop.Start().With(text("setting"), text("value"), text("dated")).WithHouse(text("shop"), text("address"), text("coin"), text("system"), "")
		c.Book = &b
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "scans") {
		c.Attached = append(c.Attached, Attach(Scan, strings.Repeat("s", i+1)+".ply", rapid.SliceOfN(rapid.Byte(), 0, 500).Draw(t, "scan")))
	}
	return c
}

func TestWhatIsSentIsWhatArrives(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sent := anyContents(rt)
		var b bytes.Buffer
		require.NoError(rt, Write(&b, sent, everything))
		got, err := Read(bytes.NewReader(b.Bytes()), int64(b.Len()))
		require.NoError(rt, err)
		require.Equal(rt, opened(rt, &sent), opened(rt, &got))
		require.Equal(rt, sent, got)
	})
}

// Without margins nothing is changed but what is left out, and sending on what
// arrived leaves out nothing more.
func TestSendingOnLeavesOutNothingMore(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sent := anyContents(rt)
		before := sent.Commission.Clone()
		var once, twice bytes.Buffer
		require.NoError(rt, Write(&once, sent, Options{WithBook: true}))
		require.Equal(rt, before, sent.Commission.Clone(), "what is sent stays as it is")
		got, err := Read(bytes.NewReader(once.Bytes()), int64(once.Len()))
		require.NoError(rt, err)
		require.NoError(rt, Write(&twice, got, Options{WithBook: true}))
		again, err := Read(bytes.NewReader(twice.Bytes()), int64(twice.Len()))
		require.NoError(rt, err)
		require.Equal(rt, got.Commission, again.Commission)
		require.Equal(rt, got.Book, again.Book)
	})
}

func BenchmarkWriteAndReadAScanOf100MB(b *testing.B) {
	scan := bytes.Repeat([]byte("0123456789 vertex 0.125 0.25 0.0625 normal 1 0 0\n"), 2<<20)
	for i := range scan {
		scan[i] ^= byte(i * 2654435761 >> 28)
	}
	c := Contents{Attached: []Attachment{Attach(Scan, "large.stl", scan)}}
	for b.Loop() {
		var out bytes.Buffer
		if err := Write(&out, c, Options{}); err != nil {
			b.Fatal(err)
		}
		if _, err := Read(bytes.NewReader(out.Bytes()), int64(out.Len())); err != nil {
			b.Fatal(err)
		}
	}
}
