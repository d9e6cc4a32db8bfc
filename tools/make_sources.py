#!/usr/bin/env python3
"""Makes docs/sources.md from docs/sources.d/*.md.

usage: make_sources.py [--check] [ROOT]

Each file of docs/sources.d holds one subject's entries:
- **[KEY]** full reference.
A key told twice in different words, and a "Source: [KEY]" in src/ without an
entry, are faults. With --check nothing is written: exit 1 where docs/sources.md
is not current or there is a fault.
"""
import re
import sys
from pathlib import Path

ENTRY = re.compile(r"- \*\*\[([^\]]+)\]\*\* ")
KEY = re.compile(r"\[([A-Z][A-Za-z0-9&+.-]*)\]")
HEAD = """# Sources

Made by `tools/make_sources.py` from `docs/sources.d/`; do not edit. Code and
tables name an entry by its key. SEEN: read in the source; MEMORY: recalled,
not looked up; COMPUTED: worked out from what is beside it.
"""


def entries_of(text):
    """(key, its lines) of each entry; lines that follow belong to it."""
    entries = []
    for line in text.splitlines():
        found = ENTRY.match(line)
        if found:
            entries.append((found.group(1), [line]))
        elif entries and line.startswith(" ") and line.strip():
            entries[-1][1].append(line)
    return entries


def keys_in_code(root):
    """(where, key) for each key in a "Source:" of a comment in src/."""
    for path in sorted((root / "src").rglob("*.[ch]")):
        text = path.read_text(encoding="utf-8")
        for found in re.finditer(r"Sources?:(.*?)(\*/|\n\s*\*?\s*\n)", text,
                                 re.S):
            line = text.count("\n", 0, found.start()) + 1
            for key in KEY.findall(found.group(1)):
                yield f"{path}:{line}", key


def assemble(root):
    """The text of docs/sources.md, and the faults."""
    told, faults, parts = {}, [], [HEAD]
    for path in sorted((root / "docs/sources.d").glob("*.md")):
        entries = sorted(entries_of(path.read_text(encoding="utf-8")))
        fresh = []
        for key, lines in entries:
            if key not in told:
                fresh.append("\n".join(lines))
            elif told[key] != lines:
                faults.append(f"{path}: [{key}] is told twice, differently")
            told.setdefault(key, lines)
        title = path.stem.replace("-", " ").capitalize()
        parts.append(f"\n## {title}\n\n" + "\n".join(fresh) + "\n")
    for where, key in keys_in_code(root):
        if key not in told:
            faults.append(f"{where}: [{key}] has no entry in docs/sources.d")
    return "".join(parts), faults


def main():
    words = sys.argv[1:]
    is_check = "--check" in words
    words = [w for w in words if w != "--check"]
    root = Path(words[0]) if words else Path(__file__).parent.parent
    target = root / "docs/sources.md"
    text, faults = assemble(root)
    if not is_check:
        target.write_text(text, encoding="utf-8")
    elif not target.exists() or target.read_text(encoding="utf-8") != text:
        faults.append("docs/sources.md is not current: run "
                      "tools/make_sources.py")
    print("\n".join(faults) if faults else "sources: no fault")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
