-- Sampling rounds: frozen lists, their tubes, and what happened to each tube. States are derived, never stored.
CREATE TABLE round (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  round INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  day INTEGER NOT NULL,
  name TEXT,
  specimen TEXT NOT NULL,
  created_by TEXT NOT NULL,
  PRIMARY KEY (herd, round)
) STRICT, WITHOUT ROWID;

CREATE INDEX round_day ON round (herd, day);

-- A tube keeps its number and its animal for ever: they are on the printed label.
CREATE TABLE tube (
  herd INTEGER NOT NULL,
  round INTEGER NOT NULL,
  number INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  animal TEXT NOT NULL,
  pen TEXT,
  need TEXT,
  days_post_service INTEGER,
  redraws INTEGER,
  added_by TEXT NOT NULL,
  PRIMARY KEY (herd, round, number),
  FOREIGN KEY (herd, round) REFERENCES round (herd, round)
) STRICT, WITHOUT ROWID;

-- state 0: it left, in that dispatch.
CREATE TABLE tube_event (
  herd INTEGER NOT NULL,
  round INTEGER NOT NULL,
  number INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  state INTEGER NOT NULL,
  day INTEGER NOT NULL,
  time INTEGER NOT NULL,
  done_by TEXT,
  reason INTEGER,
  dispatch INTEGER,
  PRIMARY KEY (herd, round, number, sequence),
  FOREIGN KEY (herd, round, number) REFERENCES tube (herd, round, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE dispatch (
  herd INTEGER NOT NULL,
  round INTEGER NOT NULL,
  dispatch INTEGER NOT NULL,
  sequence INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  at INTEGER NOT NULL,
  sent_by TEXT NOT NULL,
  PRIMARY KEY (herd, round, dispatch),
  FOREIGN KEY (herd, round) REFERENCES round (herd, round)
) STRICT, WITHOUT ROWID;

-- How a sender's columns and words are read; of several of one sender the last counts.
CREATE TABLE result_mapping (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  sender TEXT NOT NULL,
  version INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  mapping TEXT NOT NULL,
  saved_by TEXT NOT NULL,
  PRIMARY KEY (herd, sender, version)
) STRICT, WITHOUT ROWID;

-- Every line of every batch of results, as received, with what became of it.
CREATE TABLE received_batch (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  batch INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  sender TEXT NOT NULL,
  sent_by TEXT NOT NULL,
  name TEXT,
  media_type TEXT NOT NULL,
  header TEXT,
  PRIMARY KEY (herd, batch)
) STRICT, WITHOUT ROWID;

CREATE TABLE received_line (
  herd INTEGER NOT NULL,
  batch INTEGER NOT NULL,
  item INTEGER NOT NULL,
  line INTEGER,
  raw TEXT NOT NULL,
  source TEXT,
  source_id TEXT,
  decision INTEGER NOT NULL,
  why TEXT,
  fact INTEGER,
  held INTEGER,
  PRIMARY KEY (herd, batch, item),
  FOREIGN KEY (herd, batch) REFERENCES received_batch (herd, batch)
) STRICT, WITHOUT ROWID;
CREATE INDEX received_line_fact ON received_line (herd, fact) WHERE fact IS NOT NULL;
CREATE INDEX received_line_held ON received_line (herd, held) WHERE held IS NOT NULL;
CREATE INDEX held_end_fact ON held_end (herd, fact) WHERE fact IS NOT NULL;

CREATE TRIGGER round_no_update BEFORE UPDATE ON round BEGIN SELECT RAISE(ABORT, 'rounds are append-only'); END;
CREATE TRIGGER round_no_delete BEFORE DELETE ON round BEGIN SELECT RAISE(ABORT, 'rounds are append-only'); END;
CREATE TRIGGER tube_no_update BEFORE UPDATE ON tube BEGIN SELECT RAISE(ABORT, 'tubes are append-only'); END;
CREATE TRIGGER tube_no_delete BEFORE DELETE ON tube BEGIN SELECT RAISE(ABORT, 'tubes are append-only'); END;
CREATE TRIGGER tube_event_no_update BEFORE UPDATE ON tube_event BEGIN SELECT RAISE(ABORT, 'tube events are append-only'); END;
CREATE TRIGGER tube_event_no_delete BEFORE DELETE ON tube_event BEGIN SELECT RAISE(ABORT, 'tube events are append-only'); END;
CREATE TRIGGER dispatch_no_update BEFORE UPDATE ON dispatch BEGIN SELECT RAISE(ABORT, 'dispatches are append-only'); END;
CREATE TRIGGER dispatch_no_delete BEFORE DELETE ON dispatch BEGIN SELECT RAISE(ABORT, 'dispatches are append-only'); END;
CREATE TRIGGER received_batch_no_update BEFORE UPDATE ON received_batch BEGIN SELECT RAISE(ABORT, 'what was received is append-only'); END;
CREATE TRIGGER received_batch_no_delete BEFORE DELETE ON received_batch BEGIN SELECT RAISE(ABORT, 'what was received is append-only'); END;
CREATE TRIGGER received_line_no_update BEFORE UPDATE ON received_line BEGIN SELECT RAISE(ABORT, 'what was received is append-only'); END;
CREATE TRIGGER received_line_no_delete BEFORE DELETE ON received_line BEGIN SELECT RAISE(ABORT, 'what was received is append-only'); END;
