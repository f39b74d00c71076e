-- Links that let a person in once and make her a key. The secret stands in the link; only its hash is kept.
CREATE TABLE sign_in_link (
  link INTEGER NOT NULL PRIMARY KEY,
  hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
  role INTEGER NOT NULL,
  locations TEXT,
  created INTEGER NOT NULL,
  expires INTEGER NOT NULL,
  used INTEGER,
  used_by TEXT
) STRICT;
