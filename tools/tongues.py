#!/usr/bin/env python3
"""Keeps the catalogues of sentences, data/tongues/*.po, and makes the binary's
tables from them.

usage: tongues.py update         bring the catalogues up to what the code says
       tongues.py check          fail where a sentence is missing or broken
       tongues.py open LANGUAGE  list what has no translation yet
       tongues.py table OUT.c PO...

A sentence is what stands as text in a call or mark of MARKS in src/, and the
names of DATA. Catalogues are gettext's .po files; of its features plural forms
and comments are used. A translation has the conversions of the English format,
in any order ("%2$s"), and begins and ends with the same spaces.
"""
import csv
import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HOME = ROOT / "data" / "tongues"

# Call or mark: which of its arguments are texts; two together are the forms of
# one and of several.
MARKS = {"card_say": [(2,)], "card_row": [(2,)], "sum_caution": [(1,)],
         "check_tell": [(4,)], "check_notice": [(4,)], "check_doubt": [(4,)],
         "faults_add": [(3,)], "faults_notice": [(3,)],
         "say": [(1,)], "say_n": [(2, 3)], "arena_say": [(1,)], "SAY": [(0,)],
         "SAY_N": [(0, 1)],
         # base/working.h; the last is work/water_working.c's.
         "working_says": [(1,), (2,)], "working_note": [(1,)],
         "working_figure": [(2,)], "working_value": [(2,)],
         "working_date": [(2,)], "says": [(1,), (2,)]}

# The same where a list of macros holds the texts.
FIELDS = {"F": [(8,)], "T": [(5,)]}
MARKS_OF = {"src/farm/records.h": FIELDS, "src/farm/plan_fields.h": FIELDS}

# Names of the book: file, figures.
DATA = [("ways.csv", {"name"}), ("tasks.csv", {"name"})]

LITERAL = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
BLANK = re.compile(r"(?:\s|\\\n|/\*.*?\*/)*", re.S)
CONVERSION = re.compile(
    r"%(?:(\d+)\$)?([-+ #0]*)(\*|\d+)?(?:\.(\*|\d+))?"
    r"(hh|h|ll|l|j|z|t|L)?([diouxXeEfFgGaAcspn%])")
ESCAPES = {"n": "\n", "t": "\t", '"': '"', "\\": "\\", "?": "?", "'": "'"}


# ---- what the code says ------------------------------------------------------

def unescaped(text):
    return re.sub(r"\\(.)", lambda found: ESCAPES[found.group(1)], text)


def arguments_of(text, at):
    """The arguments, as text, of the call whose bracket opens before at."""
    depth, start, found = 0, at, []
    while True:
        char = text[at]
        if char == '"':
            at = LITERAL.match(text, at).end()
            continue
        if char == "'":
            at = re.compile(r"'(?:[^'\\]|\\.)+'").match(text, at).end()
            continue
        if char in "([{":
            depth += 1
        elif char in ")]}" and depth == 0:
            found.append(text[start:at])
            return found
        elif char in ")]}":
            depth -= 1
        elif char == "," and depth == 0:
            found.append(text[start:at])
            start = at + 1
        at += 1


def literals_of(argument):
    """Its texts; pieces that stand side by side are one."""
    texts, at = [], 0
    while True:
        found = LITERAL.search(argument, at)
        if not found:
            return texts
        text = unescaped(found.group(1))
        at = BLANK.match(argument, found.end()).end()
        while argument[at:at + 1] == '"':
            found = LITERAL.match(argument, at)
            text += unescaped(found.group(1))
            at = BLANK.match(argument, found.end()).end()
        texts.append(text)


def has_words(text):
    return re.search(r"[^\W\d_]", CONVERSION.sub("", text)) is not None


def sentences_of_code(path):
    """(one, several or None) of each text marked in a file."""
    text = path.read_text(encoding="utf-8")
    name = path.relative_to(ROOT).as_posix() if ROOT in path.parents else ""
    marks = MARKS_OF.get(name, MARKS)
    for call in re.finditer(r"\b(" + "|".join(marks) + r")\(", text):
        arguments = arguments_of(text, call.end())
        for places in marks[call.group(1)]:
            if len(arguments) <= places[-1]:
                continue
            lists = [literals_of(arguments[place]) for place in places]
            if len(lists) == 1:
                yield from ((one, None) for one in lists[0] if has_words(one))
            elif lists[0]:
                yield lists[0][0], lists[1][0]


