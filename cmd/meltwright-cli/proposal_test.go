package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func TestTheFirstPictureNamedIsTheCoverAndTheOthersAreNamedByTheirFiles(t *testing.T) {
	rest, named := takeAll([]string{"--picture", "a.png", "demo.json", "--picture=b.png", "out.pdf"}, "--picture")
	assert.Equal(t, []string{"demo.json", "out.pdf"}, rest)
	assert.Equal(t, []string{"a.png", "b.png"}, named)

	dir := t.TempDir()
	file := filepath.Join(dir, "The clay.png")
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 4, 4))))
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o600))
	all, err := readPictures(file, []string{file, file})
	require.NoError(t, err)
	require.Len(t, all, 3)
	assert.Equal(t, [3]string{quote.Logo, quote.Cover, "The clay.png"}, [3]string{all[0].Name, all[1].Name, all[2].Name})
	assert.Equal(t, "The clay", all[2].Caption)
	assert.Empty(t, all[1].Caption)
}

func TestAProposalHoldsThePicturesThatAreNamed(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	var demo, errs bytes.Buffer
	require.Zero(t, run(&demo, &errs, []string{"example"}))
	require.NoError(t, os.WriteFile(at("demo.json"), demo.Bytes(), 0o600))
	noise := image.NewNRGBA(image.Rect(0, 0, 200, 200))
	for i := range noise.Pix {
		noise.Pix[i] = byte(i * i % 251)
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, noise))
	require.NoError(t, os.WriteFile(at("mark.png"), b.Bytes(), 0o600))
	require.Zero(t, run(&demo, &errs, []string{"proposal", at("demo.json"), at("plain.pdf")}), errs.String())
	require.Zero(t, run(&demo, &errs, []string{"proposal", "--picture", at("mark.png"), at("demo.json"), at("pictured.pdf")}), errs.String())
	for name, want := range map[string]bool{"plain.pdf": false, "pictured.pdf": true} {
		file, err := os.ReadFile(at(name))
		require.NoError(t, err)
		assert.Equal(t, want, bytes.Contains(file, []byte("/Subtype /Image")), name)
	}
}
