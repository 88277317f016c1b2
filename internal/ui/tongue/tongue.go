// Package tongue puts right how a desktop names its language, where the toolkit
// would complain of it. The toolkit reads that while the program is being
// initialised, so it must be done earlier still: Go initialises packages that
// need nothing in the order of their import paths, and this one needs little
// and comes before text/template, which the toolkit's reader needs.
package tongue

import (
	"os"
	"strings"
)

func init() {
	if name, value := Remedy(os.Getenv); name != "" {
		_ = os.Setenv(name, value)
	}
}

// Remedy gives the setting to make, and its value, where the environment names
// the plain language of C with a set of letters ("C.UTF-8"), as servers and
// containers do: the toolkit takes "C" for the name of a language then. The name
// is empty where nothing is wrong. Source for the order: GNU gettext manual,
// Locale Environment Variables.
func Remedy(env func(string) string) (name, value string) {
	for _, at := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		locale := env(at)
		if locale == "" {
			continue
		}
		plain, _, _ := strings.Cut(locale, ".")
		if plain != locale && (plain == "C" || plain == "POSIX") && env("LANGUAGE") == "" {
			return "LANGUAGE", "en"
		}
		break
	}
	return "", ""
}
