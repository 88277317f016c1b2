package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
)

// machine is what decides how something is installed on this computer.
type machine struct {
	system   string   // as Go names it: linux, darwin, windows
	root     bool     // we may change the system as we are
	sudo     bool     // sudo lets us do so without asking for a password
	managers []string // the package managers on the PATH, of those we know
}

// knownManagers in the order they are preferred where there are several.
var knownManagers = []string{"apt-get", "dnf", "pacman", "zypper"}

// thisMachine looks at the computer we run on.
func thisMachine() machine {
	m := machine{system: runtime.GOOS, root: os.Geteuid() == 0}
	for _, name := range knownManagers {
		if program(name)() {
			m.managers = append(m.managers, name)
		}
	}
	m.sudo = !m.root && program("sudo")() && exec.Command("sudo", "-n", "true").Run() == nil
	return m
}

// plan is how missing parts come onto a machine: commands to run, or, where
// we may not, words for the person to act on.
type plan struct {
	run [][]string
	say string
}

// planInstall decides how the missing parts are to be installed on m.
func planInstall(gone []part, m machine) plan {
	if len(gone) == 0 {
		return plan{}
	}
	if p, own := planOutsideLinux(m.system); own {
		return p
	}
	if len(m.managers) == 0 {
		return plan{say: "Missing: " + words(gone) + ".\nThis machine has no package manager that this task knows (" +
			strings.Join(knownManagers, ", ") + ").\nInstall them its own way, then say this command again."}
	}
	manager := m.managers[0]
	if manager == "apt-get" && (m.root || m.sudo) {
		return plan{run: aptCommands(gone, m.sudo)}
	}
	return plan{say: "Missing: " + words(gone) + ".\nInstall them with\n\n    " + typed(manager, gone, m.root) +
		"\n\nand then say this command again."}
}

// planOutsideLinux is for the systems whose C compiler no package manager of
// the system brings.
func planOutsideLinux(system string) (plan, bool) {
	switch system {
	case "darwin":
		return plan{say: "Missing: " + compiler.what + ". Install Apple's command line tools with\n\n" +
			"    xcode-select --install\n\nand then say this command again."}, true
	case "windows":
		return plan{say: "Missing: " + compiler.what + ". Install one with these two commands\n\n" +
			"    winget install MSYS2.MSYS2\n" +
			`    C:\msys64\usr\bin\bash -lc "pacman -S --noconfirm mingw-w64-ucrt-x86_64-gcc"` + "\n\n" +
			`add C:\msys64\ucrt64\bin to the PATH, open a new terminal, and say this command again.`}, true
	}
	return plan{}, false
}

// aptCommands installs by apt-get without a question asked, and waits for
// another installation to end: a new machine often begins with one.
func aptCommands(gone []part, sudo bool) [][]string {
	start := []string{"env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-o", "DPkg::Lock::Timeout=300"}
	if sudo {
		start = append([]string{"sudo", "-n"}, start...)
	}
	update := append(append([]string{}, start...), "update")
	install := append(append([]string{}, start...), "install", "-y", "--no-install-recommends")
	return [][]string{update, append(install, aptNames(gone)...)}
}

// typed is the command a person types to install the parts.
func typed(manager string, gone []part, root bool) string {
	sudo := "sudo "
	if root {
		sudo = ""
	}
	names := strings.Join(packageNames(manager, gone), " ")
	switch manager {
	case "apt-get":
		return sudo + "apt-get update && " + sudo + "apt-get install --no-install-recommends " + names
	case "pacman":
		return sudo + "pacman -S --needed " + names
	}
	return sudo + manager + " install " + names
}

// packageNames are the parts' packages under one manager.
func packageNames(manager string, parts []part) []string {
	var names []string
	for _, p := range parts {
		name := map[string]string{"apt-get": p.apt, "dnf": p.dnf, "pacman": p.pacman, "zypper": p.zypper}[manager]
		names = append(names, strings.Fields(name)...)
	}
	return names
}

func aptNames(parts []part) []string { return packageNames("apt-get", parts) }

// words lists the parts as a person would.
func words(parts []part) string {
	list := make([]string, len(parts))
	for i, p := range parts {
		list[i] = p.what
	}
	return strings.Join(list, ", ")
}

// provide sees to it that all parts are there, or says what the person must do.
func (h house) provide(parts []part) error {
	gone := missing(parts)
	if len(gone) == 0 {
		return nil
	}
	p := planInstall(gone, thisMachine())
	if p.say != "" {
		return errors.New(p.say)
	}
	h.say("Installing %s.", strings.Join(aptNames(gone), " "))
	for _, command := range p.run {
		if err := h.quietly(command); err != nil {
			return err
		}
	}
	if still := missing(gone); len(still) > 0 {
		return fmt.Errorf("installed, and yet missing: %s", words(still))
	}
	return nil
}

// quietly runs a command and shows the end of what it printed only if it fails.
func (h house) quietly(command []string) error {
	c := h.command(nil, command[0], command[1:]...)
	printed, err := c.CombinedOutput()
	if err != nil {
		return fmt.Errorf("%s\n“%s” failed: %w", lastLines(string(printed), 30), strings.Join(command, " "), err)
	}
	return nil
}

// lastLines gives the last n lines of a text.
func lastLines(text string, n int) string {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	return strings.Join(lines[max(0, len(lines)-n):], "\n")
}
