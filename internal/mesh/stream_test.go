package mesh

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestWordsAreTheFieldsOfTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.StringMatching(`[!-~]{1,20}|[ \t\r\n]{1,9}`)).Draw(t, "words")
		text := strings.Join(words, "")
		s := newStream(iotest.HalfReader(strings.NewReader(text)))
		var got []string
		for w := s.word(); len(w) > 0; w = s.word() {
			got = append(got, string(w))
		}
		assert.Equal(t, strings.Fields(text), append([]string{}, got...))
		assert.Equal(t, strings.Count(text, "\n"), s.line)
	})
}

// Words, numbers and tags do not care where a block ends.
func TestNothingIsLostWhereBlocksMeet(t *testing.T) {
	var text strings.Builder
	for text.Len() < 3*block {
		text.WriteString("v 0.125\t-3e2 \r\n")
	}
	for shift := range 20 {
		s := newStream(strings.NewReader(strings.Repeat(" ", shift) + text.String()))
		n := 0
		for w := s.word(); len(w) > 0; w = s.word() {
			isV := string(w) == "v" // a word is good until the next is asked for
			x, okX := s.numberOnLine()
			y, okY := s.numberOnLine()
			_, okZ := s.numberOnLine()
			if !isV || !okX || x != 0.125 || !okY || y != -300 || okZ {
				t.Fatalf("line %d, shift %d: %v %v %v %v", s.line, shift, isV, x, y, okZ)
			}
			s.endLine()
			n++
		}
		assert.Equal(t, strings.Count(text.String(), "\n"), n)
		assert.Equal(t, n, s.line)
	}
}

func TestTagsMayBeLongButNotEndless(t *testing.T) {
	long := `<a b="` + strings.Repeat("x", longest*3) + `" c='1'/>`
	endless := `<a b="` + strings.Repeat("x", 2*block)
	s := newStream(strings.NewReader(strings.Repeat(" ", block-longest-10) + long + "<d/>" + endless))
	tag, ok := s.tag()
	assert.True(t, ok)
	_, value, _ := tag.attribute()
	assert.Len(t, value, longest*3)
	name, value, ok := tag.attribute()
	assert.Equal(t, "c1", string(name)+string(value))
	assert.True(t, ok)
	tag, ok = s.tag()
	assert.True(t, ok)
	assert.Equal(t, "d", string(tag.name))
	_, _, ok = tag.attribute()
	assert.False(t, ok)
	_, ok = s.tag()
	assert.False(t, ok)
}

func TestAReaderThatGivesNothingIsGivenUp(t *testing.T) {
	s := newStream(iotest.ErrReader(errors.New("gone")))
	assert.EqualError(t, s.err, "gone")
	s = newStream(idle{})
	assert.ErrorIs(t, s.err, io.ErrNoProgress)
	assert.Nil(t, s.take(1))
	assert.False(t, s.discard(1))
}

type idle struct{}

func (idle) Read([]byte) (int, error) { return 0, nil }

func TestUTF16InPiecesIsTheSame(t *testing.T) {
	wide := []byte{0xfe, 0xff}
	for _, c := range "vertex 1 µ 2" {
		wide = append(wide, byte(c>>8), byte(c))
	}
	for name, r := range map[string]io.Reader{
		"whole": bytes.NewReader(wide), "byte by byte": iotest.OneByteReader(bytes.NewReader(wide)), "cut": bytes.NewReader(wide[:len(wide)-1]),
	} {
		got, err := io.ReadAll(&narrow{wide: r})
		assert.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(got), " vertex 1 ? "), "%s: %q", name, got)
	}
}
