package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// ParsePath reads SVG path data (SVG 2, "Paths") made of the commands M, L, H,
// V, C and Z, in capitals for places and in small letters for steps from the
// place before. Other commands, and numbers that are missing or not numbers,
// are an error that names the command.
func ParsePath(data string) (Path, error) {
	r := pathReader{rest: data}
	for {
		r.skip()
		if r.rest == "" {
			return r.path, nil
		}
		if err := r.command(); err != nil {
			return nil, err
		}
	}
}

// pathReader is how far path data has been read.
type pathReader struct {
	rest      string
	path      Path
	at, start Point
	last      byte // the command in force, for numbers that follow without one
}

// skip passes over spaces and commas.
func (r *pathReader) skip() { r.rest = strings.TrimLeft(r.rest, " \t\r\n,") }

// command reads one command and its numbers.
func (r *pathReader) command() error {
	c := r.rest[0]
	switch {
	case strings.IndexByte("MmLlHhVvCcZz", c) >= 0:
		r.rest = r.rest[1:]
	case c >= 'A' && c <= 'Z', c >= 'a' && c <= 'z', r.last == 0, r.last == 'Z', r.last == 'z':
		return fmt.Errorf("path data holds %q, where M, L, H, V, C or Z belongs", c)
	case r.last == 'M':
		c = 'L' // points after the first of a move are lines
	case r.last == 'm':
		c = 'l'
	default:
		c = r.last
	}
	r.last = c
	numbers, err := r.numbers(map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6}[c&^0x20])
	if err != nil {
		return fmt.Errorf("path data: %c %w", c, err)
	}
	return r.step(c, numbers)
}

// step adds the step of command c to the path.
func (r *pathReader) step(c byte, n [6]float64) error {
	if len(r.path) == 0 && c&^0x20 != 'M' {
		return fmt.Errorf("path data begins with %c, where M belongs", c)
	}
	var from Point // what the numbers are measured from
	if c >= 'a' {
		from = r.at
	}
	switch c &^ 0x20 {
	case 'M':
		r.at = Point{from.X + n[0], from.Y + n[1]}
		r.start = r.at
		r.path.Move(r.at.X, r.at.Y)
		return nil
	case 'H':
		r.at.X = from.X + n[0]
	case 'V':
		r.at.Y = from.Y + n[0]
	case 'L':
		r.at = Point{from.X + n[0], from.Y + n[1]}
	case 'C':
		r.at = Point{from.X + n[4], from.Y + n[5]}
		r.path.Cubic(from.X+n[0], from.Y+n[1], from.X+n[2], from.Y+n[3], r.at.X, r.at.Y)
		return nil
	case 'Z':
		r.at = r.start
		r.path.Close()
		return nil
	}
	r.path.Line(r.at.X, r.at.Y)
	return nil
}

// numbers reads count numbers, which may follow each other without a space
// where a sign or a second point begins the next.
func (r *pathReader) numbers(count int) (n [6]float64, err error) {
	for i := range count {
		r.skip()
		end := numberEnd(r.rest)
		if n[i], err = strconv.ParseFloat(r.rest[:end], 64); err != nil {
			return n, fmt.Errorf("needs %d numbers and has %d", count, i)
		}
		r.rest = r.rest[end:]
	}
	return n, nil
}

// numberEnd is where the number at the start of s ends.
func numberEnd(s string) int {
	point, exponent := false, false
	for i := range len(s) {
		c := s[i]
		switch {
		case c >= '0' && c <= '9':
		case c == '.' && !point && !exponent:
			point = true
		case (c == 'e' || c == 'E') && !exponent && i > 0:
			exponent = true
		case (c == '-' || c == '+') && (i == 0 || s[i-1] == 'e' || s[i-1] == 'E'):
		default:
			return i
		}
	}
	return len(s)
}
