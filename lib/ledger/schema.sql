-- The ledger file, format 2. README.md beside this file says what each table is for.
-- Times are whole seconds since 1970-01-01T00:00:00Z; temperatures thousandths of a degree in the scale named.

-- What was posted. Everything below it can be made again from these rows and reading_data.
CREATE TABLE entry (
  entry    INTEGER PRIMARY KEY,
  recorded INTEGER NOT NULL,
  kind     TEXT    NOT NULL,
  body     TEXT    NOT NULL,  -- JSON as exported; without the rows of readings
  link     BLOB    NOT NULL,  -- SHA-256 of the link before, the body and the digests of the blocks
  CONSTRAINT entry_numbers_start_at_1 CHECK (entry >= 1),
  CONSTRAINT entry_link_is_sha256 CHECK (length(link) = 32)
) STRICT;

CREATE INDEX entry_of_duty ON entry (kind) WHERE kind IN ('plan', 'loan', 'repayment', 'follow-up', 'training');

CREATE TABLE reading_data (
  block  INTEGER PRIMARY KEY,
  entry  INTEGER NOT NULL REFERENCES entry,
  data   BLOB    NOT NULL,  -- readings, delta-coded: see blocks.hpp
  digest BLOB    NOT NULL,  -- SHA-256 of data
  CONSTRAINT reading_digest_is_sha256 CHECK (length(digest) = 32)
) STRICT;

-- The last entry and its link, so that a missing end is found.
CREATE TABLE tip (
  one   INTEGER PRIMARY KEY CONSTRAINT tip_is_one_row CHECK (one = 1),
  entry INTEGER NOT NULL,
  link  BLOB    NOT NULL
) STRICT;

-- Entries that every question needs: definitions but lots, certificates, assignments, holds, guidance, reports, trips,
-- voids.
CREATE TABLE knowledge (entry INTEGER PRIMARY KEY REFERENCES entry) STRICT;

CREATE TABLE lot (
  lot     INTEGER PRIMARY KEY,
  product TEXT NOT NULL,
  number  TEXT NOT NULL,
  CONSTRAINT lot_is_named_once UNIQUE (product, number)
) STRICT;

CREATE TABLE lot_definition (
  lot    INTEGER NOT NULL REFERENCES lot,
  entry  INTEGER NOT NULL REFERENCES entry,
  expiry TEXT    NOT NULL,
  CONSTRAINT lot_definition_key PRIMARY KEY (lot, entry)
) STRICT, WITHOUT ROWID;

CREATE TABLE holding (
  holding INTEGER PRIMARY KEY,
  lot     INTEGER NOT NULL REFERENCES lot,
  place   TEXT NOT NULL,
  fund    TEXT NOT NULL,
  mark    TEXT NOT NULL,
  CONSTRAINT holding_is_named_once UNIQUE (lot, place, fund, mark)
) STRICT;

-- What moves or changes doses of a lot, in the order of its timeline.
CREATE TABLE movement (
  lot    INTEGER NOT NULL REFERENCES lot,
  at     INTEGER NOT NULL,
  entry  INTEGER NOT NULL REFERENCES entry,
  op     INTEGER NOT NULL,  -- of MovementOp in movement.hpp; never renumber
  source INTEGER REFERENCES holding (holding),
  target INTEGER REFERENCES holding (holding),
  doses  INTEGER NOT NULL,
  flag   INTEGER NOT NULL,  -- receive: 1 with a handover; give: 1 not certain
  CONSTRAINT movement_key PRIMARY KEY (lot, at, entry),
  CONSTRAINT movement_doses_not_negative CHECK (doses >= 0)
) STRICT, WITHOUT ROWID;

-- Doses of each holding after all its movements, and the instant of the last.
CREATE TABLE balance (
  holding INTEGER PRIMARY KEY REFERENCES holding,
  doses   INTEGER NOT NULL,
  last_at INTEGER NOT NULL,
  CONSTRAINT balance_not_negative CHECK (doses >= 0)
) STRICT;

CREATE TABLE handover (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  lot   INTEGER NOT NULL REFERENCES lot
) STRICT;

CREATE TABLE temperature_check (
  place       TEXT    NOT NULL,
  at          INTEGER NOT NULL,
  entry       INTEGER NOT NULL REFERENCES entry,
  scale       TEXT    NOT NULL CONSTRAINT check_scale_known CHECK (scale IN ('C', 'F')),
  temperature INTEGER NOT NULL,
  lowest      INTEGER,
  highest     INTEGER,
  probe       TEXT,
  CONSTRAINT check_key PRIMARY KEY (place, at, entry)
) STRICT, WITHOUT ROWID;

CREATE TABLE incident (
  entry    INTEGER PRIMARY KEY REFERENCES entry,
  incident TEXT NOT NULL,
  place    TEXT
) STRICT;

CREATE TABLE probe (
  probe INTEGER PRIMARY KEY,
  name  TEXT NOT NULL CONSTRAINT probe_is_named_once UNIQUE
) STRICT;

-- How far back a block may begin that holds a later instant.
CREATE TABLE probe_extent (
  probe         INTEGER PRIMARY KEY REFERENCES probe,
  longest_block INTEGER NOT NULL  -- seconds from the first to the last reading of a block
) STRICT;

-- One entry of kind readings; its blocks are numbered on from first_block.
CREATE TABLE batch (
  entry       INTEGER PRIMARY KEY REFERENCES entry,
  probe       INTEGER NOT NULL REFERENCES probe,
  first_block INTEGER NOT NULL,
  blocks      INTEGER NOT NULL,
  readings    INTEGER NOT NULL,
  sha256      TEXT  -- of the logger's file it came from
) STRICT;
CREATE INDEX batch_by_file ON batch (sha256) WHERE sha256 IS NOT NULL;

