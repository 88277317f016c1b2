package main

import (
	"fmt"
	"net"
	"os"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// findDisplay says whether a window can be opened here, and if not, why not.
func findDisplay() (bool, string) {
	if runtime.GOOS == "darwin" || runtime.GOOS == "windows" {
		return true, ""
	}
	return xDisplay(os.Getenv("DISPLAY"), os.Getenv("WAYLAND_DISPLAY"), answers)
}

// xDisplay judges by the two settings a desktop makes. The window draws on X,
// which a Wayland desktop offers through Xwayland by setting DISPLAY too.
func xDisplay(x, wayland string, answers func(network, address string) bool) (bool, string) {
	if x == "" && wayland == "" {
		return false, "there is no display: neither DISPLAY nor WAYLAND_DISPLAY is set"
	}
	if x == "" {
		return false, "this Wayland desktop shows no X windows: DISPLAY is not set; installing xwayland brings that"
	}
	calls, err := xAddresses(x)
	if err != nil {
		return false, err.Error()
	}
	for _, c := range calls {
		if answers(c[0], c[1]) {
			return true, ""
		}
	}
	return false, fmt.Sprintf("DISPLAY is set to “%s” and nothing answers there", x)
}

// xAddresses gives where the X server of a DISPLAY such as ":0", "localhost:10.0"
// or, on macOS, a socket's path listens, as network and address.
// Source: X(7), "Display names".
func xAddresses(display string) ([][2]string, error) {
	if strings.HasPrefix(display, "/") {
		return [][2]string{{"unix", display}}, nil
	}
	colon := strings.LastIndex(display, ":")
	if colon < 0 {
		return nil, fmt.Errorf("DISPLAY is set to “%s”, which names no display; “:0” would", display)
	}
	host := display[:colon]
	number, _, _ := strings.Cut(display[colon+1:], ".")
	n, err := strconv.Atoi(number)
	if err != nil || n < 0 {
		return nil, fmt.Errorf("DISPLAY is set to “%s”, which has no number after the colon; “:0” would", display)
	}
	if host == "" || host == "unix" {
		socket := "/tmp/.X11-unix/X" + number
		return [][2]string{{"unix", socket}, {"unix", "@" + socket}}, nil
	}
	return [][2]string{{"tcp", net.JoinHostPort(host, strconv.Itoa(6000+n))}}, nil
}

// answers tries to reach an X server.
func answers(network, address string) bool {
	c, err := net.DialTimeout(network, address, 3*time.Second)
	if err != nil {
		return false
	}
	_ = c.Close()
	return true
}
