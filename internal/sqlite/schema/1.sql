-- What a shop keeps, as of file version 1.

-- How often the file was changed, so that a copy can be told from an older one.
CREATE TABLE pulse (
  one     INTEGER PRIMARY KEY CHECK (one = 1),
  changes INTEGER NOT NULL
) STRICT;
INSERT INTO pulse VALUES (1, 0);

-- The last number given in each year. It only ever goes up: no number is given twice.
CREATE TABLE numbers (
  year INTEGER PRIMARY KEY,
  last INTEGER NOT NULL CHECK (last > 0)
) STRICT;
CREATE TRIGGER numbers_go_up BEFORE UPDATE ON numbers WHEN new.last <= old.last OR new.year <> old.year
BEGIN SELECT raise(ABORT, 'the last number of a year only goes up'); END;
CREATE TRIGGER numbers_stay BEFORE DELETE ON numbers
BEGIN SELECT raise(ABORT, 'the last number of a year stays'); END;

CREATE TABLE clients (
  id      INTEGER PRIMARY KEY AUTOINCREMENT,
  name    TEXT NOT NULL CHECK (name <> ''),
  contact TEXT NOT NULL,
  email   TEXT NOT NULL,
  phone   TEXT NOT NULL,
  address TEXT NOT NULL,
  notes   TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version > 0)
) STRICT;

-- What lists show and searches look in. Times are microseconds since 1970, UTC.
CREATE TABLE quotes (
  id        INTEGER PRIMARY KEY AUTOINCREMENT,
  -- The place in the list: the time of the last change, moved on where it is
  -- taken. Below zero, mirrored, for quotes in the bin.
  spot      INTEGER NOT NULL UNIQUE CHECK ((spot > 0) = (deleted IS NULL) AND spot <> 0),
  number    TEXT NOT NULL UNIQUE,
  letter    TEXT NOT NULL CHECK (letter <> ''),
  state     TEXT NOT NULL CHECK (state IN ('draft', 'issued', 'accepted', 'declined', 'lapsed', 'withdrawn')),
  title     TEXT NOT NULL,
  client    TEXT NOT NULL, -- the client as typed in the commission
  body      TEXT NOT NULL, -- the name of the client it belongs to, kept alike by the program
  place     TEXT NOT NULL,
  pieces    TEXT NOT NULL, -- the names of the pieces, a line each
  price     TEXT NOT NULL, -- as last reckoned, printed
  client_id INTEGER REFERENCES clients,
  created   INTEGER NOT NULL,
  changed   INTEGER NOT NULL,
  deleted   INTEGER,
  version   INTEGER NOT NULL CHECK (version > 0)
) STRICT;
CREATE INDEX quotes_of_client ON quotes (client_id) WHERE client_id IS NOT NULL;
CREATE TRIGGER quotes_keep_their_numbers BEFORE UPDATE OF number ON quotes WHEN new.number <> old.number
BEGIN SELECT raise(ABORT, 'a quote keeps its number'); END;
CREATE TRIGGER quotes_go_by_the_bin BEFORE DELETE ON quotes WHEN old.deleted IS NULL
BEGIN SELECT raise(ABORT, 'only a quote in the bin can be removed'); END;

-- What a quote says, apart from its row in the lists, which stays small.
CREATE TABLE sheets (
  quote      INTEGER PRIMARY KEY REFERENCES quotes ON DELETE CASCADE,
  commission TEXT NOT NULL CHECK (json_valid(commission)),
  words      TEXT NOT NULL CHECK (json_valid(words))
) STRICT;

-- The states a quote has been in.
CREATE TABLE steps (
  quote  INTEGER NOT NULL REFERENCES quotes ON DELETE CASCADE,
  at     INTEGER NOT NULL,
  state  TEXT NOT NULL,
  letter TEXT NOT NULL
) STRICT;
CREATE INDEX steps_of_quote ON steps (quote);
CREATE TRIGGER steps_begin AFTER INSERT ON quotes
BEGIN INSERT INTO steps VALUES (new.id, new.changed, new.state, new.letter); END;
CREATE TRIGGER steps_go_on AFTER UPDATE OF state, letter ON quotes WHEN new.state <> old.state OR new.letter <> old.letter
BEGIN INSERT INTO steps VALUES (new.id, new.changed, new.state, old.letter); END;

