PRAGMA application_id = 1298953335;
PRAGMA user_version = 3;
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
, people TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(people)), sites TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(sites)), others TEXT NOT NULL DEFAULT '', deleted INTEGER) STRICT;
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
, call_id INTEGER REFERENCES calls, call TEXT NOT NULL DEFAULT '', due INTEGER, worth INTEGER NOT NULL DEFAULT 0, filed TEXT NOT NULL DEFAULT '', valid_until INTEGER, hand TEXT NOT NULL DEFAULT '') STRICT;
CREATE INDEX quotes_of_client ON quotes (client_id) WHERE client_id IS NOT NULL;
CREATE TRIGGER quotes_keep_their_numbers BEFORE UPDATE OF number ON quotes WHEN new.number <> old.number
BEGIN SELECT raise(ABORT, 'a quote keeps its number'); END;
CREATE TRIGGER quotes_go_by_the_bin BEFORE DELETE ON quotes WHEN old.deleted IS NULL
BEGIN SELECT raise(ABORT, 'only a quote in the bin can be removed'); END;
CREATE TABLE sheets (
  quote      INTEGER PRIMARY KEY REFERENCES quotes ON DELETE CASCADE,
  commission TEXT NOT NULL CHECK (json_valid(commission)),
  words      TEXT NOT NULL CHECK (json_valid(words))
, pictures TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(pictures))) STRICT;
CREATE TABLE steps (
  quote  INTEGER NOT NULL REFERENCES quotes ON DELETE CASCADE,
  at     INTEGER NOT NULL,
  state  TEXT NOT NULL,
  letter TEXT NOT NULL
, who TEXT NOT NULL DEFAULT '') STRICT;
CREATE INDEX steps_of_quote ON steps (quote);
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
  proposal    BLOB NOT NULL, frozen TEXT NOT NULL DEFAULT '' CHECK (frozen = '' OR json_valid(frozen)), who TEXT NOT NULL DEFAULT '',
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
CREATE INDEX quotes_of_call ON quotes (call_id) WHERE call_id IS NOT NULL;
CREATE INDEX quotes_by_state ON quotes (state, spot);
CREATE INDEX quotes_by_client ON quotes (filed);
CREATE INDEX quotes_by_worth ON quotes (worth);
CREATE INDEX quotes_by_day ON quotes (due) WHERE due IS NOT NULL;
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
CREATE TRIGGER steps_begin AFTER INSERT ON quotes
BEGIN INSERT INTO steps VALUES (new.id, new.changed, new.state, new.letter, new.hand); END;
CREATE TRIGGER steps_go_on AFTER UPDATE OF state, letter ON quotes WHEN new.state <> old.state OR new.letter <> old.letter
BEGIN INSERT INTO steps VALUES (new.id, new.changed, new.state, old.letter, new.hand); END;
CREATE TABLE pictures (
  id   TEXT PRIMARY KEY CHECK (length(id) = 64),
  data BLOB NOT NULL
) STRICT;
CREATE TRIGGER pictures_never_change BEFORE UPDATE ON pictures
BEGIN SELECT raise(ABORT, 'a picture never changes'); END;
CREATE TABLE marks (
  name    TEXT PRIMARY KEY,
  picture TEXT NOT NULL REFERENCES pictures
) STRICT;
CREATE TABLE scan_files (
  quote  INTEGER NOT NULL REFERENCES quotes ON DELETE CASCADE,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64), -- of the file itself
  name   TEXT NOT NULL,
  size   INTEGER NOT NULL CHECK (size >= 0),
  data   BLOB NOT NULL,
  PRIMARY KEY (quote, sha256)
) STRICT;
DELETE FROM pulse;
INSERT INTO pulse VALUES (1, 10);
INSERT INTO numbers VALUES (2026, 3);
INSERT INTO clients VALUES (1, 'Town of Grönhaven', 'Ida Moss', '', '', '', 'pays in 30 days; ''as agreed''', 1, '[{"name":"Nils Reed","role":"harbour master"}]', '[{"name":"Harbour steps","access":"no crane at low tide"}]', 'Nils Reed
harbour master


Harbour steps

no crane at low tide', NULL);
INSERT INTO calls VALUES (1, 'A figure for the harbour', 1, 'Town of Grönhaven', '', '2 May 2026', 1777680000000000, '$150,000', '', '', NULL, 1);
INSERT INTO pictures VALUES ('839abdb078bc14c4e55c13c95a5f4fe4f76093ca6582cfa969c9fb7a44d96793', X'FFD8FF20612070686F746F6772617068');
INSERT INTO marks VALUES ('logo', '839abdb078bc14c4e55c13c95a5f4fe4f76093ca6582cfa969c9fb7a44d96793');
INSERT INTO quotes VALUES (1, 1773481013000000, '2026-001', 'B', 'issued', 'Standing figure with dog', 'Town of Grönhaven', 'Town of Grönhaven', 'Harbour steps', 'Figure
Dog
Bench', '$128,400', 1, 1773480413000000, 1773481013000000, NULL, 2, 1, 'A figure for the harbour', 1777680000000000, 128400, 'town of gronhaven', 1778665013000000, 'Ada');
INSERT INTO quotes VALUES (2, -1773480473000000, '2026-002', 'A', 'draft', 'Owl', 'Town of Grönhaven', '', 'Harbour steps', 'Figure
Dog
Bench', '$128,400', NULL, 1773480473000000, 1773480473000000, 1773480533000000, 1, NULL, '', NULL, 128400, 'town of gronhaven', NULL, '');
INSERT INTO quotes VALUES (3, 1773480593000000, '2026-003', 'A', 'draft', 'Otter', 'Town of Grönhaven', '', 'Harbour steps', 'Figure
Dog
Bench', '$128,400', NULL, 1773480593000000, 1773480593000000, NULL, 1, NULL, '', NULL, 128400, 'town of gronhaven', NULL, '');
INSERT INTO sheets VALUES (1, '{"title":"Standing figure with dog","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{"idea":"She waits\nfor the ferry."}', '[{"picture":"839abdb078bc14c4e55c13c95a5f4fe4f76093ca6582cfa969c9fb7a44d96793","name":"cover","caption":"In clay"}]');
INSERT INTO sheets VALUES (2, '{"title":"Owl","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{}', '[]');
INSERT INTO sheets VALUES (3, '{"title":"Otter","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{}', '[]');
INSERT INTO revisions VALUES (1, 'A', 1773481013000000, 1778665013000000, '128400.00', '145092.00', X'8F1B25F4EA7E54B46CCDF0148C82D244CAB923F9726BB42646EFFAF1E3DF9B99', '{"title":"Standing figure with dog","client":"Town of Grönhaven","place":"Harbour steps","currency":"CAD","units":"metric","inputs":{"price.margin":"15 %"},"pieces":[{"name":"Figure","inputs":{"form.height":"7''4\"","form.wall":"5 mm"}},{"name":"Dog","solids":[{"d":"30 cm","shape":"sphere"}]},{"name":"Bench"}],"extras":[{"stage":"delivery","item":"Ferry","quantity":"2","unit":"each","rate":"180"}]}', '{"shop":"Ash Ferry Foundry","address":"","currency":"CAD","units":"metric","dated":"2026-03-14","settings":null,"tables":null}', '{"idea":"It looks back."}', X'255044462D312E3300FF', '{"currency":"CAD","price":12840000,"lines":[{"stage":"wax","item":"Wax","text":"41.0 kg × 14.00","amount":57400}],"steps":null}', 'Ada');
INSERT INTO shop_books VALUES (1, 1773480413000000, '{"shop":"Ash Ferry Foundry","address":"","currency":"CAD","units":"metric","dated":"2026-03-14","settings":null,"tables":null}');
