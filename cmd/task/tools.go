package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// tool is a checker written in Go, at the version the project is held to.
type tool struct{ name, source, version string }

var (
	staticcheck = tool{"staticcheck", "honnef.co/go/tools/cmd/staticcheck", "v0.8.2"}
	gofumpt     = tool{"gofumpt", "mvdan.cc/gofumpt", "v0.12.0"}
)

// folder is where the tool's binary lives: in the person's cache, a folder a
// version and Go release, so that neither is ever mistaken for another.
func (t tool) folder() (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", fmt.Errorf("no place for %s: %w", t.name, err)
	}
	return filepath.Join(cache, "meltwright-tools", t.name+"-"+t.version+"-"+runtime.Version()), nil
}

// tool gives the path of the tool's binary, installing it if it is not there.
func (h house) tool(t tool) (string, error) {
	folder, err := t.folder()
	if err != nil {
		return "", err
	}
	path := filepath.Join(folder, t.name)
	if runtime.GOOS == "windows" {
		path += ".exe"
	}
	if _, err := os.Stat(path); err == nil {
		return path, nil
	}
	h.say("Installing %s %s.", t.name, t.version)
	if _, err := h.read([]string{"GOBIN=" + folder}, "go", "install", t.source+"@"+t.version); err != nil {
		return "", fmt.Errorf("%s %s cannot be installed: %w", t.name, t.version, err)
	}
	return path, nil
}

// gofmt gives the path of the formatter that came with Go.
func (h house) gofmt() (string, error) {
	root, err := h.read(nil, "go", "env", "GOROOT")
	return filepath.Join(strings.TrimSpace(root), "bin", "gofmt"), err
}
