PRAGMA application_id = 1298953335;
PRAGMA user_version = 1;
CREATE TABLE pulse (
  one     INTEGER PRIMARY KEY CHECK (one = 1),
  changes INTEGER NOT NULL
) STRICT;
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
CREATE TABLE sheets (
  quote      INTEGER PRIMARY KEY REFERENCES quotes ON DELETE CASCADE,
  commission TEXT NOT NULL CHECK (json_valid(commission)),
  words      TEXT NOT NULL CHECK (json_valid(words))
) STRICT;
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
CREATE TABLE shop_books (
  id    INTEGER PRIMARY KEY AUTOINCREMENT,
  saved INTEGER NOT NULL,
  book  TEXT NOT NULL CHECK (json_valid(book))
) STRICT;
CREATE TRIGGER shop_books_never_change BEFORE UPDATE ON shop_books
BEGIN SELECT raise(ABORT, 'a saved shop book never changes'); END;
CREATE TRIGGER shop_books_stay BEFORE DELETE ON shop_books
BEGIN SELECT raise(ABORT, 'a saved shop book stays'); END;
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
DELETE FROM pulse;
INSERT INTO pulse VALUES (1, 7);
INSERT INTO numbers VALUES (2026, 3);
INSERT INTO clients VALUES (1, 'Town of Grönhaven', 'Ida Moss', '', '', '', 'pays in 30 days; ''as agreed''', 1);
INSERT INTO quotes VALUES (1, 1773481013000000, '2026-001', 'B', 'issued', 'Standing figure with dog', 'Town of Grönhaven', 'Town of Grönhaven', 'Harbour steps', 'Figure
Dog
Bench', '$128,400', 1, 1773480413000000, 1773481013000000, NULL, 2);
INSERT INTO quotes VALUES (2, -1773480473000000, '2026-002', 'A', 'draft', 'Owl', 'Town of Grönhaven', '', 'Harbour steps', 'Figure
Dog
Bench', '$128,400', NULL, 1773480473000000, 1773480473000000, 1773480533000000, 1);
INSERT INTO quotes VALUES (3, 1773480593000000, '2026-003', 'A', 'draft', 'Otter', 'Town of Grönhaven', '', 'Harbour steps', 'Figure
Dog
Bench', '$128,400', NULL, 1773480593000000, 1773480593000000, NULL, 1);
INSERT INTO sheets VALUES (1, '{"title":"Standing figure with dog","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{"idea":"She waits\nfor the ferry."}');
INSERT INTO sheets VALUES (2, '{"title":"Owl","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{}');
INSERT INTO sheets VALUES (3, '{"title":"Otter","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{}');
INSERT INTO revisions VALUES (1, 'A', 1773481013000000, 1778665013000000, '128400.00', '145092.00', X'9266FC8AD72D301AC6B580B1BCC4AA4E0A3EB5B44A7A2B4339F60211825E90A4', '{"title":"Standing figure with dog","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{"shop":"Ash Ferry Foundry","address":"","currency":"CAD","units":"metric","dated":"2026-03-14","settings":null,"tables":null}', '{"idea":"It looks back."}', X'255044462D312E3300FF');
INSERT INTO shop_books VALUES (1, 1773480413000000, '{"shop":"Ash Ferry Foundry","address":"","currency":"CAD","units":"metric","dated":"2026-03-14","settings":null,"tables":null}');