-- Quotes as they were issued. Nothing in them ever changes; they go only with
-- a quote that is removed from the bin.
CREATE TABLE revisions (
  quote       INTEGER NOT NULL REFERENCES quotes,
  letter      TEXT NOT NULL CHECK (letter <> ''),
  issued      INTEGER NOT NULL,
  valid_until INTEGER NOT NULL,
  price       TEXT NOT NULL,
  total       TEXT NOT NULL,
  seal        BLOB NOT NULL, -- SHA-256 of all the rest
  commission  TEXT NOT NULL CHECK (json_valid(commission)),
  book        TEXT NOT NULL CHECK (json_valid(book)),
  words       TEXT NOT NULL CHECK (json_valid(words)),
  proposal    BLOB NOT NULL,
  PRIMARY KEY (quote, letter)
) STRICT;
CREATE TRIGGER revisions_never_change BEFORE UPDATE ON revisions
BEGIN SELECT raise(ABORT, 'an issued revision never changes'); END;
CREATE TRIGGER revisions_stay BEFORE DELETE ON revisions
WHEN (SELECT deleted FROM quotes WHERE id = old.quote) IS NULL
BEGIN SELECT raise(ABORT, 'an issued revision stays with its quote'); END;

-- Every shop book that was ever saved; the last is the one in use.
CREATE TABLE shop_books (
  id    INTEGER PRIMARY KEY AUTOINCREMENT,
  saved INTEGER NOT NULL,
  book  TEXT NOT NULL CHECK (json_valid(book))
) STRICT;
CREATE TRIGGER shop_books_never_change BEFORE UPDATE ON shop_books
BEGIN SELECT raise(ABORT, 'a saved shop book never changes'); END;
CREATE TRIGGER shop_books_stay BEFORE DELETE ON shop_books
BEGIN SELECT raise(ABORT, 'a saved shop book stays'); END;

-- The words of quotes and clients, without accents and case, kept by triggers.
CREATE VIRTUAL TABLE search USING fts5 (
  number, title, client, body, place, pieces,
  content = 'quotes', content_rowid = 'spot',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
CREATE TRIGGER search_new AFTER INSERT ON quotes
BEGIN
  INSERT INTO search (rowid, number, title, client, body, place, pieces)
  VALUES (new.spot, new.number, new.title, new.client, new.body, new.place, new.pieces);
END;
CREATE TRIGGER search_gone AFTER DELETE ON quotes
BEGIN
  INSERT INTO search (search, rowid, number, title, client, body, place, pieces)
  VALUES ('delete', old.spot, old.number, old.title, old.client, old.body, old.place, old.pieces);
END;
CREATE TRIGGER search_changed AFTER UPDATE OF spot, title, client, body, place, pieces ON quotes
BEGIN
  INSERT INTO search (search, rowid, number, title, client, body, place, pieces)
  VALUES ('delete', old.spot, old.number, old.title, old.client, old.body, old.place, old.pieces);
  INSERT INTO search (rowid, number, title, client, body, place, pieces)
  VALUES (new.spot, new.number, new.title, new.client, new.body, new.place, new.pieces);
END;

CREATE VIRTUAL TABLE client_search USING fts5 (
  name, contact, email, phone, address, notes,
  content = 'clients', content_rowid = 'id',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
CREATE TRIGGER client_search_new AFTER INSERT ON clients
BEGIN
  INSERT INTO client_search (rowid, name, contact, email, phone, address, notes)
  VALUES (new.id, new.name, new.contact, new.email, new.phone, new.address, new.notes);
END;
CREATE TRIGGER client_search_gone AFTER DELETE ON clients
BEGIN
  INSERT INTO client_search (client_search, rowid, name, contact, email, phone, address, notes)
  VALUES ('delete', old.id, old.name, old.contact, old.email, old.phone, old.address, old.notes);
END;
CREATE TRIGGER client_search_changed AFTER UPDATE ON clients
BEGIN
  INSERT INTO client_search (client_search, rowid, name, contact, email, phone, address, notes)
  VALUES ('delete', old.id, old.name, old.contact, old.email, old.phone, old.address, old.notes);
  INSERT INTO client_search (rowid, name, contact, email, phone, address, notes)
  VALUES (new.id, new.name, new.contact, new.email, new.phone, new.address, new.notes);
END;
