#!/usr/bin/env python3
"""Writes the built pages as one C table, so that the binary carries them.

usage: embed_pages.py FOLDER OUTPUT.c

Every file of FOLDER becomes an EmbeddedFile (base/embed.h) under its name
relative to it, ordered by name; text also packed by gzip, as NAME.gz, where
that is shorter. Without FOLDER the table is empty. The output is written anew
only where it changes.
"""
import gzip
import sys
from pathlib import Path

PER_LINE = 20
TEXT = {".html", ".js", ".css", ".json", ".svg", ".webmanifest", ".txt"}


def files_of(folder):
    found = {}
    for path in sorted(folder.rglob("*")) if folder.is_dir() else []:
        if not path.is_file() or path.suffix == ".map":
            continue
        name = path.relative_to(folder).as_posix()
        data = path.read_bytes()
        found[name] = data
        if path.suffix in TEXT:
            packed = gzip.compress(data, 9, mtime=0)
            if len(packed) < len(data):
                found[name + ".gz"] = packed
    return found


def body_of(data):
    numbers = [str(byte) for byte in data] + ["0"]
    return ",\n".join(",".join(numbers[i:i + PER_LINE])
                      for i in range(0, len(numbers), PER_LINE))


def main():
    folder, output = Path(sys.argv[1]), Path(sys.argv[2])
    files = files_of(folder)
    parts = ["/* The built pages; made by tools/embed_pages.py. */\n"
             '#include "base/embed.h"\n']
    rows = []
    for number, name in enumerate(sorted(files)):
        data = files[name]
        parts.append(f"static const unsigned char BYTES_{number}[] = {{\n"
                     f"{body_of(data)}}};\n")
        rows.append(f'    {{"{name}", (const char *)BYTES_{number}, '
                    f"{len(data)}}},\n")
    rows.append("    {NULL, NULL, 0},\n")
    parts.append("extern const EmbeddedFile WEB_FILES[];\n"
                 "extern const size_t WEB_FILES_COUNT;\n"
                 f"const EmbeddedFile WEB_FILES[] = {{\n{''.join(rows)}}};\n"
                 f"const size_t WEB_FILES_COUNT = {len(files)};\n")
    text = "\n".join(parts)
    if not output.exists() or output.read_text(encoding="utf-8") != text:
        output.write_text(text, encoding="utf-8")


main()
