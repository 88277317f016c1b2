package desk

import (
	"context"
	"io"
	"os"

	"meltwright/internal/fault"
	"meltwright/internal/mesh"
	"meltwright/internal/quote"
)

// KeepScanFile keeps the file of a scan with a quote, from where it lies. A file
// that is not the one that was measured is refused.
func (d *Desk) KeepScanFile(ctx context.Context, id quote.ID, k *mesh.Scan, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return fault.Fault{Field: "Scan file", Value: path, Problem: "cannot be read: " + err.Error(), Remedy: "open it again from where it lies now"}
	}
	defer f.Close()
	return d.store.KeepScanFile(ctx, id, quote.ScanFile{SHA256: k.SHA256, Name: k.File}, f)
}

// KeptScanFiles lists the scan files that are kept with a quote.
func (d *Desk) KeptScanFiles(ctx context.Context, id quote.ID) ([]quote.ScanFile, error) {
	return d.store.KeptScanFiles(ctx, id)
}

// WriteScanFile writes a kept scan file as it was.
func (d *Desk) WriteScanFile(ctx context.Context, id quote.ID, sha256 string, to io.Writer) error {
	return d.store.WriteScanFile(ctx, id, sha256, to)
}

// DropScanFile keeps a scan file no longer.
func (d *Desk) DropScanFile(ctx context.Context, id quote.ID, sha256 string) error {
	return d.store.DropScanFile(ctx, id, sha256)
}
