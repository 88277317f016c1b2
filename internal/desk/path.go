package desk

import (
	"os"
	"path/filepath"
)

// StorePath is where the quotes of this computer's user lie, for the window and
// the command line alike, where nobody names another file.
func StorePath() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "Meltwright", "meltwright.db"), nil
}
