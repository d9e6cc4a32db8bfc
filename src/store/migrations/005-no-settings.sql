-- Nothing was ever kept there.
DROP TABLE setting;
