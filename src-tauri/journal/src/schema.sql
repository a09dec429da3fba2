-- One row a record. hash = SHA-256(hash before, seq as 8 bytes, commitment).
CREATE TABLE chain (
    seq INTEGER PRIMARY KEY,
    commitment BLOB NOT NULL CHECK (length(commitment) = 32),
    hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;

CREATE TRIGGER chain_grows_at_its_end BEFORE INSERT ON chain
WHEN NEW.seq IS NOT (SELECT ifnull(max(seq), 0) + 1 FROM chain)
BEGIN SELECT RAISE(ABORT, 'a record goes to the end of the chain'); END;

CREATE TRIGGER chain_is_never_updated BEFORE UPDATE ON chain
BEGIN SELECT RAISE(ABORT, 'a record is never changed'); END;

CREATE TRIGGER chain_is_never_deleted BEFORE DELETE ON chain
BEGIN SELECT RAISE(ABORT, 'a record is never deleted'); END;

-- What a record says. commitment = SHA-256(salt, body).
CREATE TABLE content (
    seq INTEGER PRIMARY KEY REFERENCES chain (seq),
    salt BLOB NOT NULL CHECK (length(salt) = 16),
    body BLOB NOT NULL
) STRICT;

CREATE TRIGGER content_comes_with_its_record BEFORE INSERT ON content
WHEN NEW.seq IS NOT (SELECT max(seq) FROM chain) OR EXISTS (SELECT 1 FROM content WHERE seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'a body is written once, with its record'); END;

CREATE TRIGGER content_is_never_updated BEFORE UPDATE ON content
BEGIN SELECT RAISE(ABORT, 'a body is never changed'); END;

CREATE TRIGGER content_goes_with_its_erasure BEFORE DELETE ON content
WHEN NOT EXISTS (
    SELECT 1 FROM erasure WHERE seq = OLD.seq AND record = (SELECT max(seq) FROM chain)
)
BEGIN SELECT RAISE(ABORT, 'a body goes only with the record of its erasure'); END;

-- Which record erased which body. The record's own body says the same, under the chain.
CREATE TABLE erasure (
    seq INTEGER PRIMARY KEY REFERENCES chain (seq),
    record INTEGER NOT NULL REFERENCES chain (seq)
) STRICT;

CREATE TRIGGER erasure_is_named_by_the_last_record BEFORE INSERT ON erasure
WHEN NEW.record IS NOT (SELECT max(seq) FROM chain) OR NEW.seq >= NEW.record
    OR EXISTS (SELECT 1 FROM erasure WHERE seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'an erasure is named by the record that makes it'); END;

CREATE TRIGGER erasure_is_never_updated BEFORE UPDATE ON erasure
BEGIN SELECT RAISE(ABORT, 'an erasure is never changed'); END;

CREATE TRIGGER erasure_is_never_deleted BEFORE DELETE ON erasure
BEGIN SELECT RAISE(ABORT, 'an erasure is never deleted'); END;

-- The fold of the chain up to a head: a cache, dropped whenever in doubt.
CREATE TABLE snapshot (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    seq INTEGER NOT NULL,
    hash BLOB NOT NULL,
    sum BLOB NOT NULL,
    state BLOB NOT NULL
) STRICT;
