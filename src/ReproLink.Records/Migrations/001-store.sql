-- Days are whole days since 1970-01-01, instants are 100 ns ticks since then, times of day are milliseconds (-1 = none).
-- A herd is the unit of partition: every key of a herd's rows starts with it.

-- The one sequence over all rows that change a herd, and the latest recording instant: neither ever runs backwards.
CREATE TABLE position (
  one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL
) STRICT;
INSERT INTO position (one, sequence, recorded) VALUES (1, 0, -621355968000000000);

CREATE TABLE herd (
  herd INTEGER NOT NULL PRIMARY KEY,
  scheme TEXT NOT NULL,
  location TEXT NOT NULL,
  name TEXT NOT NULL,
  time_zone TEXT NOT NULL,
  created INTEGER NOT NULL,
  changed INTEGER NOT NULL,
  UNIQUE (scheme, location)
) STRICT;

CREATE TABLE change (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  kind INTEGER NOT NULL,
  animal INTEGER,
  subject INTEGER NOT NULL,
  PRIMARY KEY (herd, sequence)
) STRICT, WITHOUT ROWID;

CREATE TABLE animal (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  animal INTEGER NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (herd, animal),
  UNIQUE (herd, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE source (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  source INTEGER NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (herd, source),
  UNIQUE (herd, name)
) STRICT, WITHOUT ROWID;

-- Clustered in the order in which facts are folded. What code, number, value and words mean depends on the kind: FactCodec.
CREATE TABLE fact (
  herd INTEGER NOT NULL,
  animal INTEGER NOT NULL,
  day INTEGER NOT NULL,
  kind INTEGER NOT NULL,
  time INTEGER NOT NULL,
  fact INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  source INTEGER NOT NULL,
  source_id TEXT NOT NULL,
  revision INTEGER NOT NULL,
  code INTEGER NOT NULL,
  number INTEGER,
  value REAL,
  words TEXT,
  PRIMARY KEY (herd, animal, day, kind, time, fact),
  FOREIGN KEY (herd, animal) REFERENCES animal (herd, animal),
  FOREIGN KEY (herd, source) REFERENCES source (herd, source)
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX fact_identity ON fact (herd, fact);

CREATE TABLE withdrawal (
  herd INTEGER NOT NULL,
  animal INTEGER NOT NULL,
  fact INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  reason TEXT NOT NULL,
  withdrawn_by TEXT NOT NULL,
  PRIMARY KEY (herd, animal, fact),
  FOREIGN KEY (herd, fact) REFERENCES fact (herd, fact)
) STRICT, WITHOUT ROWID;

CREATE TABLE programme (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  version INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  draft INTEGER NOT NULL CHECK (draft IN (0, 1)),
  programme TEXT NOT NULL,
  received TEXT NOT NULL,
  saved_by TEXT NOT NULL,
  PRIMARY KEY (herd, version)
) STRICT, WITHOUT ROWID;

CREATE TABLE approval (
  herd INTEGER NOT NULL,
  version INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  approved_by TEXT NOT NULL,
  expires INTEGER,
  PRIMARY KEY (herd, version, sequence),
  FOREIGN KEY (herd, version) REFERENCES programme (herd, version)
) STRICT, WITHOUT ROWID;

CREATE TABLE held (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  held INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  source TEXT NOT NULL,
  source_id TEXT NOT NULL,
  revision INTEGER NOT NULL,
  animal TEXT,
  tube TEXT,
  reason TEXT NOT NULL,
  may_mean TEXT NOT NULL,
  content TEXT NOT NULL,
  draft TEXT,
  PRIMARY KEY (herd, held),
  UNIQUE (herd, source, source_id, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE held_end (
  herd INTEGER NOT NULL,
  held INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  ending TEXT NOT NULL,
  ended_by TEXT NOT NULL,
  note TEXT NOT NULL,
  fact INTEGER,
  PRIMARY KEY (herd, held),
  FOREIGN KEY (herd, held) REFERENCES held (herd, held)
) STRICT, WITHOUT ROWID;

-- What is open now, so that an append finds in one look what it releases or replaces. Rebuildable from the two above.
CREATE TABLE held_open (
  herd INTEGER NOT NULL,
  source TEXT NOT NULL,
  source_id TEXT NOT NULL,
  held INTEGER NOT NULL,
  waits_for TEXT,
  PRIMARY KEY (herd, source, source_id),
  FOREIGN KEY (herd, held) REFERENCES held (herd, held)
) STRICT, WITHOUT ROWID;
CREATE INDEX held_open_waits ON held_open (herd, waits_for) WHERE waits_for IS NOT NULL;

CREATE TABLE api_key (
  key INTEGER NOT NULL PRIMARY KEY,
  name TEXT NOT NULL,
  role INTEGER NOT NULL,
  hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
  locations TEXT,
  created INTEGER NOT NULL,
  revoked INTEGER
) STRICT;
CREATE UNIQUE INDEX api_key_name ON api_key (name) WHERE revoked IS NULL;

-- herd 0: requests that are not below a location.
CREATE TABLE idempotency (
  herd INTEGER NOT NULL,
  key_name TEXT NOT NULL,
  idempotency_key TEXT NOT NULL,
  request_hash BLOB NOT NULL,
  status INTEGER NOT NULL,
  content_type TEXT NOT NULL,
  answer BLOB NOT NULL,
  created INTEGER NOT NULL,
  PRIMARY KEY (herd, key_name, idempotency_key)
) STRICT;
CREATE INDEX idempotency_created ON idempotency (created);

CREATE TRIGGER fact_no_update BEFORE UPDATE ON fact BEGIN SELECT RAISE(ABORT, 'facts are append-only'); END;
CREATE TRIGGER fact_no_delete BEFORE DELETE ON fact BEGIN SELECT RAISE(ABORT, 'facts are append-only'); END;
CREATE TRIGGER withdrawal_no_update BEFORE UPDATE ON withdrawal BEGIN SELECT RAISE(ABORT, 'withdrawals are append-only'); END;
CREATE TRIGGER withdrawal_no_delete BEFORE DELETE ON withdrawal BEGIN SELECT RAISE(ABORT, 'withdrawals are append-only'); END;
CREATE TRIGGER change_no_update BEFORE UPDATE ON change BEGIN SELECT RAISE(ABORT, 'changes are append-only'); END;
CREATE TRIGGER change_no_delete BEFORE DELETE ON change BEGIN SELECT RAISE(ABORT, 'changes are append-only'); END;
CREATE TRIGGER programme_no_update BEFORE UPDATE ON programme BEGIN SELECT RAISE(ABORT, 'programmes are append-only'); END;
CREATE TRIGGER programme_no_delete BEFORE DELETE ON programme BEGIN SELECT RAISE(ABORT, 'programmes are append-only'); END;
CREATE TRIGGER approval_no_update BEFORE UPDATE ON approval BEGIN SELECT RAISE(ABORT, 'approvals are append-only'); END;
CREATE TRIGGER approval_no_delete BEFORE DELETE ON approval BEGIN SELECT RAISE(ABORT, 'approvals are append-only'); END;
CREATE TRIGGER held_no_update BEFORE UPDATE ON held BEGIN SELECT RAISE(ABORT, 'held results are append-only'); END;
CREATE TRIGGER held_no_delete BEFORE DELETE ON held BEGIN SELECT RAISE(ABORT, 'held results are append-only'); END;
CREATE TRIGGER held_end_no_update BEFORE UPDATE ON held_end BEGIN SELECT RAISE(ABORT, 'held results are append-only'); END;
CREATE TRIGGER held_end_no_delete BEFORE DELETE ON held_end BEGIN SELECT RAISE(ABORT, 'held results are append-only'); END;
