package parcel

import (
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestName is the most bytes of a file's name that all usual systems take,
// with room for a number behind it.
const longestName = 200

// plainName tells whether name is a file's name on every usual system, and
// nothing else: no folder, no drive, no device.
func plainName(name string) bool {
	if name == "" || len(name) > longestName || !utf8.ValidString(name) || strings.Trim(name, " .") != name {
		return false
	}
	if strings.ContainsAny(name, `/\:*?"<>|`) || strings.ContainsFunc(name, unsaid) {
		return false
	}
	stem, _, _ := strings.Cut(name, ".")
	return !device(strings.TrimSpace(stem))
}

// endings are how files of each kind end: no parcel brings a program.
var endings = map[Kind][]string{
	Picture: {".png", ".jpg", ".jpeg"},
	Scan:    {".stl", ".obj", ".ply", ".3mf", ".gltf", ".glb"},
}

// nameProblem says what is wrong with the name of an attachment.
func nameProblem(k Kind, name string) string {
	if !plainName(name) {
		return "has a name that is no plain name of a file"
	}
	if !slices.Contains(endings[k], strings.ToLower(path.Ext(name))) {
		return "does not end in " + strings.Join(endings[k], ", ") + ", as a " + string(k) + " does"
	}
	return ""
}

// unsaid are the signs that cannot be seen, or that turn the direction of what
// stands behind them, so that a name reads as another.
func unsaid(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError
}

// device tells of the names that Windows keeps for its devices, with any ending.
func device(stem string) bool {
	stem = strings.ToUpper(stem)
	switch stem {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	for _, port := range []string{"COM", "LPT"} {
		if n, ok := strings.CutPrefix(stem, port); ok && utf8.RuneCountInString(n) == 1 && strings.ContainsAny(n, "0123456789¹²³") {
			return true
		}
	}
	return false
}