-- Summary of a block, so that most blocks need not be decoded.
CREATE TABLE reading_block (
  probe        INTEGER NOT NULL REFERENCES probe,
  first_at     INTEGER NOT NULL,
  block        INTEGER NOT NULL REFERENCES reading_data,
  entry        INTEGER NOT NULL REFERENCES entry,
  readings     INTEGER NOT NULL CONSTRAINT block_holds_readings CHECK (readings >= 1),
  last_at      INTEGER NOT NULL,
  longest_step INTEGER NOT NULL,
  first        INTEGER NOT NULL,
  last         INTEGER NOT NULL,
  lowest       INTEGER NOT NULL,
  highest      INTEGER NOT NULL,
  CONSTRAINT block_key PRIMARY KEY (probe, first_at, block),
  CONSTRAINT block_times_ascend CHECK (first_at <= last_at),
  CONSTRAINT block_extremes_hold CHECK (lowest <= first AND lowest <= last AND first <= highest AND last <= highest)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER entry_follows_the_tip BEFORE INSERT ON entry
WHEN NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: an entry takes the next number'); END;

CREATE TRIGGER entry_not_before_last BEFORE INSERT ON entry
WHEN NEW.recorded < (SELECT recorded FROM entry ORDER BY entry DESC LIMIT 1)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: an entry is not recorded before the last one'); END;

CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER entry_is_never_removed BEFORE DELETE ON entry
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER reading_data_is_never_changed BEFORE UPDATE ON reading_data
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER reading_data_is_never_removed BEFORE DELETE ON reading_data
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER knowledge_is_never_changed BEFORE UPDATE ON knowledge
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER knowledge_is_never_removed BEFORE DELETE ON knowledge
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER lot_is_never_changed BEFORE UPDATE ON lot
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER lot_is_never_removed BEFORE DELETE ON lot
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER lot_definition_is_never_changed BEFORE UPDATE ON lot_definition
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER lot_definition_is_never_removed BEFORE DELETE ON lot_definition
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER holding_is_never_changed BEFORE UPDATE ON holding
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER holding_is_never_removed BEFORE DELETE ON holding
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER movement_is_never_changed BEFORE UPDATE ON movement
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER movement_is_never_removed BEFORE DELETE ON movement
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER handover_is_never_changed BEFORE UPDATE ON handover
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER handover_is_never_removed BEFORE DELETE ON handover
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER temperature_check_is_never_changed BEFORE UPDATE ON temperature_check
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER temperature_check_is_never_removed BEFORE DELETE ON temperature_check
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER incident_is_never_changed BEFORE UPDATE ON incident
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER incident_is_never_removed BEFORE DELETE ON incident
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER probe_is_never_changed BEFORE UPDATE ON probe
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER probe_is_never_removed BEFORE DELETE ON probe
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER batch_is_never_changed BEFORE UPDATE ON batch
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER batch_is_never_removed BEFORE DELETE ON batch
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER reading_block_is_never_changed BEFORE UPDATE ON reading_block
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is changed; post a void with its reason'); END;

CREATE TRIGGER reading_block_is_never_removed BEFORE DELETE ON reading_block
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

-- Rows are added while an entry is posted, and then alone: it is there, and the tip does not name it yet.

CREATE TRIGGER reading_data_is_added_with_its_entry BEFORE INSERT ON reading_data
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER knowledge_is_added_with_its_entry BEFORE INSERT ON knowledge
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER lot_definition_is_added_with_its_entry BEFORE INSERT ON lot_definition
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER movement_is_added_with_its_entry BEFORE INSERT ON movement
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER handover_is_added_with_its_entry BEFORE INSERT ON handover
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER temperature_check_is_added_with_its_entry BEFORE INSERT ON temperature_check
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER incident_is_added_with_its_entry BEFORE INSERT ON incident
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER batch_is_added_with_its_entry BEFORE INSERT ON batch
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER reading_block_is_added_with_its_entry BEFORE INSERT ON reading_block
WHEN NEW.entry IS NOT (SELECT max(entry) FROM entry) OR NEW.entry IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER lot_is_added_with_an_entry BEFORE INSERT ON lot
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER holding_is_added_with_an_entry BEFORE INSERT ON holding
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER probe_is_added_with_an_entry BEFORE INSERT ON probe
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER balance_is_added_with_an_entry BEFORE INSERT ON balance
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER probe_extent_is_added_with_an_entry BEFORE INSERT ON probe_extent
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER balance_is_changed_with_an_entry BEFORE UPDATE ON balance
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER balance_is_never_removed BEFORE DELETE ON balance
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER probe_extent_is_changed_with_an_entry BEFORE UPDATE ON probe_extent
WHEN (SELECT max(entry) FROM entry) IS NOT (SELECT entry + 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER probe_extent_is_never_removed BEFORE DELETE ON probe_extent
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;

CREATE TRIGGER tip_is_one BEFORE INSERT ON tip
WHEN EXISTS (SELECT 1 FROM tip)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER tip_follows_the_entries BEFORE UPDATE ON tip
WHEN NEW.one IS NOT 1 OR NEW.entry IS NOT OLD.entry + 1 OR NEW.link IS NOT (SELECT link FROM entry WHERE entry = NEW.entry)
BEGIN SELECT raise(ABORT, 'a ledger is append-only: rows are added by posting an entry, not by SQL'); END;

CREATE TRIGGER tip_is_never_removed BEFORE DELETE ON tip
BEGIN SELECT raise(ABORT, 'a ledger is append-only: nothing is removed; post a void with its reason'); END;
