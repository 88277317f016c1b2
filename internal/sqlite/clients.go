package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"meltwright/internal/quote"
)

const client = `SELECT c.id, c.name, c.contact, c.email, c.phone, c.address, c.notes, c.version `

// Clients lists the clients of whom every word is in the name, the contact, the
// addresses or the notes, by name; all of them where there is no word.
func (s *Store) Clients(ctx context.Context, words string) (all []quote.Client, err error) {
	question, args := client+`FROM clients c`, []any(nil)
	if m := match(words); m != "" {
		question, args = client+`FROM client_search f JOIN clients c ON c.id = f.rowid WHERE client_search MATCH ?`, []any{m}
	}
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, func(row *sql.Rows) error {
			var c quote.Client
			err := row.Scan(&c.ID, &c.Name, &c.Contact, &c.Email, &c.Phone, &c.Address, &c.Notes, &c.Version)
			all = append(all, c)
			return err
		}, question, args...)
	})
	if err != nil {
		return nil, err
	}
	byName(all)
	return all, nil
}

// byName sorts as a card index is: Émile beside Emil, whatever the case.
func byName(all []quote.Client) {
	keys := make(map[quote.ClientID]string, len(all))
	for _, c := range all {
		keys[c.ID] = plain(c.Name)
	}
	slices.SortFunc(all, func(a, b quote.Client) int {
		return cmp.Or(cmp.Compare(keys[a.ID], keys[b.ID]), cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
}

// Latin letters with marks, after the letters they are filed with.
var marked = strings.NewReplacer(pairs(
	"aàáâãäåāăą", "cçćĉċč", "dďđð", "eèéêëēĕėęě", "gĝğġģ", "hĥħ", "iìíîïĩīĭįı", "jĵ", "kķ", "lĺļľŀł",
	"nñńņňŋ", "oòóôõöøōŏő", "rŕŗř", "sśŝşšș", "tţťŧț", "uùúûüũūŭůűų", "wŵ", "yýÿŷ", "zźżž",
)...)

func pairs(rows ...string) []string {
	replaced := []string{"æ", "ae", "œ", "oe", "ß", "ss", "þ", "th"}
	for _, row := range rows {
		for _, r := range row[1:] {
			replaced = append(replaced, string(r), row[:1])
		}
	}
	return replaced
}

// plain is a name as it is filed: small letters without marks.
func plain(name string) string {
	unmarked := strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, name)
	return marked.Replace(unmarked)
}

// SaveClient keeps a client: a new one where the ID is zero. Quotes that belong
// to it are found by its new name at once. A Version that is not the kept one is
// quote.ErrOutdated.
func (s *Store) SaveClient(ctx context.Context, c quote.Client) (quote.Client, error) {
	if strings.TrimSpace(c.Name) == "" {
		return quote.Client{}, refusal(nil, "Client, name", c.Name, "is empty", "give the name of a body or a person")
	}
	err := s.write(ctx, func(tx *sql.Tx) (err error) {
		if c.ID == 0 {
			c, err = insertClient(ctx, tx, c)
		} else {
			c, err = updateClient(ctx, tx, c)
		}
		return err
	})
	if err != nil {
		return quote.Client{}, err
	}
	return c, nil
}

func insertClient(ctx context.Context, tx *sql.Tx, c quote.Client) (quote.Client, error) {
	c.Version = 1
	done, err := tx.ExecContext(ctx, `INSERT INTO clients (name, contact, email, phone, address, notes, version) VALUES (?, ?, ?, ?, ?, ?, 1)`,
		c.Name, c.Contact, c.Email, c.Phone, c.Address, c.Notes)
	if err != nil {
		return c, err
	}
	id, err := done.LastInsertId()
	c.ID = quote.ClientID(id)
	return c, err
}

func updateClient(ctx context.Context, tx *sql.Tx, c quote.Client) (quote.Client, error) {
	var name string
	var version int64
	err := tx.QueryRowContext(ctx, `SELECT name, version FROM clients WHERE id = ?`, c.ID).Scan(&name, &version)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return c, noClient(c.ID)
	case err != nil:
		return c, err
	case version != c.Version:
		return c, refusal(quote.ErrOutdated, "Client", name, "was changed in another window since it was opened here", "open it again to see that change, then make yours")
	}
	c.Version++
	_, err = tx.ExecContext(ctx, `UPDATE clients SET name = ?, contact = ?, email = ?, phone = ?, address = ?, notes = ?, version = ? WHERE id = ?`,
		c.Name, c.Contact, c.Email, c.Phone, c.Address, c.Notes, c.Version, c.ID)
	if err != nil {
		return c, err
	}
	_, err = tx.ExecContext(ctx, `UPDATE quotes SET body = ? WHERE client_id = ? AND body <> ?`, c.Name, c.ID, c.Name)
	return c, err
}

func clientName(ctx context.Context, tx *sql.Tx, id quote.ClientID) (name string, err error) {
	err = tx.QueryRowContext(ctx, `SELECT name FROM clients WHERE id = ?`, id).Scan(&name)
	if errors.Is(err, sql.ErrNoRows) {
		err = noClient(id)
	}
	return name, err
}

func noClient(id quote.ClientID) error {
	return refusal(quote.ErrNotFound, "Client", strconv.FormatInt(int64(id), 10), "is not in the file", "choose one of the list, or enter a new one")
}
