package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

var (
	debianRoot = machine{system: "linux", root: true, managers: []string{"apt-get"}}
	debianSudo = machine{system: "linux", sudo: true, managers: []string{"apt-get"}}
	debianUser = machine{system: "linux", managers: []string{"apt-get"}}
	fedora     = machine{system: "linux", managers: []string{"dnf"}}
	arch       = machine{system: "linux", managers: []string{"pacman"}}
	suse       = machine{system: "linux", managers: []string{"zypper"}}
	unknown    = machine{system: "freebsd"}
)

// glAndKeys is two missing parts, one that every manager knows and one of apt alone.
var glAndKeys = []part{compiler, headers[1]}

func TestNothingIsInstalledWhereNothingIsMissing(t *testing.T) {
	assert.Equal(t, plan{}, planInstall(nil, debianRoot))
	assert.Equal(t, plan{}, planInstall(nil, unknown))
}

func TestAptInstallsWithoutAQuestionAsRootOrBySudo(t *testing.T) {
	as := func(m machine) []string {
		p := planInstall(glAndKeys, m)
		assert.Empty(t, p.say)
		var lines []string
		for _, c := range p.run {
			lines = append(lines, strings.Join(c, " "))
		}
		return lines
	}
	apt := "env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=300 "
	assert.Equal(t, []string{
		apt + "update",
		apt + "install -y --no-install-recommends gcc libc6-dev libgl1-mesa-dev",
	}, as(debianRoot))
	assert.Equal(t, []string{
		"sudo -n " + apt + "update",
		"sudo -n " + apt + "install -y --no-install-recommends gcc libc6-dev libgl1-mesa-dev",
	}, as(debianSudo))
}

func TestWhereItMayNotInstallItSaysTheCommand(t *testing.T) {
	for _, c := range []struct {
		name    string
		on      machine
		command string
	}{
		{"debian", debianUser, "sudo apt-get update && sudo apt-get install --no-install-recommends gcc libc6-dev libgl1-mesa-dev"},
		{"fedora", fedora, "sudo dnf install gcc glibc-devel mesa-libGL-devel"},
		{"arch", arch, "sudo pacman -S --needed gcc libglvnd"},
		{"suse", suse, "sudo zypper install gcc glibc-devel Mesa-libGL-devel"},
		{"fedora as root", machine{system: "linux", root: true, managers: []string{"dnf"}}, "dnf install gcc glibc-devel mesa-libGL-devel"},
		{"macOS", machine{system: "darwin"}, "xcode-select --install"},
		{"Windows", machine{system: "windows"}, "winget install MSYS2.MSYS2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := planInstall(glAndKeys, c.on)
			assert.Empty(t, p.run)
			assert.Contains(t, p.say, "\n    "+c.command+"\n")
			assert.Contains(t, p.say, "say this command again.")
		})
	}
}

func TestAMachineWithNoKnownManagerGetsTheNamesInWords(t *testing.T) {
	p := planInstall(glAndKeys, unknown)
	assert.Empty(t, p.run)
	assert.Contains(t, p.say, "Missing: a C compiler with its headers, the OpenGL headers.")
}

func TestEveryPartTheWindowNeedsHasANameUnderEveryManager(t *testing.T) {
	for _, p := range windowParts("linux") {
		assert.NotNil(t, p.probe, p.what)
		for _, manager := range knownManagers {
			assert.NotEmpty(t, packageNames(manager, []part{p}), "%s under %s", p.what, manager)
		}
	}
	assert.Equal(t, []string{"a C compiler with its headers"}, strings.Split(words(windowParts("darwin")), ", "))
}

func TestNoPackageIsListedTwice(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range aptNames(append(windowParts("linux"), references...)) {
		assert.False(t, seen[name], name)
		seen[name] = true
	}
}

func TestOnlyTheEndOfALongOutputIsShown(t *testing.T) {
	assert.Equal(t, "b\nc", lastLines("a\nb\nc\n", 2))
	assert.Equal(t, "a", lastLines("a\n", 2))
}

func TestAFailedInstallationShowsWhatItPrinted(t *testing.T) {
	h := house{root: t.TempDir()}
	err := h.quietly([]string{"go", "no-such-command"})
	assert.ErrorContains(t, err, "unknown command")
	assert.ErrorContains(t, err, "“go no-such-command” failed")
	assert.NoError(t, h.quietly([]string{"go", "version"}))
}
