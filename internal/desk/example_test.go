package desk_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/form"
	"meltwright/internal/proposal"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// example is what the program prints as an example, and what that explains
// besides the inputs.
func example(t *testing.T) (text []byte, explained map[string]string) {
	d, err := desk.New(t.Context(), desk.NoStore{}, proposal.Maker{}, time.Now)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, d.Example(&b))
	var file struct{ Explained map[string]string }
	require.NoError(t, json.Unmarshal(b.Bytes(), &file))
	return b.Bytes(), file.Explained
}

func book(t *testing.T) *shop.Shop {
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	return s
}

func TestTheExampleIsAFileThatIsRead(t *testing.T) {
	text, _ := example(t)
	c, words, err := desk.DecodeCommission(bytes.NewReader(text))
	require.NoError(t, err)
	e, err := estimate.Of(c, book(t))
	require.NoError(t, err)
	demo := desk.Demo()[1]
	shown, err := estimate.Of(demo.Commission, book(t))
	require.NoError(t, err)
	assert.Equal(t, shown.Total, e.Total, "the demo the window opens")
	assert.Equal(t, demo.Words, words)
}

func TestTheExampleExplainsEveryInputAndNoOther(t *testing.T) {
	text, _ := example(t)
	c, _, err := desk.DecodeCommission(bytes.NewReader(text))
	require.NoError(t, err)
	for perPiece, inputs := range map[bool]map[string]string{false: c.Inputs, true: c.Pieces[0].Inputs} {
		for _, st := range estimate.Stages {
			for _, f := range st.Fields(perPiece) {
				assert.Contains(t, inputs, "//"+f.Path())
			}
		}
		for key := range inputs {
			_, known := estimate.FieldByPath(strings.TrimPrefix(key, "//"), perPiece)
			assert.True(t, known, "%s is no input", key)
		}
	}
}

// Whatever a commission file may hold besides inputs is explained, and what is
// explained may stand in one.
func TestTheExampleExplainsEveryKeyOfAFileAndNoOther(t *testing.T) {
	_, explained := example(t)
	want := map[string]bool{"meltwright": true, "about": true, "explained": true, "words": true, "words.language": true, "words.drawing.0": true}
	keysOf(reflect.TypeFor[estimate.Commission](), "", want)
	for _, l := range form.Catalogue {
		for _, key := range []string{"shape", "count", "ends"} {
			want["pieces[].solids[]."+key] = true
		}
		for _, d := range l.Sizes {
			want["pieces[].solids[]."+d.Key] = true
		}
	}
	factors, err := risk.Factors(desk.Demo()[1].Commission, book(t))
	require.NoError(t, err)
	for _, f := range factors {
		want[map[bool]string{true: "ranges.", false: "pieces[].ranges."}[f.Piece == estimate.Whole]+f.Key] = true
	}
	for _, key := range append(proposal.Sections(), desk.Sections, desk.Start, desk.Required) {
		want["words."+key] = true
	}
	assert.Equal(t, slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(explained)))
	for path, text := range explained {
		assert.NotEmpty(t, text, path)
	}
}

// keysOf puts the paths of a struct's JSON keys into want. A measured scan is
// the program's own; maps have their keys from elsewhere.
func keysOf(of reflect.Type, path string, want map[string]bool) {
	for i := range of.NumField() {
		name, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ",")
		want[path+name] = true
		inner, at := of.Field(i).Type, path+name
		if inner.Kind() == reflect.Slice {
			inner, at = inner.Elem(), at+"[]"
		}
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct && name != "scan" {
			keysOf(inner, at+".", want)
		}
	}
}

// What is by others drops out of the work: the example says which inputs tell so.
func TestTheExampleNamesWhatTellsWhatIsByOthers(t *testing.T) {
	_, explained := example(t)
	text := explained["pieces[].inputs"]
	for _, path := range []string{"form.start", "base.by", "base.footing", "patina.by", "delivery.by"} {
		assert.Contains(t, text, path)
		piece, ok := estimate.FieldByPath(path, true)
		if !ok {
			piece, ok = estimate.FieldByPath(path, false)
		}
		require.True(t, ok, path)
		assert.True(t, path == "form.start" || slices.Contains(piece.Choices, "by others"), path)
	}
	for _, key := range []string{"body_height", "body_mass", "formula", "dress", "dress_factor", "animal", "animal_mass", "animal_k", "area", "volume", "cover_mass", "cover_per_area"} {
		_, ok := estimate.FieldByPath("form."+key, true)
		assert.True(t, ok, key)
		assert.Contains(t, text, key)
	}
}
