package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
