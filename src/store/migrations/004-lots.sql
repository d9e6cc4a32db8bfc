-- Tracing a lot one step back and one forward.
CREATE INDEX entry_by_lot ON entry (lot, happened_on, number)
    WHERE lot IS NOT NULL;
