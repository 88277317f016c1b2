package sqlite

import (
	"context"
	"database/sql"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// dump writes testdata/schema-N.sql of the newest version N, where it is not
// there: once, when a new schema lands.
var dump = flag.Bool("dump", false, "write the dump of a schema that is new")

func dumpOf(version int) string {
	return filepath.Join("testdata", fmt.Sprintf("schema-%d.sql", version))
}

// statementsOf gives the statements that make a file of a version.
func statementsOf(t testing.TB, version int) string {
	t.Helper()
	text, err := os.ReadFile(dumpOf(version))
	require.NoError(t, err, "every schema that landed has its dump; write it with go test ./internal/sqlite -run Dump -dump")
	return string(text)
}

// ofVersion makes a file as a program of an earlier version left it.
func ofVersion(t testing.TB, version int) string {
	t.Helper()
	path := newFile(t)
	require.NoError(t, makeFolder(filepath.Dir(path)))
	tell(t, path, statementsOf(t, version))
	return path
}

func TestDumpOfTheNewestSchemaIsThere(t *testing.T) {
	if *dump && !there(dumpOf(len(migrations))) {
		s := newStore(t)
		furnish(t, s)
		require.NoError(t, os.WriteFile(dumpOf(len(migrations)), []byte(dumped(t, s)), 0o644))
	}
	statementsOf(t, len(migrations))
}

// furnish keeps one of everything.
func furnish(t testing.TB, s *Store) {
	t.Helper()
	small := shop.Book{Shop: "Ash Ferry Foundry", Currency: "CAD", Units: "metric", Dated: "2026-03-14"}
	require.NoError(t, s.SaveBook(t.Context(), small, march))
	c := keep(t, s, quote.Client{
		Name: "Town of Grönhaven", Contact: "Ida Moss", Notes: "pays in 30 days; 'as agreed'",
		People: []quote.Person{{Name: "Nils Reed", Role: "harbour master"}}, Sites: []quote.Site{{Name: "Harbour steps", Access: "no crane at low tide"}},
	})
	call := called(t, s, quote.Call{Title: "A figure for the harbour", Client: c.ID, Deadline: "2 May 2026", Due: may, Budget: "$150,000"})
	photo, err := s.KeepPicture(t.Context(), []byte("\xff\xd8\xff a photograph"))
	require.NoError(t, err)
	require.NoError(t, s.SetMark(t.Context(), quote.Logo, photo))
	q, err := s.Save(t.Context(), quote.Quote{
		Commission: harbour(), Client: c.ID, Call: call.ID, By: "Ada", Words: map[string]string{"idea": "She waits\nfor the ferry."},
		Pictures: []quote.Shown{{Picture: photo, Name: quote.Cover, Caption: "In clay"}},
	}, "$128,400", march)
	require.NoError(t, err)
	r := revisionOf(q)
	r.Book, r.Proposal, r.By = small, []byte("%PDF-1.3\x00\xff"), "Ada"
	r.Frozen = &quote.Frozen{Currency: "CAD", Price: 12840000, Lines: []quote.FrozenLine{{Stage: "wax", Item: "Wax", Text: "41.0 kg × 14.00", Amount: 57400}}}
	require.NoError(t, s.Issue(t.Context(), r))
	require.NoError(t, s.Delete(t.Context(), saved(t, s, "Owl", at(1)).ID, at(2)))
	saved(t, s, "Otter", at(3))
}

// dumped writes the file as statements that make it again.
func dumped(t testing.TB, s *Store) string {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "PRAGMA application_id = %d;\nPRAGMA user_version = %d;\n", ours, len(migrations))
	line := func(row *sql.Rows) error {
		var text string
		err := row.Scan(&text)
		b.WriteString(text + ";\n")
		return err
	}
	ctx := context.Background()
	require.NoError(t, each(ctx, s.db, line, `SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%'
		AND name NOT LIKE 'search\_%' ESCAPE '\' AND name NOT LIKE 'client\_search\_%' ESCAPE '\' OR type = 'trigger' ORDER BY rowid`))
	b.WriteString("DELETE FROM pulse;\n")
	for _, table := range []string{"pulse", "numbers", "clients", "calls", "pictures", "marks", "quotes", "sheets", "revisions", "shop_books"} {
		columns := []string{}
		require.NoError(t, each(ctx, s.db, func(row *sql.Rows) error {
			var name string
			err := row.Scan(&name)
			columns = append(columns, "quote("+name+")")
			return err
		}, `SELECT name FROM pragma_table_info(?)`, table))
		require.NoError(t, each(ctx, s.db, line, `SELECT 'INSERT INTO `+table+` VALUES (' || `+strings.Join(columns, ` || ', ' || `)+` || ')' FROM `+table))
	}
	return b.String()
}

