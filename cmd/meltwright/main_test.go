package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/buildinfo"
)

func TestTheCommandLineNamesTheFileTheDemoOrTheVersion(t *testing.T) {
	var out bytes.Buffer
	w, err := parse([]string{"--db", "shop.db"}, &out)
	require.NoError(t, err)
	assert.Equal(t, wish{db: "shop.db"}, w)
	w, err = parse([]string{"--demo"}, &out)
	require.NoError(t, err)
	assert.True(t, w.demo)
	w, err = parse([]string{"--version"}, &out)
	require.NoError(t, err)
	assert.True(t, w.version)
	assert.Empty(t, out.String())
}

func TestAWordTooManyIsToldAndSoIsAnUnknownFlag(t *testing.T) {
	var out bytes.Buffer
	_, err := parse([]string{"shop.db"}, &out)
	assert.ErrorContains(t, err, "is one word too many")
	_, err = parse([]string{"--file", "shop.db"}, &out)
	assert.Error(t, err)
	assert.Contains(t, out.String(), "-db file")
}

func TestTheDemoHasAFileOfItsOwn(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	own, err := wish{}.path()
	require.NoError(t, err)
	demo, err := wish{demo: true}.path()
	require.NoError(t, err)
	assert.NotEqual(t, own, demo)
	assert.Equal(t, filepath.Dir(own), filepath.Dir(demo))
	is, err := os.Stat(filepath.Dir(own))
	require.NoError(t, err)
	assert.True(t, is.IsDir())
	named, err := wish{db: "shop.db", demo: true}.path()
	require.NoError(t, err)
	assert.True(t, filepath.IsAbs(named))
}

// Servers and containers name their language so; the toolkit reads it while the
// program is being initialised.
func TestNothingIsSaidOfALanguageThatIsPlain(t *testing.T) {
	for _, lang := range []string{"C.UTF-8", "C", "", "en_US.UTF-8"} {
		c := exec.Command(built(t), "--version")
		c.Env = append(os.Environ(), "LC_ALL=", "LC_MESSAGES=", "LANGUAGE=", "LANG="+lang)
		out, err := c.CombinedOutput()
		require.NoError(t, err)
		assert.Equal(t, buildinfo.Name+" "+buildinfo.Version+"\n", string(out), "LANG=%s", lang)
	}
}
