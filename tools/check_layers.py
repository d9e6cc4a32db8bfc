#!/usr/bin/env python3
"""Checks that dependencies point one way.

usage: check_layers.py SRC

Each folder of SRC is a layer. The table says which layers each may include,
and to which layer each vendor's header is pinned. Prints every include that
breaks it as file:line, and every circle of files; exit 1 if there is any.
"""
import re
import sys
from pathlib import Path

MAY_INCLUDE = {
    "base": [],
    "nature": ["base"],
    "farm": ["base", "nature"],
    "journal": ["base", "nature", "farm"],
    "sim": ["base", "nature", "farm", "journal"],
    "plan": ["base", "nature", "farm", "journal", "sim"],
    "work": ["base", "nature", "farm", "journal", "sim", "plan"],
    "learn": ["base", "nature", "farm", "journal"],
    "sums": ["base", "nature", "farm"],
    "store": ["base", "farm", "journal"],
    "json": ["base", "nature", "farm", "journal", "sim", "plan", "work",
             "sums"],
    "out": ["base", "nature", "farm", "journal", "sim", "plan", "work"],
    "desk": ["base", "nature", "farm", "journal", "sim", "plan", "work",
             "learn", "sums", "store", "json", "out"],
    "http": ["base", "nature", "farm", "journal", "sim", "plan", "work",
             "learn", "sums", "store", "json", "out", "desk"],
    "cli": ["base", "nature", "farm", "journal", "sim", "plan", "work",
            "learn", "sums", "json", "out", "desk", "http"],
}

# Vendor's header (a pattern) and the one layer that knows it.
VENDOR = [
    (r"csv\.h", "base"),
    (r"jansson\.h", "json"),
    (r"(coin/)?(Clp|Coin|Cbc).*\.h", "plan"),
    (r"(libical/)?ical\.h", "out"),
    (r"sqlite3\.h", "store"),
    (r"microhttpd\.h", "http"),
    (r"sodium\.h", "desk"),
    (r"gnutls/.*\.h", "out"),
]

C_LIBRARY = set("""
assert complex ctype errno fenv float inttypes iso646 limits locale math
setjmp signal stdalign stdarg stdatomic stdbool stddef stdint stdio stdlib
stdnoreturn string tgmath time wchar wctype""".split())

# What touches the machine: files, processes, clock. Only from desk/ upward.
MACHINE = re.compile(r"(sys/.*|unistd|strings|sched|fcntl|dirent|poll|signal|time|glob|"
                     r"spawn|termios|pthread|netinet/.*|arpa/.*|net/.*|netdb|ifaddrs)\.h")
MACHINE_LAYERS = {"desk", "http", "cli"}
# store/ keeps its files to their owner: names and hours are in them.
MACHINE_ALSO = {("store", "sys/stat.h")}

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')


def includes_of(path):
    """(line number, quote or bracket, name) of each include of a file."""
    text = path.read_text(encoding="utf-8")
    for number, line in enumerate(text.splitlines(), 1):
        found = INCLUDE.match(line)
        if found:
            yield number, found.group(1), found.group(2)


def fault_of_system_header(layer, name):
    """What is wrong with <name> in that layer, or None."""
    for pattern, home in VENDOR:
        if re.fullmatch(pattern, name):
            return None if layer == home else f"<{name}> belongs to {home}/"
    if MACHINE.fullmatch(name):
        return (None if layer in MACHINE_LAYERS or
                (layer, name) in MACHINE_ALSO else
                f"<{name}> touches the machine: only from desk/ upward")
    if name.removesuffix(".h") in C_LIBRARY:
        return None
    return f"<{name}> is in no row of VENDOR"


def fault_of_own_header(layer, name, source_root):
    """What is wrong with "name" in that layer, or None."""
    target = name.split("/")[0]
    if "/" not in name or target not in MAY_INCLUDE:
        return f'"{name}" names no layer'
    if target != layer and target not in MAY_INCLUDE[layer]:
        return f'{layer}/ may not lean on {target}/: "{name}"'
    if not (source_root / name).exists():
        return f'"{name}" does not exist'
    return None


def circles(graph):
    """Each circle of files once, as a list of names."""
    found, done = [], set()

    def walk(name, trail):
        if name in trail:
            circle = trail[trail.index(name):]
            if min(circle) == circle[0] or set(circle) not in map(set, found):
                found.append(circle)
            return
        if name in done:
            return
        for target in graph.get(name, []):
            walk(target, trail + [name])
        done.add(name)

    for name in sorted(graph):
        walk(name, [])
    return found


def faults_of(source_root):
    faults, graph = [], {}
    for path in sorted(source_root.rglob("*.[ch]")):
        name = path.relative_to(source_root).as_posix()
        layer = name.split("/")[0]
        if layer not in MAY_INCLUDE:
            faults.append(f"{path}:1: {layer}/ is in no row of the table")
            continue
        for number, kind, target in includes_of(path):
            if kind == "<":
                fault = fault_of_system_header(layer, target)
            else:
                fault = fault_of_own_header(layer, target, source_root)
                graph.setdefault(name, []).append(target)
            if fault:
                faults.append(f"{path}:{number}: {fault}")
    for circle in circles(graph):
        faults.append(f"{source_root / circle[0]}:1: a circle: "
                      + " -> ".join(circle + circle[:1]))
    return faults


def main():
    if len(sys.argv) != 2 or not Path(sys.argv[1]).is_dir():
        sys.exit(__doc__)
    faults = faults_of(Path(sys.argv[1]))
    print("\n".join(faults) if faults else "layers: no fault")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