def sentences():
    """{one: (several or None, {files})}, in the order of the files."""
    found = {}

    def add(one, several, where):
        known = found.setdefault(one, [several, []])
        known[0] = known[0] or several
        if where not in known[1]:
            known[1].append(where)

    for path in sorted((ROOT / "src").rglob("*.[ch]")):
        if path.stem != "tongue":
            for one, several in sentences_of_code(path):
                add(one, several, str(path.relative_to(ROOT)))
    for name, figures in DATA:
        with open(ROOT / "data" / name, encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                if row["figure"] in figures:
                    add(row["value"], None, "data/" + name)
    return found


# ---- catalogues --------------------------------------------------------------

def quoted(text):
    text = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + text.replace("\n", "\\n").replace("\t", "\\t") + '"'


def po_read(path):
    """(header, {one: [forms]})."""
    entries, entry, field = [], {}, None
    for line in path.read_text(encoding="utf-8").splitlines() + [""]:
        word = re.match(r'(msgid_plural|msgid|msgstr)(\[\d\])? (".*")$', line)
        if word:
            if word.group(1) == "msgid" and entry:
                entries.append(entry)
                entry = {}
            field = word.group(1) + (word.group(2) or "")
            entry[field] = unescaped(word.group(3)[1:-1])
        elif line.startswith('"'):
            entry[field] += unescaped(line[1:-1])
        elif line and not line.startswith("#"):
            raise SystemExit(f"{path}: cannot be read: {line}")
    entries.append(entry)
    found = {}
    for entry in entries:
        forms = [entry[key] for key in sorted(entry)
                 if key.startswith("msgstr")]
        found[entry["msgid"]] = forms
    header = found.pop("")[0]
    return header, found


def form_count(header):
    return int(re.search(r"nplurals=(\d)", header).group(1))


def po_write(path, header, texts, known):
    draft = "" if "X-Draft: yes" not in header else (
        "# Draft: not yet read by a native speaker who knows the trade.\n")
    parts = [f'{draft}msgid ""\nmsgstr ""\n' + "".join(
        quoted(line + "\n") + "\n" for line in header.splitlines())]
    forms = form_count(header)
    for one, (several, files) in texts.items():
        said = known.get(one, [])
        lines = ["#: " + " ".join(files), "msgid " + quoted(one)]
        if several is None:
            lines.append("msgstr " + quoted(said[0] if said else ""))
        else:
            lines.append("msgid_plural " + quoted(several))
            said = said if len(said) == forms else [""] * forms
            lines += [f"msgstr[{i}] {quoted(text)}"
                      for i, text in enumerate(said)]
        parts.append("\n".join(lines) + "\n")
    path.write_text("\n".join(parts), encoding="utf-8")


# ---- checks ------------------------------------------------------------------

def conversions(text):
    """The arguments that a format takes, in their order: [(length, kind)]."""
    taken, after = {}, 0
    for place, _, width, precision, size, kind in CONVERSION.findall(text):
        if kind == "%":
            continue
        for star in (width, precision):
            if star == "*":
                taken[after] = ("", "*")
                after += 1
        at = int(place) - 1 if place else after
        after = at + 1
        taken[at] = (size, {"i": "d"}.get(kind, kind))
    return [taken.get(at) for at in range(max(taken, default=-1) + 1)]


def ends_of(text):
    return (text[:len(text) - len(text.lstrip(" "))],
            text[len(text.rstrip(" ")):])


def fault_of(one, several, said, forms):
    """What is wrong with a translation; None: nothing."""
    if not said or not all(said):
        return "no translation"
    if len(said) != (1 if several is None else forms):
        return f"{len(said)} forms"
    # A text with {names} is filled by them, not as a format.
    names = re.compile(r"\{\w+\}")
    is_format = not names.search(one)
    wanted = conversions(one) if is_format else []
    for i, text in enumerate(said):
        got = conversions(text) if is_format else []
        # A form for a single number may say the number in words.
        in_words = several is not None and i < forms - 1
        if got != wanted and not (in_words and got == wanted[1:]
                                  and len(wanted) == 1):
            return f"conversions {got}, not {wanted}"
        if sorted(names.findall(text)) != sorted(names.findall(one)):
            return "names in braces"
        if ends_of(text) != ends_of(one):
            return "spaces at its ends"
    return None


def catalogues():
    return sorted(HOME.glob("*.po"))


def update():
    texts = sentences()
    for path in catalogues():
        header, known = po_read(path)
        po_write(path, header, texts, known)
        lost = len(set(known) - set(texts))
        print(f"{path.name}: {len(texts)} sentences, {lost} no longer said")


def check():
    texts = sentences()
    is_good = True
    for path in catalogues():
        header, known = po_read(path)
        done = 0
        for one, (several, files) in texts.items():
            fault = fault_of(one, several, known.get(one), form_count(header))
            done += fault is None
            if fault:
                print(f"{path.name}: {quoted(one)} ({files[0]}): {fault}")
                is_good = False
        for one in set(known) - set(texts):
            print(f"{path.name}: {quoted(one)}: no longer said; "
                  "tools/tongues.py update")
            is_good = False
        print(f"{path.name}: {done} of {len(texts)} sentences")
    return 0 if is_good else 1


def tell_open(language):
    header, known = po_read(HOME / f"{language}.po")
    forms = form_count(header)
    for one, (several, files) in sentences().items():
        if fault_of(one, several, known.get(one), forms):
            print(quoted(one) + (" | " + quoted(several) if several else ""))


# ---- the table ---------------------------------------------------------------

def in_c(text):
    text = text.replace("\\", "\\\\").replace('"', '\\"').replace("?", "\\?")
    return '"' + text.replace("\n", "\\n").replace("\t", "\\t") + '"'


# Written from the right: what is filled in is isolated (Unicode Standard Annex
# 9), or a name from the left and a number behind it would change places.
FROM_RIGHT = {"ar"}


def isolated(text):
    """Texts that stand by themselves; what goes on without a space, as a part
    of a sentence that was made before, is left to it."""
    def put(found):
        beside = text[:found.start()][-1:] + text[found.end():][:1]
        is_joined = any(c.isalnum() or c == "%" for c in beside)
        return (found.group(0) if found.group(6) != "s" or is_joined
                else f"\u2068{found.group(0)}\u2069")
    return CONVERSION.sub(put, text)


def table(output, paths):
    """Texts by their English, as strcmp orders them."""
    parts = ["/* Made by tools/tongues.py from data/tongues/. */\n"
             '#include "base/tongue.h"\n']
    for path in map(Path, paths):
        header, known = po_read(path)
        code = path.stem
        rows = []
        for one in sorted(known, key=lambda text: text.encode()):
            said = known[one]
            if not said or not all(said):
                continue
            if code in FROM_RIGHT:
                said = [isolated(text) for text in said]
            if len(said) == 1:
                rows.append(f"    {{{in_c(one)}, {in_c(said[0])}, NULL}},\n")
            else:
                forms = ", ".join(map(in_c, said))
                rows.append(f"    {{{in_c(one)}, NULL,\n"
                            "     (const char *const[TONGUE_FORMS_MOST])"
                            f"{{{forms}}}}},\n")
        draft = "true" if "X-Draft: yes" in header else "false"
        parts.append(
            f"static const TongueText TEXTS_{code}[] = {{\n"
            f"{''.join(rows)}    {{NULL, NULL, NULL}},\n}};\n"
            f"extern const TongueCatalogue TONGUE_{code};\n"
            f"const TongueCatalogue TONGUE_{code} = {{\n"
            f"    {draft}, TEXTS_{code}, {len(rows)},\n}};\n")
    Path(output).write_text("\n".join(parts), encoding="utf-8")
    return 0


def main():
    if sys.argv[1:] == ["update"]:
        return update()
    if sys.argv[1:] == ["check"]:
        return check()
    if sys.argv[1:2] == ["open"] and len(sys.argv) == 3:
        return tell_open(sys.argv[2])
    if sys.argv[1:2] == ["table"] and len(sys.argv) > 3:
        return table(sys.argv[2], sys.argv[3:])
    raise SystemExit(__doc__)


if __name__ == "__main__":
    sys.exit(main())
