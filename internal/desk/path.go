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

// WordingPath is the folder in which this computer's user keeps wording of his
// own for the papers, beside the quotes: en/care.tmpl and its like. It need not be
// there.
func WordingPath() (string, error) {
	path, err := StorePath()
	return filepath.Join(filepath.Dir(path), "wording"), err
}
