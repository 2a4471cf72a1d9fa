-- Version 1: the journal and the paired devices. docs/journal.md describes each column.

CREATE TABLE entry (
  sequence       INTEGER PRIMARY KEY CHECK (sequence > 0),
  id             BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  batch          BLOB CHECK (length(batch) = 16),
  stage          TEXT NOT NULL,
  kind           TEXT NOT NULL,
  version        INTEGER NOT NULL,
  at_ms          INTEGER NOT NULL,
  clock_ahead_ms INTEGER NOT NULL,
  received_ms    INTEGER NOT NULL,
  who            TEXT NOT NULL,
  corrects       BLOB CHECK (length(corrects) = 16),
  typed          TEXT NOT NULL,
  body           TEXT NOT NULL CHECK (substr(body, 1, 1) = '{')
) STRICT;

CREATE INDEX entry_of_batch ON entry (batch, sequence);

-- The journal only grows. Replacing a row is neither an update nor a delete to SQLite's
-- triggers, so that a new row may not take the place of one is said by itself.
CREATE TRIGGER entry_is_not_updated BEFORE UPDATE ON entry
BEGIN
  SELECT RAISE(ABORT, 'an entry of the journal is never changed');
END;

CREATE TRIGGER entry_is_not_deleted BEFORE DELETE ON entry
BEGIN
  SELECT RAISE(ABORT, 'an entry of the journal is never taken out');
END;

CREATE TRIGGER entry_is_not_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE sequence = NEW.sequence OR id = NEW.id)
BEGIN
  SELECT RAISE(ABORT, 'an entry of the journal is never replaced');
END;

CREATE TABLE device (
  id           TEXT PRIMARY KEY,
  name         TEXT NOT NULL,
  token_hash   TEXT NOT NULL UNIQUE CHECK (length(token_hash) = 64),
  paired_ms    INTEGER NOT NULL,
  last_seen_ms INTEGER NOT NULL,
  revoked_ms   INTEGER
) STRICT;
