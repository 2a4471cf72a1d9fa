-- Version 1: the journal, the paired devices, the attachments, in a schema of their own.
-- docs/journal.md describes each column. Runs inside one transaction.

CREATE TABLE lynearm.entry (
  sequence       bigint PRIMARY KEY CHECK (sequence > 0),
  id             uuid NOT NULL UNIQUE,
  batch          uuid,
  stage          text NOT NULL,
  kind           text NOT NULL,
  version        integer NOT NULL,
  at_ms          bigint NOT NULL,
  clock_ahead_ms bigint NOT NULL,
  received_ms    bigint NOT NULL,
  who            text NOT NULL,
  corrects       uuid,
  typed          text NOT NULL,
  body           json NOT NULL  -- json, not jsonb: kept letter for letter
);

CREATE INDEX entry_of_batch ON lynearm.entry (batch, sequence);

-- The journal only grows: refused by the trigger for everybody, and by the grants for all but a
-- superuser, the owner included.
CREATE FUNCTION lynearm.refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'an entry of the journal is never changed or taken out'
    USING ERRCODE = 'integrity_constraint_violation';
END $$;

CREATE TRIGGER entry_is_not_changed
  BEFORE UPDATE OR DELETE OR TRUNCATE ON lynearm.entry
  FOR EACH STATEMENT EXECUTE FUNCTION lynearm.refuse();

REVOKE UPDATE, DELETE, TRUNCATE ON lynearm.entry FROM CURRENT_USER;

CREATE TABLE lynearm.device (
  id           text PRIMARY KEY,
  name         text NOT NULL,
  token_hash   text NOT NULL UNIQUE CHECK (length(token_hash) = 64),
  paired_ms    bigint NOT NULL,
  last_seen_ms bigint NOT NULL,
  revoked_ms   bigint
);

CREATE TABLE lynearm.attachment (
  name    text PRIMARY KEY CHECK (length(name) = 64),
  content bytea NOT NULL
);
