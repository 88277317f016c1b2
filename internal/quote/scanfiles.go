package quote

import (
	"context"
	"io"
)

// ScanFile is a scan's own file, kept with a quote by choice. No estimate needs it.
type ScanFile struct {
	SHA256 string // of the file, in hexadecimal
	Name   string // without folders
	Size   int64  // bytes
}

// ScanFiles keeps the files of scans with quotes. They go when their quote is
// removed from the bin for good.
type ScanFiles interface {
	// KeepScanFile reads a file to its end and keeps it; what has not that sum is
	// refused. One that is kept already stays.
	KeepScanFile(ctx context.Context, id ID, f ScanFile, from io.Reader) error
	// KeptScanFiles lists what is kept with a quote, by name.
	KeptScanFiles(ctx context.Context, id ID) ([]ScanFile, error)
	// WriteScanFile writes a kept file as it was.
	WriteScanFile(ctx context.Context, id ID, sha256 string, to io.Writer) error
	// DropScanFile keeps a file no longer; one that is not kept is no error.
	DropScanFile(ctx context.Context, id ID, sha256 string) error
}
