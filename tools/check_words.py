#!/usr/bin/env python3
"""Checks words that may not stand in the code.

usage: check_words.py ROOT

Memory comes from base/ alone; below cli/ nothing prints; below desk/ nothing
reads clock, file or environment; nowhere an unsafe text function, a promise to
do later, or a path of somebody's machine. Comments and strings of C are left
out where only code matters. Prints file:line and the word; exit 1 if any.
"""
import re
import sys
from pathlib import Path

LOW = "base nature farm journal sim plan work learn sums store json out"
LOWER_LAYERS = LOW.split()
NOT_BASE = LOWER_LAYERS[1:] + ["desk", "http", "cli"]
EVERY_LAYER = LOWER_LAYERS + ["desk", "http", "cli"]

# In the code of src/: pattern, layers where it is refused, why.
IN_CODE = [
    (r"\b(malloc|calloc|realloc|reallocarray|free|strdup|strndup|v?asprintf)"
     r"\s*\(", NOT_BASE, "memory comes from base/arena.h"),
    (r"\b(strcpy|strcat|stpcpy|v?sprintf|gets|alloca|strtok|atoi|atof|rand|"
     r"srand|setlocale)\s*\(", EVERY_LAYER, "unsafe or unrepeatable"),
    (r"\b(v?printf|puts|putchar|perror)\s*\(|\b(stdout|stderr)\b",
     LOWER_LAYERS + ["desk"], "only http/ and cli/ print"),
    (r"\b(open|opendir|getenv|clock_gettime|gettimeofday|localtime\w*|"
     r"gmtime\w*|time)\s*\(", LOWER_LAYERS,
     "below desk/ nothing reads file, clock or environment"),
    (r"\bfopen\s*\(", [layer for layer in LOWER_LAYERS if layer != "store"],
     "below desk/ nothing reads file, clock or environment; store/ only its "
     "database and the list of its backups"),
]

# In the whole text of every file.
IN_TEXT = [
    (r"\b(TODO|FIXME|XXX)\b", "do it, or leave it out"),
    (r"(?<![\w.])/(work|home|root|tmp/wt)/\w", "a path of one machine"),
]

TEXT_SUFFIXES = {"", ".c", ".h", ".py", ".sh", ".md", ".build", ".csv",
                 ".json", ".mjs", ".ts", ".txt", ".1", ".yml"}
SKIPPED = {".git", "node_modules", "__pycache__", "withy-reach"}


def bare_code(text):
    """C without what stands in comments, strings and characters; the lines
    stay where they are."""
    pattern = r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\''
    return re.sub(pattern, lambda m: "\n" * m.group().count("\n") or '""',
                  text, flags=re.S)


def find(path, text, pattern, why):
    for number, line in enumerate(text.splitlines(), 1):
        found = re.search(pattern, line)
        if found:
            yield f"{path}:{number}: {found.group().strip()}: {why}"


def faults_of_code(path, layer, text):
    code = bare_code(text)
    faults = []
    for pattern, layers, why in IN_CODE:
        if layer in layers:
            faults += find(path, code, pattern, why)
    if not text.startswith("/*"):
        faults.append(f"{path}:1: the first line says what the file is for")
    return faults


def files_of(root):
    for path in sorted(root.rglob("*")):
        parts = path.relative_to(root).parts
        is_skipped = (SKIPPED.intersection(parts)
                      or any(part.startswith("build") for part in parts[:-1]))
        if path.is_file() and not is_skipped and path.suffix in TEXT_SUFFIXES:
            yield path, parts


def faults_of(root):
    faults = []
    for path, parts in files_of(root):
        if path.name == "check_words.py":
            continue
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue
        for pattern, why in IN_TEXT:
            faults += find(path, text, pattern, why)
        if parts[0] == "src" and path.suffix in {".c", ".h"}:
            faults += faults_of_code(path, parts[1], text)
    return faults


def main():
    if len(sys.argv) != 2 or not Path(sys.argv[1]).is_dir():
        sys.exit(__doc__)
    faults = faults_of(Path(sys.argv[1]))
    print("\n".join(faults) if faults else "words: no fault")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
