package sqlite

import "syscall"

// local is MNT_LOCAL, the flag of a file system on this computer. Source: sys/mount.h.
const local = 0x1000

// shareOf tells whether a folder lies on a disk across a network.
func shareOf(folder string) bool {
	var info syscall.Statfs_t
	return syscall.Statfs(folder, &info) == nil && info.Flags&local == 0
}
