-- How a sender's herd files (animals, history) are read; of several of one sender the last counts.
CREATE TABLE fact_mapping (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  sender TEXT NOT NULL,
  version INTEGER NOT NULL,
  recorded INTEGER NOT NULL,
  mapping TEXT NOT NULL,
  saved_by TEXT NOT NULL,
  PRIMARY KEY (herd, sender, version)
) STRICT, WITHOUT ROWID;
