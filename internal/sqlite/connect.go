package sqlite

import (
	"database/sql"
	"net/url"
	"path/filepath"
	"strings"

	driver "modernc.org/sqlite"
)

func init() {
	// As durable as fsync, and it does not wait for the file's timestamps. Where
	// a system has no such call the setting stays off, so the error is no loss.
	_, _ = driver.Fdatasync(true)
}

// mode is what a connection may do, in the words of SQLite's file addresses.
type mode string

const (
	toRead   mode = "ro"  // an existing file, never changed
	toWrite  mode = "rw"  // an existing file
	toCreate mode = "rwc" // made if it is not there
)

// patience is how long a connection waits for another to finish, in milliseconds.
const patience = "busy_timeout(5000)"

// pragmas of every connection. Patience comes first, because the others may
// have to wait; foreign keys have to be asked for; fullfsync counts on macOS,
// where a plain fsync does not reach the disk.
var pragmas = []string{patience, "foreign_keys(1)", "trusted_schema(0)", "cell_size_check(1)", "cache_size(-8000)", "fullfsync(1)", "checkpoint_fullfsync(1)"}

// lasting makes a commit survive a power cut: written to the log, and the log
// flushed, before it is acknowledged.
var lasting = []string{"journal_mode(WAL)", "synchronous(FULL)"}

// alone keeps the file to one connection, for disks across a network: the
// memory that connections share in WAL mode does not reach other computers.
const alone = "locking_mode(EXCLUSIVE)"

// onShare tells whether a folder lies on a disk across a network. Tests put
// their own answer here.
var onShare = shareOf

// settings are those of connections that change the file at path.
func settings(path string) []string {
	if onShare(filepath.Dir(path)) {
		return append([]string{alone}, lasting...)
	}
	return lasting
}

// connect opens a pool on the file at path. Nothing is opened yet; the first
// statement does that.
func connect(path string, m mode, extra ...string) (*sql.DB, error) {
	return sql.Open("sqlite", address(path, m, extra...))
}

// address writes a file's path and settings as SQLite reads them. The path is
// escaped: a raw one would be cut at # and ?, and changed at %.
func address(path string, m mode, extra ...string) string {
	p := filepath.ToSlash(path)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p // C:/shop
	}
	q := url.Values{"mode": {string(m)}, "_txlock": {"immediate"}, "_defensive": {"1"}, "_dqs": {"0"}, "_error_rc": {"1"}}
	q["_pragma"] = append(append([]string{}, pragmas...), extra...)
	u := url.URL{Scheme: "file", Path: p, RawQuery: q.Encode(), OmitHost: true}
	return u.String()
}
