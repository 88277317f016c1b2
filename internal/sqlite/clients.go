package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"meltwright/internal/quote"
)

const client = `SELECT c.id, c.name, c.contact, c.email, c.phone, c.address, c.notes, c.people, c.sites, c.deleted, c.version `

// Clients lists the clients of whom every word is in the name, the addresses, the
// people, the sites or the notes, by name; all of them where there is no word.
func (s *Store) Clients(ctx context.Context, words string, removed bool) (all []quote.Client, err error) {
	question, args := client+`FROM clients c WHERE (c.deleted IS NOT NULL) = ?`, []any{removed}
	if m := match(words); m != "" {
		question = client + `FROM client_search f JOIN clients c ON c.id = f.rowid WHERE (c.deleted IS NOT NULL) = ? AND client_search MATCH ?`
		args = append(args, m)
	}
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, func(row *sql.Rows) error {
			c, err := readClient(row)
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

func readClient(row *sql.Rows) (c quote.Client, err error) {
	var people, sites string
	var deleted sql.NullInt64
	if err = row.Scan(&c.ID, &c.Name, &c.Contact, &c.Email, &c.Phone, &c.Address, &c.Notes, &people, &sites, &deleted, &c.Version); err != nil {
		return c, err
	}
	c.Deleted = momentOrNone(deleted)
	if c.People, err = decodeList[quote.Person](people, "the people of "+c.Name); err != nil {
		return c, err
	}
	c.Sites, err = decodeList[quote.Site](sites, "the sites of "+c.Name)
	return c, err
}

// cards writes the people and the sites of a client, and the words of both.
func cards(c quote.Client) (people, sites, words string, err error) {
	if people, err = encodeList(c.People); err != nil {
		return "", "", "", err
	}
	var all []string
	for _, p := range c.People {
		all = append(all, p.Name, p.Role, p.Email, p.Phone)
	}
	for _, x := range c.Sites {
		all = append(all, x.Name, x.Address, x.Access)
	}
	sites, err = encodeList(c.Sites)
	return people, sites, strings.Join(all, "\n"), err
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
	c.Version, c.Deleted = 1, time.Time{}
	people, sites, others, err := cards(c)
	if err != nil {
		return c, err
	}
	done, err := tx.ExecContext(ctx, `INSERT INTO clients (name, contact, email, phone, address, notes, people, sites, others, version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, 1)`,
		c.Name, c.Contact, c.Email, c.Phone, c.Address, c.Notes, people, sites, others)
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
	var deleted sql.NullInt64
	err := tx.QueryRowContext(ctx, `SELECT name, version, deleted FROM clients WHERE id = ?`, c.ID).Scan(&name, &version, &deleted)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return c, noClient(c.ID)
	case err != nil:
		return c, err
	case version != c.Version:
		return c, refusal(quote.ErrOutdated, "Client", name, "was changed in another window since it was opened here", "open it again to see that change, then make yours")
	}
	people, sites, others, err := cards(c)
	if err != nil {
		return c, err
	}
	c.Version, c.Deleted = c.Version+1, momentOrNone(deleted)
	_, err = tx.ExecContext(ctx, `UPDATE clients SET name = ?, contact = ?, email = ?, phone = ?, address = ?, notes = ?, people = ?, sites = ?, others = ?, version = ? WHERE id = ?`,
		c.Name, c.Contact, c.Email, c.Phone, c.Address, c.Notes, people, sites, others, c.Version, c.ID)
	if err != nil {
		return c, err
	}
	return c, rename(ctx, tx, c)
}

// rename has the quotes and the calls of a client found by its name of today.
func rename(ctx context.Context, tx *sql.Tx, c quote.Client) error {
	if _, err := tx.ExecContext(ctx, `UPDATE quotes SET body = ?1, filed = CASE client WHEN '' THEN ?2 ELSE filed END WHERE client_id = ?3 AND body <> ?1`, c.Name, plain(c.Name), c.ID); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, `UPDATE calls SET body = ?1 WHERE client_id = ?2 AND body <> ?1`, c.Name, c.ID)
	return err
}

// DeleteClient takes a client off the list; quotes that are made for it go on.
func (s *Store) DeleteClient(ctx context.Context, id quote.ClientID, now time.Time) error {
	return s.lay(ctx, `UPDATE clients SET deleted = ? WHERE id = ?`, int64(id), sql.NullInt64{Int64: micros(now), Valid: true}, "Client")
}

// RestoreClient puts a client back on the list.
func (s *Store) RestoreClient(ctx context.Context, id quote.ClientID) error {
	return s.lay(ctx, `UPDATE clients SET deleted = ? WHERE id = ?`, int64(id), sql.NullInt64{}, "Client")
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
