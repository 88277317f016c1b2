// Package buildinfo says which program this is. FyneApp.toml at the top of the
// repository says the same to the packager; a test holds the two together.
package buildinfo

// What the program is called, by people and by systems.
const (
	Name    = "Meltwright"
	ID      = "ca.meltwright.desk" // names the storage folder: never changes
	Version = "0.1.0"              // of the program, as semver.org counts
	Build   = 1                    // goes up by one with every release
)
