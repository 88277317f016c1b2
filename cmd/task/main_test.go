package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAloneItPrintsItsThreeCommands(t *testing.T) {
	var out bytes.Buffer
	assert.Zero(t, run(nil, &out))
	for _, command := range []string{"./cmd/task start ", "./cmd/task test ", "./cmd/task bench [PATTERN] "} {
		assert.Contains(t, out.String(), command)
	}
	for line := range strings.Lines(out.String()) {
		assert.LessOrEqual(t, len(line), 100, "fits a terminal")
	}
}

func TestAnUnknownTaskIsNamed(t *testing.T) {
	var out bytes.Buffer
	assert.Equal(t, 1, run([]string{"strat"}, &out))
	assert.Contains(t, out.String(), "There is no task “strat”.")
	assert.Contains(t, out.String(), "task start")
}

func TestOutsideTheSourceItSaysWhereToGo(t *testing.T) {
	t.Chdir(t.TempDir())
	var out bytes.Buffer
	assert.Equal(t, 1, run([]string{"start"}, &out))
	assert.Contains(t, out.String(), "change to the folder that has its go.mod")
}
