package assets_test

import (
	"bytes"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/assets"
)

var fonts = map[string][]byte{
	"Noto Sans Regular":       assets.NotoSansRegular,
	"Noto Sans Italic":        assets.NotoSansItalic,
	"Noto Sans SemiBold":      assets.NotoSansSemiBold,
	"Noto Sans Bold":          assets.NotoSansBold,
	"Source Serif 4 Regular":  assets.SourceSerifRegular,
	"Source Serif 4 Italic":   assets.SourceSerifItalic,
	"Source Serif 4 SemiBold": assets.SourceSerifSemiBold,
	"Source Serif 4 Bold":     assets.SourceSerifBold,
}

// OpenType 1.9, "Table directory": version 0x00010000 has TrueType outlines in
// 'glyf', and 'OTTO' has CFF outlines, which the PDF writer cannot embed.
func TestFontsHaveTrueTypeOutlines(t *testing.T) {
	for name, font := range fonts {
		require.Greater(t, len(font), 12, name)
		assert.Equal(t, []byte{0, 1, 0, 0}, font[:4], name)
		tables := font[12 : 12+16*int(font[5])]
		assert.True(t, bytes.Contains(tables, []byte("glyf")), name)
		assert.False(t, bytes.Contains(tables, []byte("CFF ")), name)
	}
}

func TestFontLicencesTravelWithTheFonts(t *testing.T) {
	for _, licence := range []string{assets.NotoSansLicence, assets.SourceSerifLicence} {
		assert.Contains(t, licence, "SIL Open Font License, Version 1.1")
		assert.Contains(t, licence, "Copyright")
	}
}

func TestIconIsSquareAndLargeEnoughForEverySystem(t *testing.T) {
	icon, err := png.Decode(bytes.NewReader(assets.Icon))
	require.NoError(t, err)
	assert.Equal(t, 512, icon.Bounds().Dx())
	assert.Equal(t, 512, icon.Bounds().Dy())
}

func TestEverySilhouetteSaysWhatItShows(t *testing.T) {
	files, err := assets.Silhouettes.ReadDir("silhouettes")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		data, err := assets.Silhouettes.ReadFile("silhouettes/" + f.Name())
		require.NoError(t, err)
		assert.Regexp(t, `^# [a-z]`, string(data), f.Name())
	}
}
