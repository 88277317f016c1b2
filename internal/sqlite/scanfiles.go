package sqlite

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"io"

	"meltwright/internal/quote"
)

// mostKept is how large a scan's file may be, squeezed; SQLite itself takes a
// little less than a thousand million bytes in one value.
const mostKept = 400 << 20

// KeepScanFile keeps the file of a scan with a quote.
func (s *Store) KeepScanFile(ctx context.Context, id quote.ID, f quote.ScanFile, from io.Reader) error {
	data, size, err := squeezed(f, from)
	if err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		if _, err := standing(ctx, tx, id); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO scan_files (quote, sha256, name, size, data) VALUES (?, ?, ?, ?, ?)
			ON CONFLICT DO NOTHING`, id, f.SHA256, f.Name, size, data)
		return err
	})
}

// squeezed reads a file, squeezes it, and checks that it has its sum.
func squeezed(f quote.ScanFile, from io.Reader) (data []byte, size int64, err error) {
	var out bytes.Buffer
	to, _ := gzip.NewWriterLevel(&out, gzip.BestSpeed)
	sum := sha256.New()
	block := make([]byte, 1<<20)
	for err == nil {
		var n int
		n, err = from.Read(block)
		sum.Write(block[:n])
		size += int64(n)
		if _, err := to.Write(block[:n]); err != nil {
			return nil, 0, err
		}
		if out.Len() > mostKept {
			return nil, 0, refusal(nil, "Scan file", f.Name, "is too large to be kept with the quote", "keep it in a folder of the work; nothing here needs it again")
		}
	}
	if !errors.Is(err, io.EOF) {
		return nil, 0, err
	}
	if hex.EncodeToString(sum.Sum(nil)) != f.SHA256 {
		return nil, 0, refusal(nil, "Scan file", f.Name, "is not the one that was measured any more", "open it again as a scan")
	}
	err = to.Close()
	return out.Bytes(), size, err
}

// KeptScanFiles lists the scan files that are kept with a quote.
func (s *Store) KeptScanFiles(ctx context.Context, id quote.ID) (list []quote.ScanFile, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, func(row *sql.Rows) error {
			var f quote.ScanFile
			err := row.Scan(&f.SHA256, &f.Name, &f.Size)
			list = append(list, f)
			return err
		}, `SELECT sha256, name, size FROM scan_files WHERE quote = ? ORDER BY name, sha256`, id)
	})
	return list, err
}

// WriteScanFile writes a kept file as it was.
func (s *Store) WriteScanFile(ctx context.Context, id quote.ID, sum string, to io.Writer) error {
	var name string
	var data []byte
	err := s.read(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `SELECT name, data FROM scan_files WHERE quote = ? AND sha256 = ?`, id, sum).Scan(&name, &data)
		if errors.Is(err, sql.ErrNoRows) {
			return refusal(quote.ErrNotFound, "Scan file", "", "is not kept with this quote", "open the scan from its own file")
		}
		return err
	})
	if err != nil {
		return err
	}
	from, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return damagedScan(name, err)
	}
	whole := sha256.New()
	if _, err := io.Copy(io.MultiWriter(to, whole), readable{ctx, from, name}); err != nil {
		return err
	}
	if hex.EncodeToString(whole.Sum(nil)) != sum {
		return damagedScan(name, errors.New("its sum is another"))
	}
	return nil
}

func damagedScan(name string, err error) error {
	return refusal(quote.ErrDamaged, "Scan file", name, fmt.Sprintf("cannot be read (%v)", err), "restore it from a backup; the quote itself does not need it")
}

// readable is a squeezed file whose errors say that it is damaged, and which ends
// with its context.
type readable struct {
	ctx  context.Context
	from io.Reader
	name string
}

func (r readable) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := r.from.Read(p)
	if err != nil && !errors.Is(err, io.EOF) {
		err = damagedScan(r.name, err)
	}
	return n, err
}

// DropScanFile keeps a file no longer.
func (s *Store) DropScanFile(ctx context.Context, id quote.ID, sum string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM scan_files WHERE quote = ? AND sha256 = ?`, id, sum)
		return err
	})
}
