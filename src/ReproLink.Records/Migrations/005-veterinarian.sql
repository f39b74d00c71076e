-- A veterinarian refuses a version, with a note: approvals given before it hold no longer.
CREATE TABLE refusal (
  herd INTEGER NOT NULL,
  version INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  refused_by TEXT NOT NULL,
  note TEXT NOT NULL,
  PRIMARY KEY (herd, version, sequence),
  FOREIGN KEY (herd, version) REFERENCES programme (herd, version)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER refusal_no_update BEFORE UPDATE ON refusal BEGIN SELECT RAISE(ABORT, 'refusals are append-only'); END;
CREATE TRIGGER refusal_no_delete BEFORE DELETE ON refusal BEGIN SELECT RAISE(ABORT, 'refusals are append-only'); END;

-- When the bearer of a key looked at a herd's calendar: what changed since is shown from "since"; "looked" is the latest look.
CREATE TABLE calendar_visit (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  key_name TEXT NOT NULL,
  since INTEGER NOT NULL,
  looked INTEGER NOT NULL,
  PRIMARY KEY (herd, key_name)
) STRICT, WITHOUT ROWID;
