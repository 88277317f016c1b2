package sqlite

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"slices"

	"meltwright/internal/quote"
)

func pictureID(data []byte) quote.PictureID {
	sum := sha256.Sum256(data)
	return quote.PictureID(hex.EncodeToString(sum[:]))
}

// KeepPicture keeps a picture's file; one that is kept already is not kept twice.
func (s *Store) KeepPicture(ctx context.Context, data []byte) (quote.PictureID, error) {
	id := pictureID(data)
	err := s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO pictures (id, data) VALUES (?, ?) ON CONFLICT DO NOTHING`, id, data)
		return err
	})
	if err != nil {
		return "", err
	}
	return id, nil
}

// Picture gives a picture's file, if it is what was kept.
func (s *Store) Picture(ctx context.Context, id quote.PictureID) (data []byte, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `SELECT data FROM pictures WHERE id = ?`, id).Scan(&data)
		if errors.Is(err, sql.ErrNoRows) {
			return refusal(quote.ErrNotFound, "Picture", "", "is not in the file", "add it again")
		}
		if err == nil && pictureID(data) != id {
			return spoiled("Picture")
		}
		return err
	})
	return data, err
}

func spoiled(what string) error {
	return refusal(quote.ErrDamaged, what, "", "is not what was kept: its checksum differs", "remove it and add it again, or restore a backup")
}

// noPicture is an error if one of a quote's pictures is not kept.
func noPicture(ctx context.Context, tx *sql.Tx, all []quote.Shown) error {
	for _, p := range all {
		var there bool
		if err := tx.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM pictures WHERE id = ?)`, p.Picture).Scan(&there); err != nil {
			return err
		}
		if !there {
			return refusal(quote.ErrNotFound, "Picture", p.Caption, "is not in the file", "add it again")
		}
	}
	return nil
}

// Marks gives the shop's own pictures, by name.
func (s *Store) Marks(ctx context.Context) (map[string]quote.PictureID, error) {
	marks := map[string]quote.PictureID{}
	err := s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, func(row *sql.Rows) error {
			var name string
			var id quote.PictureID
			err := row.Scan(&name, &id)
			marks[name] = id
			return err
		}, `SELECT name, picture FROM marks`)
	})
	return marks, err
}

// SetMark sets one of the shop's own pictures, or takes it away where id is empty.
func (s *Store) SetMark(ctx context.Context, name string, id quote.PictureID) error {
	if !slices.Contains(quote.Marks(), name) {
		return refusal(nil, "Mark", name, "is not one that a shop has", "give the shop's logo")
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		if id == "" {
			_, err := tx.ExecContext(ctx, `DELETE FROM marks WHERE name = ?`, name)
			return err
		}
		if err := noPicture(ctx, tx, []quote.Shown{{Picture: id, Caption: name}}); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO marks (name, picture) VALUES (?1, ?2) ON CONFLICT (name) DO UPDATE SET picture = ?2`, name, id)
		return err
	})
}

// sweepPictures removes the pictures that no quote and no mark shows.
func sweepPictures(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, `DELETE FROM pictures WHERE id NOT IN (SELECT picture FROM marks)
		AND id NOT IN (SELECT value ->> 'picture' FROM sheets, json_each(pictures))`)
	return err
}

// checkPictures reads every picture, and looks whether those that are shown are there.
func checkPictures(ctx context.Context, tx *sql.Tx, r *Report) error {
	err := each(ctx, tx, func(row *sql.Rows) error {
		var id quote.PictureID
		var data []byte
		err := row.Scan(&id, &data)
		if r.Pictures++; err == nil && pictureID(data) != id {
			r.add("Picture "+string(id[:min(8, len(id))]), "is not what was kept: its checksum differs", fromBackup)
		}
		return err
	}, `SELECT id, data FROM pictures`)
	if err != nil {
		return err
	}
	return each(ctx, tx, func(row *sql.Rows) error {
		var number string
		err := row.Scan(&number)
		r.add("Quote "+number, "shows a picture that is lost", fromBackup)
		return err
	}, `SELECT DISTINCT number FROM sheets JOIN quotes ON quotes.id = quote, json_each(sheets.pictures) WHERE value ->> 'picture' NOT IN (SELECT id FROM pictures)`)
}
