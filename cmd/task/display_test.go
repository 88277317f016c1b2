package main

import (
	"net"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAWindowNeedsADisplayThatAnswers(t *testing.T) {
	at := func(addresses ...string) func(string, string) bool {
		return func(_, address string) bool {
			for _, a := range addresses {
				if a == address {
					return true
				}
			}
			return false
		}
	}
	for _, c := range []struct {
		name, x, wayland string
		answers          func(string, string) bool
		why              string // empty: a window can be opened
	}{
		{"a desktop", ":0", "", at("/tmp/.X11-unix/X0"), ""},
		{"a desktop with a screen number", ":1.0", "", at("/tmp/.X11-unix/X1"), ""},
		{"a desktop on an abstract socket", ":0", "wayland-0", at("@/tmp/.X11-unix/X0"), ""},
		{"forwarded by ssh", "localhost:10.0", "", at("localhost:6010"), ""},
		{"a socket's path", "/run/x:0", "", at("/run/x:0"), ""},
		{"nothing set", "", "", at(), "neither DISPLAY nor WAYLAND_DISPLAY is set"},
		{"Wayland alone", "", "wayland-0", at(), "xwayland"},
		{"a server that is gone", ":7", "", at("/tmp/.X11-unix/X0"), "DISPLAY is set to “:7” and nothing answers there"},
		{"no colon", "screen", "", at(), "which names no display"},
		{"no number", ":a", "", at(), "which has no number after the colon"},
	} {
		t.Run(c.name, func(t *testing.T) {
			can, why := xDisplay(c.x, c.wayland, c.answers)
			assert.Equal(t, c.why == "", can)
			assert.Contains(t, why, c.why)
		})
	}
}

func TestASocketAnswersWhileSomebodyListens(t *testing.T) {
	socket := filepath.Join(t.TempDir(), "X")
	require.Less(t, len(socket), 104, "longest path of a socket")
	listener, err := net.Listen("unix", socket)
	require.NoError(t, err)
	assert.True(t, answers("unix", socket))
	require.NoError(t, listener.Close())
	assert.False(t, answers("unix", socket))
}

func TestTheReasonFitsAfterNoWindowHere(t *testing.T) {
	_, why := xDisplay("", "", nil)
	assert.Equal(t, strings.ToLower(why[:1]), why[:1])
	assert.False(t, strings.HasSuffix(why, "."))
}
