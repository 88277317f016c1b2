package mesh

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
)

// OpenScan reads a scan file and makes its faces agree. What is sound in a
// broken file is kept, and Report.Notes says what is wrong; the error is a
// fault.Fault where nothing could be had. progress, if not nil, hears the share
// that is done.
func OpenScan(ctx context.Context, path string, progress func(done float64)) (*Opened, error) {
	m, report, err := ReadFile(ctx, path, progress)
	if err != nil && m == nil {
		return nil, err
	}
	report.Name = filepath.Base(path)
	sum, err := checksum(ctx, path)
	if err != nil {
		return nil, err
	}
	return Prepare(ctx, m, report, sum)
}

// checksum is the SHA-256 of a file, in hexadecimal.
func checksum(ctx context.Context, path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, &stoppable{ctx, f}); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// stoppable is a reader that ends with its context.
type stoppable struct {
	ctx context.Context
	r   io.Reader
}

func (s *stoppable) Read(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.r.Read(p)
}
