package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onlyPrograms makes a PATH that holds the given shell scripts and nothing else.
func onlyPrograms(t *testing.T, scripts map[string]string) {
	t.Helper()
	dir := t.TempDir()
	for name, script := range scripts {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("#!/bin/sh\n"+script+"\n"), 0o755))
	}
	t.Setenv("PATH", dir)
	t.Setenv("CC", "")
}

func TestOnABareMachineEverythingForTheWindowIsMissing(t *testing.T) {
	onlyPrograms(t, nil)
	assert.Len(t, missing(windowParts("linux")), len(windowParts("linux")))
	assert.Empty(t, thisMachine().managers)
	assert.False(t, thisMachine().sudo)
}

func TestACompilerWithoutTheLibrarysHeadersIsMissing(t *testing.T) {
	onlyPrograms(t, map[string]string{"gcc": "exit 1"})
	assert.False(t, compiles())
	onlyPrograms(t, map[string]string{"gcc": "exit 1", "clang": "exit 0"})
	assert.True(t, compiles())
}

func TestTheCompilerThatCCNamesIsTheOneTried(t *testing.T) {
	onlyPrograms(t, map[string]string{"gcc": "exit 0", "other": "exit 1"})
	t.Setenv("CC", "other -m64")
	assert.False(t, compiles())
}

func TestTheCompilerIsGivenALineThatNeedsTheLibrary(t *testing.T) {
	onlyPrograms(t, map[string]string{"gcc": `read line; test "$line" = "#include <stdlib.h>"`})
	assert.True(t, compiles())
}

func TestALibraryIsThereIfPkgConfigKnowsIt(t *testing.T) {
	onlyPrograms(t, map[string]string{
		"gcc":        "exit 0",
		"pkg-config": `test "$2" != xi && test "$2" != gl`,
	})
	assert.Equal(t, "the OpenGL headers, the X input headers", words(missing(windowParts("linux"))))
}

func TestDpkgSaysWhichReferencesAreThere(t *testing.T) {
	onlyPrograms(t, map[string]string{"dpkg-query": `
echo qpdf installed
echo units config-files
echo "no packages found matching admesh" >&2
exit 1`})
	parts := []part{{what: "a", apt: "qpdf"}, {what: "b", apt: "units"}, {what: "c", apt: "admesh"}, {what: "d", apt: "qpdf admesh"}}
	assert.Equal(t, "b, c, d", words(missing(parts)))
}

func TestWithoutDpkgNoReferenceIsThere(t *testing.T) {
	onlyPrograms(t, nil)
	assert.Len(t, missing(references), len(references))
}

func TestTheMachineIsReadFromItsPath(t *testing.T) {
	onlyPrograms(t, map[string]string{"zypper": "", "apt-get": "", "sudo": `test "$1 $2" = "-n true"`})
	m := thisMachine()
	assert.Equal(t, []string{"apt-get", "zypper"}, m.managers)
	assert.Equal(t, os.Geteuid() == 0, m.root)
	assert.Equal(t, os.Geteuid() != 0, m.sudo, "sudo is for those who are not root")
}
