#!/usr/bin/env python3
"""Checks the book's sources.

usage: check_book.py ROOT

Every source of data/*.csv is an entry of docs/sources.d; a figure of origin
"book" names one; a guess does not say its low or high more exactly than to
three digits.
Prints file:line and what is wrong; exit 1 if any.
"""
import csv
import re
import sys
from pathlib import Path


def keys_of(root):
    text = "\n".join(path.read_text(encoding="utf-8") for path in
                     sorted((root / "docs/sources.d").glob("*.md")))
    return set(re.findall(r"- \*\*\[([^\]]+)\]\*\* ", text))


def digits_of(text):
    """How many digits a number says: 3 for 0.0375 and for 1250."""
    digits = text.split("e")[0].lstrip("-")
    if "." not in digits:
        digits = digits.rstrip("0")
    return len(digits.replace(".", "").lstrip("0"))


def faults_of_table(path, keys):
    with path.open(encoding="utf-8", newline="") as handle:
        for number, row in enumerate(csv.DictReader(handle), 2):
            where = f"{path}:{number}: {row['id']} {row['figure']}"
            if row["source"] and row["source"] not in keys:
                yield f"{where}: no entry [{row['source']}] in docs/sources.d"
            if row["unit"] == "word":
                continue
            if row["origin"] == "book" and not row["source"]:
                yield f"{where}: origin book without a source"
            for end in ("low", "high"):
                if (row["origin"] == "guess" and row[end] != row["value"] and
                        digits_of(row[end]) > 3):
                    yield f"{where}: a guess with {end} {row[end]}"
            if row["origin"] == "yours":
                yield f"{where}: the book knows no figure of yours"


def faults_of(root):
    keys = keys_of(root)
    tables = sorted((root / "data").glob("*.csv"))
    if not tables:
        return [f"{root}/data: no tables"]
    return [fault for path in tables for fault in faults_of_table(path, keys)]


def main():
    faults = faults_of(Path(sys.argv[1]))
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
