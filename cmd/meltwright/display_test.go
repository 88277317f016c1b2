package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// patience is how long a person would wait before saying that nothing happens.
const patience = 60 * time.Second

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// tags are the build tags of the window.
func tags() string {
	if s, ok := os.LookupEnv("MELTWRIGHT_TAGS"); ok {
		return s
	}
	return "migrated_fynedo,no_emoji,no_metadata"
}

// built builds the program and gives its path.
func built(t testing.TB) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "meltwright")
	out, err := exec.Command(needTool(t, "go"), "build", "-tags", tags(), "-o", path, ".").CombinedOutput()
	require.NoError(t, err, string(out))
	return path
}

// screen starts a display without a screen and gives the settings by which
// programs find it: its name, a home of its own, letters and drawing in software.
func screen(t testing.TB) []string {
	t.Helper()
	home := t.TempDir()
	env := append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME="+filepath.Join(home, ".config"),
		"LANG=en_US.UTF-8", "LIBGL_ALWAYS_SOFTWARE=1", "WAYLAND_DISPLAY=")
	for n := 100 + os.Getpid()%400; n < 600; n++ {
		if seen := append(env, fmt.Sprintf("DISPLAY=:%d", n)); startDisplay(t, n, seen) {
			return seen
		}
	}
	t.Fatal("every display is in use")
	return nil
}

// startDisplay starts display number n, and tells whether it was free: a server
// whose number another has ends at once. It is ours when it answers while its
// server runs, which it goes on doing when who asked has gone (noreset).
func startDisplay(t testing.TB, n int, env []string) bool {
	t.Helper()
	x := exec.Command(needTool(t, "Xvfb"), fmt.Sprintf(":%d", n), "-screen", "0", "1280x820x24", "-nolisten", "tcp", "-noreset")
	require.NoError(t, x.Start())
	ended := make(chan struct{})
	go func() {
		_ = x.Wait()
		close(ended)
	}()
	t.Cleanup(func() {
		_ = x.Process.Signal(os.Interrupt) // so that it takes its lock away
		<-ended
	})
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	for late := time.After(patience); ; {
		select {
		case <-ended:
			return false
		case <-late:
			t.Fatal("the display does not answer")
		case <-tick.C:
			c := exec.Command(needTool(t, "xdotool"), "getmouselocation")
			c.Env = env
			if c.Run() == nil {
				return true
			}
		}
	}
}

// person is somebody at the window of a running program.
type person struct {
	testing.TB
	env     []string
	xdotool string
	program *exec.Cmd
	said    noise
	ended   chan error
}

// noise is what a program prints, which may be read while it is printed.
type noise struct {
	mu sync.Mutex
	b  bytes.Buffer
}

// Write implements io.Writer.
func (n *noise) Write(p []byte) (int, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.Write(p)
}

func (n *noise) String() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.String()
}

// sit starts the program and puts the keyboard into its window.
func sit(t testing.TB, program string, args ...string) *person {
	t.Helper()
	p := &person{TB: t, env: screen(t), xdotool: needTool(t, "xdotool"), ended: make(chan error, 1)}
	p.program = exec.Command(program, args...)
	p.program.Env, p.program.Stdout, p.program.Stderr = p.env, &p.said, &p.said
	require.NoError(t, p.program.Start())
	go func() { p.ended <- p.program.Wait() }()
	t.Cleanup(func() {
		_ = p.program.Process.Kill()
		t.Log(p.said.String())
	})
	var window string
	p.until("the window opens", func() bool {
		out, _ := p.try("search", "--onlyvisible", "--name", "Meltwright")
		window, _, _ = strings.Cut(out, "\n")
		return window != ""
	})
	p.do("windowmove", window, "0", "0")
	p.do("windowsize", window, "1280", "820")
	p.until("the window has the keyboard", func() bool {
		p.do("windowfocus", window)
		out, _ := p.try("getwindowfocus")
		return strings.TrimSpace(out) == window
	})
	return p
}

// try runs xdotool.
func (p *person) try(args ...string) (string, error) {
	c := exec.Command(p.xdotool, args...)
	c.Env = p.env
	out, err := c.Output()
	return string(out), err
}

func (p *person) do(args ...string) {
	p.Helper()
	_, err := p.try(args...)
	require.NoError(p, err, "xdotool %s", strings.Join(args, " "))
}

// press presses keys, such as ctrl+n, one after the other.
func (p *person) press(keys ...string) {
	p.Helper()
	p.do(append([]string{"key", "--delay", "60"}, keys...)...)
}

// times is a key so many times.
func times(n int, key string) []string {
	keys := make([]string, n)
	for i := range keys {
		keys[i] = key
	}
	return keys
}

// write types a text.
func (p *person) write(text string) {
	p.Helper()
	p.do("type", "--delay", "40", "--", text)
}

// until waits for something to happen, and fails when patience is at its end or
// the program has ended.
func (p *person) until(what string, happened func() bool) {
	p.Helper()
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	late := time.After(patience)
	for !happened() {
		select {
		case err := <-p.ended:
			p.ended <- err
			require.FailNow(p, "the program ended before "+what, "%v\n%s", err, p.said.String())
		case <-late:
			require.FailNow(p, "waited in vain until "+what, p.said.String())
		case <-tick.C:
		}
	}
}

// leaves waits until the program has ended by itself, without an error.
func (p *person) leaves() {
	p.Helper()
	select {
	case err := <-p.ended:
		require.NoError(p, err, p.said.String())
	case <-time.After(patience):
		require.FailNow(p, "the program does not end")
	}
}