func TestAFileOfEverySchemaThatEverLandedOpens(t *testing.T) {
	for version := 1; version <= len(migrations); version++ {
		s := opened(t, ofVersion(t, version))
		report := sound(t, s)
		want := Report{Quotes: 3, Revisions: 1, Clients: 1, Books: 1}
		if version > 1 {
			want.Calls, want.Pictures = 1, 1
		}
		assert.Equal(t, want, report)
		assert.Equal(t, []string{"Standing figure with dog"}, titles(t, s, quote.Filter{Words: "gronhaven 001"}))
		assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{Bin: true}))
		q, err := s.Quote(t.Context(), 1)
		require.NoError(t, err)
		assert.Equal(t, harbour(), q.Commission)
		assert.Equal(t, map[string]string{"idea": "She waits\nfor the ferry."}, q.Words)
		r, err := s.Revision(t.Context(), 1, "A")
		require.NoError(t, err)
		assert.Equal(t, []byte("%PDF-1.3\x00\xff"), r.Proposal)
		assert.Equal(t, []string{"Otter", "Standing figure with dog"}, titles(t, s, quote.Filter{Order: quote.ByPrice}))
		assert.Equal(t, r.ValidUntil, summaryOf(t, s, 1).ValidUntil)
		assert.Equal(t, "2026-004", saved(t, s, "Heron", march).Number)
	}
}

func TestASchemaThatLandedNeverChanges(t *testing.T) {
	for version := 1; version <= len(migrations); version++ {
		fresh := filepath.Join(t.TempDir(), "fresh.db")
		tell(t, fresh, migrations[:version]...)
		assert.Equal(t, schemaOf(t, ofVersion(t, version)), schemaOf(t, fresh))
	}
}

func schemaOf(t testing.TB, path string) (all []string) {
	t.Helper()
	db, err := connect(path, toRead)
	require.NoError(t, err)
	defer db.Close()
	require.NoError(t, each(context.Background(), db, func(row *sql.Rows) error {
		var text string
		err := row.Scan(&text)
		all = append(all, text)
		return err
	}, `SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY type, name`))
	return all
}

// later lets the program know one more version of the file, for one test.
func later(t testing.TB, statements string) {
	t.Helper()
	known := migrations
	migrations = append(append([]string{}, known...), statements)
	t.Cleanup(func() { migrations = known })
}

func versionOf(t testing.TB, path string) (version int) {
	t.Helper()
	db, err := connect(path, toRead)
	require.NoError(t, err)
	defer db.Close()
	require.NoError(t, db.QueryRowContext(context.Background(), `PRAGMA user_version`).Scan(&version))
	return version
}

func TestAnOlderFileIsCopiedAndThenBroughtUpToDate(t *testing.T) {
	path := ofVersion(t, len(migrations))
	known := len(migrations)
	later(t, `ALTER TABLE clients ADD COLUMN mood TEXT NOT NULL DEFAULT 'fine'`)
	s := opened(t, path)
	assert.Equal(t, len(migrations), versionOf(t, path))
	assert.Len(t, titles(t, s, quote.Filter{}), 2)
	backups, err := Backups(t.Context(), path)
	require.NoError(t, err)
	require.Len(t, backups, 1)
	assert.Equal(t, "before an update", backups[0].What)
	assert.Equal(t, 2, backups[0].Quotes)
	assert.NoError(t, backups[0].Err)
	assert.Contains(t, backups[0].Path, fmt.Sprintf("-before-%d.db", known+1))
	assert.Equal(t, known, versionOf(t, backups[0].Path))
}

func TestAMigrationThatFailsLeavesTheFileAsItWas(t *testing.T) {
	path := ofVersion(t, len(migrations))
	known := len(migrations)
	for _, statements := range []string{
		`ALTER TABLE clients ADD COLUMN mood TEXT; SELECT nonsense`,
		`DROP TABLE clients; CREATE TABLE clients (id INTEGER PRIMARY KEY) STRICT`, // quotes refer to it
	} {
		later(t, statements)
		_, err := Open(t.Context(), path)
		says(t, err, nil)
		migrations = migrations[:known]
		assert.Equal(t, known, versionOf(t, path))
		s := opened(t, path)
		sound(t, s)
		require.NoError(t, s.Close())
	}
}

func TestAnOlderFileOpensToReadAndStaysAsItIs(t *testing.T) {
	path := ofVersion(t, len(migrations))
	known := len(migrations)
	later(t, `ALTER TABLE clients ADD COLUMN mood TEXT NOT NULL DEFAULT 'fine'`)
	s, err := OpenReadOnly(t.Context(), path)
	require.NoError(t, err)
	defer s.Close()
	assert.Len(t, titles(t, s, quote.Filter{}), 2)
	assert.Equal(t, known, versionOf(t, path))
}

func TestAFileOfANewerVersionIsRefusedAndNotTouched(t *testing.T) {
	path := ofVersion(t, len(migrations))
	tell(t, path, fmt.Sprintf(`PRAGMA user_version = %d`, len(migrations)+2), `CREATE TABLE moods (mood TEXT)`)
	was, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, open := range []func(context.Context, string) (*Store, error){Open, OpenReadOnly} {
		_, err = open(t.Context(), path)
		says(t, err, quote.ErrNewer, path, "its version is "+strconv.Itoa(len(migrations)+2), "up to "+strconv.Itoa(len(migrations)), "install")
	}
	is, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, was, is)
	assert.NoDirExists(t, BackupFolder(path))
}

func TestManyWindowsThatOpenANewFileAtOnceAgree(t *testing.T) {
	path := newFile(t)
	done := make(chan error)
	const windows = 8
	for i := range windows {
		go func() {
			s, err := Open(context.Background(), path)
			if err == nil {
				_, err = s.Save(context.Background(), quote.Quote{Commission: harbour()}, fmt.Sprint(i), march)
				s.Close()
			}
			done <- err
		}()
	}
	for range windows {
		assert.NoError(t, <-done)
	}
	assert.Equal(t, windows, sound(t, opened(t, path)).Quotes)
}
