package main

import (
	"os"
	"os/exec"
	"strings"
)

// probe is true if the thing it looks for is on the machine.
type probe func() bool

// program looks for a program on the PATH.
func program(name string) probe {
	return func() bool {
		_, err := exec.LookPath(name)
		return err == nil
	}
}

// module looks for a C library as the compiler will, by pkg-config.
func module(name string) probe {
	return func() bool { return exec.Command("pkg-config", "--exists", name).Run() == nil }
}

// compiles tries the compiler that cgo would take, on a line that needs the C
// library's headers: on some systems the compiler comes without them.
func compiles() bool {
	names := []string{"gcc", "clang", "cc"}
	if chosen := strings.Fields(os.Getenv("CC")); len(chosen) > 0 {
		names = chosen[:1]
	}
	for _, name := range names {
		c := exec.Command(name, "-x", "c", "-fsyntax-only", "-")
		c.Stdin = strings.NewReader("#include <stdlib.h>\n")
		if c.Run() == nil {
			return true
		}
	}
	return false
}

// missing gives the parts that are not there.
func missing(parts []part) []part {
	installed := map[string]bool{}
	var gone, unprobed []part
	for _, p := range parts {
		switch {
		case p.probe == nil:
			unprobed = append(unprobed, p)
		case !p.probe():
			gone = append(gone, p)
		}
	}
	if len(unprobed) > 0 {
		installed = installedByDpkg(aptNames(unprobed))
	}
	for _, p := range unprobed {
		for _, name := range strings.Fields(p.apt) {
			if !installed[name] {
				gone = append(gone, p)
				break
			}
		}
	}
	return gone
}

// installedByDpkg asks Debian's records which of the packages are installed.
// It fails for a name it never heard of, and still tells of the others.
func installedByDpkg(names []string) map[string]bool {
	args := append([]string{"-W", "-f", "${Package} ${db:Status-Status}\n"}, names...)
	printed, _ := exec.Command("dpkg-query", args...).Output()
	return readDpkg(string(printed))
}

// readDpkg reads lines "package status".
func readDpkg(printed string) map[string]bool {
	installed := map[string]bool{}
	for line := range strings.Lines(printed) {
		if f := strings.Fields(line); len(f) == 2 && f[1] == "installed" {
			installed[f[0]] = true
		}
	}
	return installed
}
