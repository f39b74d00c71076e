-- Links to a herd's calendar feed. The secret stands in the link; only its hash is kept.
CREATE TABLE feed_link (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  link INTEGER NOT NULL,
  name TEXT NOT NULL,
  style TEXT NOT NULL CHECK (style IN ('item', 'day')),
  hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
  created INTEGER NOT NULL,
  created_by TEXT NOT NULL,
  revoked INTEGER,
  PRIMARY KEY (herd, link)
) STRICT, WITHOUT ROWID;

-- A herd's own protocols; of several of one id the last counts.
CREATE TABLE protocol (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  protocol TEXT NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  definition TEXT NOT NULL,
  added_by TEXT NOT NULL,
  PRIMARY KEY (herd, protocol, sequence)
) STRICT, WITHOUT ROWID;

-- A veterinarian answers for a published protocol that was recalled but not read again.
CREATE TABLE protocol_confirmation (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  protocol TEXT NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  confirmed_by TEXT NOT NULL,
  PRIMARY KEY (herd, protocol, sequence)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER protocol_no_update BEFORE UPDATE ON protocol BEGIN SELECT RAISE(ABORT, 'protocols are append-only'); END;
CREATE TRIGGER protocol_no_delete BEFORE DELETE ON protocol BEGIN SELECT RAISE(ABORT, 'protocols are append-only'); END;
CREATE TRIGGER protocol_confirmation_no_update BEFORE UPDATE ON protocol_confirmation BEGIN SELECT RAISE(ABORT, 'confirmations are append-only'); END;
CREATE TRIGGER protocol_confirmation_no_delete BEFORE DELETE ON protocol_confirmation BEGIN SELECT RAISE(ABORT, 'confirmations are append-only'); END;
