package proposal

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWordsOfTheShopsOwnFolderAreInTheNextPaper(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "wording")
	m := Maker{Wording: WordingIn(folder)}
	p := paperOf(t, waterfront())
	say := func() string {
		return flat(textOf(t, made(t, func(b *bytes.Buffer) error { return m.Proposal(b, p) })))
	}
	assert.Contains(t, say(), "Bronze lasts for centuries", "a folder that is not there has no words")
	written, err := WriteWording(folder)
	require.NoError(t, err)
	assert.Contains(t, written, filepath.Join(folder, "en", "care.tmpl"))
	before := say()
	care := filepath.Join(folder, "en", "care.tmpl")
	require.NoError(t, os.WriteFile(care, []byte("# Care\n\nDust it on Sundays, {{.Client}}.\n"), 0o600))
	assert.NotEqual(t, before, say())
	assert.Contains(t, say(), "Dust it on Sundays, Town of Ashmere Cross.")
	again, err := WriteWording(folder)
	require.NoError(t, err)
	assert.Empty(t, again, "nothing is written over")
	assert.Contains(t, say(), "Dust it on Sundays")

	require.NoError(t, os.WriteFile(care, []byte("# Care\n\n{{.Nobody}}\n"), 0o600))
	var b bytes.Buffer
	err = m.Proposal(&b, p)
	assert.ErrorContains(t, err, "Wording “care” will not do")
	assert.ErrorContains(t, err, "take the file away")
}

func TestAFolderThatCannotBeWrittenToIsNamed(t *testing.T) {
	file := kept(t, "a file", nil)
	_, err := WriteWording(file)
	assert.ErrorContains(t, err, "Folder “"+file+"” cannot be written to")
	assert.Nil(t, WordingIn(""))
}
