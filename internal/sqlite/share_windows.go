package sqlite

import (
	"path/filepath"
	"syscall"
	"unsafe"
)

// remote is DRIVE_REMOTE. Source: GetDriveTypeW, Windows API.
const remote = 4

var getDriveType = syscall.NewLazyDLL("kernel32.dll").NewProc("GetDriveTypeW")

// shareOf tells whether a folder lies on a disk across a network.
func shareOf(folder string) bool {
	root, err := syscall.UTF16PtrFromString(filepath.VolumeName(folder) + `\`)
	if err != nil {
		return false
	}
	kind, _, _ := getDriveType.Call(uintptr(unsafe.Pointer(root)))
	return kind == remote
}
