-- Addresses that are told of a herd's changes. What waits to be told are the rows of `change` themselves, from `told` on: they are
-- written with what changed, so nothing can be forgotten. States: 1 active, 2 paused, 3 stopped, 4 deleted (its number is not given again).
CREATE TABLE webhook (
  herd INTEGER NOT NULL REFERENCES herd (herd),
  webhook INTEGER NOT NULL,
  url TEXT NOT NULL,
  name TEXT,
  kinds INTEGER NOT NULL,
  state INTEGER NOT NULL CHECK (state BETWEEN 1 AND 4),
  stop_reason TEXT,
  stopped INTEGER,
  secret BLOB NOT NULL,
  old_secret BLOB,
  old_secret_until INTEGER,
  told INTEGER NOT NULL,
  failing_since INTEGER,
  held_until INTEGER,
  busy_until INTEGER,
  api_key INTEGER REFERENCES api_key (key),
  created INTEGER NOT NULL,
  created_by TEXT NOT NULL,
  PRIMARY KEY (herd, webhook)
) STRICT, WITHOUT ROWID;

-- A message once it was begun: the same id and the same body at every attempt. States: 1 waiting, 2 delivered, 3 failed. A test is tried
-- once, and of a paused or stopped webhook too.
CREATE TABLE webhook_delivery (
  herd INTEGER NOT NULL,
  webhook INTEGER NOT NULL,
  delivery INTEGER NOT NULL,
  id TEXT NOT NULL,
  type TEXT NOT NULL,
  test INTEGER NOT NULL CHECK (test IN (0, 1)),
  body TEXT NOT NULL,
  created INTEGER NOT NULL,
  state INTEGER NOT NULL CHECK (state BETWEEN 1 AND 3),
  due INTEGER NOT NULL,
  tries INTEGER NOT NULL,
  first_try INTEGER,
  PRIMARY KEY (herd, webhook, delivery),
  UNIQUE (herd, webhook, id),
  FOREIGN KEY (herd, webhook) REFERENCES webhook (herd, webhook)
) STRICT, WITHOUT ROWID;
CREATE INDEX webhook_delivery_due ON webhook_delivery (herd, webhook, due, test) WHERE state = 1;

CREATE TABLE webhook_attempt (
  herd INTEGER NOT NULL,
  webhook INTEGER NOT NULL,
  delivery INTEGER NOT NULL,
  attempt INTEGER NOT NULL,
  at INTEGER NOT NULL,
  milliseconds INTEGER NOT NULL,
  status INTEGER,
  error TEXT,
  PRIMARY KEY (herd, webhook, delivery, attempt),
  FOREIGN KEY (herd, webhook, delivery) REFERENCES webhook_delivery (herd, webhook, delivery) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;
