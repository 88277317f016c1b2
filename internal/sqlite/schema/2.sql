-- File version 2: clients with their people and sites, calls with their
-- deadlines, pictures, lists in any order, estimates that are frozen with what
-- is issued, and who did what.

ALTER TABLE clients ADD COLUMN people TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(people));
ALTER TABLE clients ADD COLUMN sites TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(sites));
ALTER TABLE clients ADD COLUMN others TEXT NOT NULL DEFAULT ''; -- the words of both, for searches
ALTER TABLE clients ADD COLUMN deleted INTEGER;

DROP TRIGGER client_search_new;
DROP TRIGGER client_search_gone;
DROP TRIGGER client_search_changed;
DROP TABLE client_search;
CREATE VIRTUAL TABLE client_search USING fts5 (
  name, contact, email, phone, address, notes, others,
  content = 'clients', content_rowid = 'id',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
CREATE TRIGGER client_search_new AFTER INSERT ON clients
BEGIN
  INSERT INTO client_search (rowid, name, contact, email, phone, address, notes, others)
  VALUES (new.id, new.name, new.contact, new.email, new.phone, new.address, new.notes, new.others);
END;
CREATE TRIGGER client_search_gone AFTER DELETE ON clients
BEGIN
  INSERT INTO client_search (client_search, rowid, name, contact, email, phone, address, notes, others)
  VALUES ('delete', old.id, old.name, old.contact, old.email, old.phone, old.address, old.notes, old.others);
END;
CREATE TRIGGER client_search_changed AFTER UPDATE OF name, contact, email, phone, address, notes, others ON clients
BEGIN
  INSERT INTO client_search (client_search, rowid, name, contact, email, phone, address, notes, others)
  VALUES ('delete', old.id, old.name, old.contact, old.email, old.phone, old.address, old.notes, old.others);
  INSERT INTO client_search (rowid, name, contact, email, phone, address, notes, others)
  VALUES (new.id, new.name, new.contact, new.email, new.phone, new.address, new.notes, new.others);
END;
INSERT INTO client_search (client_search) VALUES ('rebuild');

-- Calls for artists, and invitations to offer.
CREATE TABLE calls (
  id        INTEGER PRIMARY KEY AUTOINCREMENT,
  title     TEXT NOT NULL CHECK (title <> ''),
  client_id INTEGER REFERENCES clients,
  body      TEXT NOT NULL, -- the name of the client, kept alike by the program
  site      TEXT NOT NULL,
  deadline  TEXT NOT NULL, -- as typed
  due       INTEGER,       -- what that says: the beginning of the day, UTC
  budget    TEXT NOT NULL, -- as typed
  link      TEXT NOT NULL,
  notes     TEXT NOT NULL,
  deleted   INTEGER,
  version   INTEGER NOT NULL CHECK (version > 0)
) STRICT;
CREATE INDEX calls_of_client ON calls (client_id) WHERE client_id IS NOT NULL;
CREATE INDEX calls_by_day ON calls (due) WHERE due IS NOT NULL;

ALTER TABLE quotes ADD COLUMN call_id INTEGER REFERENCES calls;
ALTER TABLE quotes ADD COLUMN call TEXT NOT NULL DEFAULT ''; -- the title of that call, kept alike by the program
ALTER TABLE quotes ADD COLUMN due INTEGER;                   -- and its day
ALTER TABLE quotes ADD COLUMN worth INTEGER NOT NULL DEFAULT 0; -- the price's digits, to sort by
ALTER TABLE quotes ADD COLUMN filed TEXT NOT NULL DEFAULT '';   -- the client's name, small and without marks, to sort by
ALTER TABLE quotes ADD COLUMN valid_until INTEGER;           -- of the last revision that was issued
ALTER TABLE quotes ADD COLUMN hand TEXT NOT NULL DEFAULT ''; -- who changed it last
UPDATE quotes SET
  worth = digits_of(price),
  filed = filed_as(CASE client WHEN '' THEN body ELSE client END),
  valid_until = (SELECT valid_until FROM revisions WHERE quote = id ORDER BY length(letter) DESC, letter DESC LIMIT 1);
CREATE INDEX quotes_of_call ON quotes (call_id) WHERE call_id IS NOT NULL;
CREATE INDEX quotes_by_state ON quotes (state, spot);
CREATE INDEX quotes_by_client ON quotes (filed);
CREATE INDEX quotes_by_worth ON quotes (worth);
CREATE INDEX quotes_by_day ON quotes (due) WHERE due IS NOT NULL;

DROP TRIGGER search_new;
DROP TRIGGER search_gone;
DROP TRIGGER search_changed;
DROP TABLE search;
CREATE VIRTUAL TABLE search USING fts5 (
  number, title, client, body, call, place, pieces,
  content = 'quotes', content_rowid = 'spot',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
CREATE TRIGGER search_new AFTER INSERT ON quotes
BEGIN
  INSERT INTO search (rowid, number, title, client, body, call, place, pieces)
  VALUES (new.spot, new.number, new.title, new.client, new.body, new.call, new.place, new.pieces);
END;
CREATE TRIGGER search_gone AFTER DELETE ON quotes
BEGIN
  INSERT INTO search (search, rowid, number, title, client, body, call, place, pieces)
  VALUES ('delete', old.spot, old.number, old.title, old.client, old.body, old.call, old.place, old.pieces);
END;
CREATE TRIGGER search_changed AFTER UPDATE OF spot, title, client, body, call, place, pieces ON quotes
BEGIN
  INSERT INTO search (search, rowid, number, title, client, body, call, place, pieces)
  VALUES ('delete', old.spot, old.number, old.title, old.client, old.body, old.call, old.place, old.pieces);
  INSERT INTO search (rowid, number, title, client, body, call, place, pieces)
  VALUES (new.spot, new.number, new.title, new.client, new.body, new.call, new.place, new.pieces);
END;
INSERT INTO search (search) VALUES ('rebuild');

-- Who took each step.
ALTER TABLE steps ADD COLUMN who TEXT NOT NULL DEFAULT '';
DROP TRIGGER steps_begin;
DROP TRIGGER steps_go_on;
CREATE TRIGGER steps_begin AFTER INSERT ON quotes
BEGIN INSERT INTO steps VALUES (new.id, new.changed, new.state, new.letter, new.hand); END;
CREATE TRIGGER steps_go_on AFTER UPDATE OF state, letter ON quotes WHEN new.state <> old.state OR new.letter <> old.letter
BEGIN INSERT INTO steps VALUES (new.id, new.changed, new.state, old.letter, new.hand); END;

-- The estimate as it was printed, and who issued it; in the seal where it is there.
ALTER TABLE revisions ADD COLUMN frozen TEXT NOT NULL DEFAULT '' CHECK (frozen = '' OR json_valid(frozen));
ALTER TABLE revisions ADD COLUMN who TEXT NOT NULL DEFAULT '';

-- Pictures, each once, under the SHA-256 of its file.
CREATE TABLE pictures (
  id   TEXT PRIMARY KEY CHECK (length(id) = 64),
  data BLOB NOT NULL
) STRICT;
CREATE TRIGGER pictures_never_change BEFORE UPDATE ON pictures
BEGIN SELECT raise(ABORT, 'a picture never changes'); END;
ALTER TABLE sheets ADD COLUMN pictures TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(pictures));
CREATE TABLE marks (
  name    TEXT PRIMARY KEY,
  picture TEXT NOT NULL REFERENCES pictures
) STRICT;
