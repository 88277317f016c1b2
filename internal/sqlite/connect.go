package sqlite

import (
	"database/sql"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"time"

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

// patience is how long a change waits for another window to finish its own.
// Tests have less.
var patience = 5 * time.Second

// always are the settings of every connection. Patience is set first, because
// the rest may have to wait. Foreign keys have to be asked for; fullfsync counts
// on macOS, where a plain fsync does not reach the disk. The driver runs each
// _pragma in the order of the alphabet, before journal and synchronous; those
// that read the file must come after locking_mode, so cache_size goes by its
// longer name.
func always() []string {
	return []string{
		"_busy_timeout=" + strconv.FormatInt(patience.Milliseconds(), 10), "_txlock=immediate",
		"_defensive=1", "_dqs=0", "_error_rc=1", "_foreign_keys=1",
		"_pragma=cell_size_check(1)", "_pragma=fullfsync(1)", "_pragma=checkpoint_fullfsync(1)",
		"_pragma=main.cache_size(-8000)", "_pragma=trusted_schema(0)",
	}
}

// lasting makes a commit survive a power cut: written to the log, and the log
// flushed, before it is acknowledged.
var lasting = []string{"_journal_mode=WAL", "_synchronous=FULL"}

// alone keeps the file to one connection, for disks across a network: the
// memory that connections share in WAL mode does not reach other computers.
const alone = "_pragma=locking_mode(EXCLUSIVE)"

// loose lets tables be made anew under the rows that refer to them.
const loose = "_foreign_keys=0"

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

// address writes a file's path and settings as SQLite reads them; later
// settings of a name take the place of earlier ones, except pragmas, which add
// up. The path is escaped: a raw one would be cut at # and ?, and changed at %.
func address(path string, m mode, extra ...string) string {
	p := filepath.ToSlash(path)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p // C:/shop
	}
	q := url.Values{"mode": {string(m)}}
	for _, setting := range append(always(), extra...) {
		name, value, _ := strings.Cut(setting, "=")
		if name != "_pragma" {
			q.Del(name)
		}
		q.Add(name, value)
	}
	u := url.URL{Scheme: "file", Path: p, RawQuery: q.Encode(), OmitHost: true}
	return u.String()
}
