#!/usr/bin/env python3
"""Writes files as one C table, so that the binary carries them.

usage: embed.py SYMBOL OUTPUT.c FILE...

SYMBOL becomes an array of EmbeddedFile (base/embed.h), ordered by name, and
SYMBOL_COUNT its length; both are declared where they are used.
"""
import sys
from pathlib import Path

PER_LINE = 16


def body_of(data):
    """The bytes as C numbers, in lines, with a closing 0."""
    numbers = [str(byte) for byte in data] + ["0"]
    lines = [",".join(numbers[i:i + PER_LINE])
             for i in range(0, len(numbers), PER_LINE)]
    return ",\n".join(lines)


def main():
    symbol, output, *paths = sys.argv[1:]
    files = sorted((Path(path) for path in paths), key=lambda path: path.name)
    parts = ["/* Files carried in the binary; made by tools/embed.py. */\n"
             '#include "base/embed.h"\n']
    rows = []
    for number, path in enumerate(files):
        data = path.read_bytes()
        parts.append(f"static const unsigned char BYTES_{number}[] = {{\n"
                     f"{body_of(data)}}};\n")
        rows.append(f'    {{"{path.name}", (const char *)BYTES_{number}, '
                    f"{len(data)}}},\n")
    parts.append(f"extern const EmbeddedFile {symbol}[];\n"
                 f"extern const size_t {symbol}_COUNT;\n"
                 f"const EmbeddedFile {symbol}[] = {{\n{''.join(rows)}}};\n"
                 f"const size_t {symbol}_COUNT = {len(rows)};\n")
    Path(output).write_text("\n".join(parts), encoding="utf-8")


main()
