-- The files of scans that somebody chose to keep with a quote, squeezed by gzip.
CREATE TABLE scan_files (
  quote  INTEGER NOT NULL REFERENCES quotes ON DELETE CASCADE,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64), -- of the file itself
  name   TEXT NOT NULL,
  size   INTEGER NOT NULL CHECK (size >= 0),
  data   BLOB NOT NULL,
  PRIMARY KEY (quote, sha256)
) STRICT;
