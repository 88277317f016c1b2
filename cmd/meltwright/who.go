package main

import (
	"cmp"
	"os"
	"os/user"
	"path/filepath"
)

// whoSits is the name that steps in a quote's life are kept under: that of the
// computer's user.
func whoSits() string {
	u, err := user.Current()
	if err != nil {
		return ""
	}
	return cmp.Or(u.Name, u.Username)
}

// rescueFolder is where what was typed lies while the disk of the quotes refuses
// it: among the user's passing files, which may be on another one.
func rescueFolder() string {
	dir, err := os.UserCacheDir()
	if err != nil {
		dir = os.TempDir()
	}
	return filepath.Join(dir, "meltwright-rescued")
}
