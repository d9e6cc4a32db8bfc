#!/usr/bin/env python3
"""Writes the fish of data/fish.csv as a C table of FishSpecies.

usage: make_fish.py data/fish.csv OUTPUT.c

A row is one figure, or one point of a curve where "at" is filled. Every figure
must be there once; points of a curve rise. The numbers go over as they are
written. A fault is told with its line; exit 1.
"""
import csv
import sys
from pathlib import Path

SCALARS = ["efficiency", "upkeep_g", "upkeep_rise", "upkeep_degc",
           "upkeep_power", "female_frac", "lethal_low_degc",
           "lethal_high_degc", "spawn_degc", "spawn_at_g", "oxygen_frac"]
WITH_ENDS = ["efficiency"]
CURVES = {"ration": ".ration", "warmth_low": ".warmth[0]",
          "warmth": ".warmth[1]", "warmth_high": ".warmth[2]",
          "fry_cycle": ".fry_cycle"}
MAY_LACK = {"fry_cycle"}
NODES = 16
ORIGINS = {"book": "FIGURE_BOOK", "guess": "FIGURE_GUESS"}


def number(text, where):
    try:
        float(text)
    except ValueError:
        sys.exit(f"{where}: not a number: {text!r}")
    return text


def read(path):
    """Species in file order: id to its words, scalars and curves."""
    species = {}
    with path.open(encoding="utf-8", newline="") as handle:
        for line, row in enumerate(csv.DictReader(handle), 2):
            where = f"{path}:{line}"
            fish = species.setdefault(
                row["id"], {"words": {}, "scalars": {}, "curves": {}})
            name = row["figure"]
            if row["unit"] == "word":
                fish["words"][name] = row
                continue
            values = [float(number(row[k], where))
                      for k in ("low", "value", "high")]
            if values != sorted(values):
                sys.exit(f"{where}: low, value, high do not rise")
            if name in CURVES:
                fish["curves"].setdefault(name, []).append(
                    (number(row["at"], where), row["value"]))
            elif name in SCALARS and name not in fish["scalars"]:
                fish["scalars"][name] = row["value"]
                if name in WITH_ENDS:
                    fish["scalars"][name + "_end"] = (
                        f"{{{row['low']}, {row['high']}}}")
            else:
                sys.exit(f"{where}: {name} is unknown, or told twice")
    return species


def curve_of(fish, name, where):
    points = fish["curves"].get(name, [])
    at = [float(x) for x, _ in points]
    if len(points) > NODES or at != sorted(set(at)):
        sys.exit(f"{where}: {name}: at most {NODES} points, rising")
    if not points and name not in MAY_LACK:
        sys.exit(f"{where}: {name} is lacking")
    if not points:
        return f"        {CURVES[name]} = {{.count = 0}},\n"
    xs = ", ".join(x for x, _ in points)
    ys = ", ".join(y for _, y in points)
    return (f"        {CURVES[name]} = {{.count = {len(points)},\n"
            f"            .x = {{{xs}}},\n            .y = {{{ys}}}}},\n")


def struct_of(name, fish):
    title, latin = fish["words"]["title"], fish["words"]["latin"]
    lacking = [s for s in SCALARS if s not in fish["scalars"]]
    if lacking:
        sys.exit(f"{name}: lacking {', '.join(lacking)}")
    scalars = "".join(f"        .{s} = {fish['scalars'][s]},\n"
                      for s in SCALARS + [s + "_end" for s in WITH_ENDS])
    curves = "".join(curve_of(fish, c, name) for c in CURVES)
    return (f'    {{\n        .name = "{name}",\n'
            f'        .title = "{title["value"]}",\n'
            f'        .latin = "{latin["value"]}",\n{curves}{scalars}'
            f'        .origin = {ORIGINS[title["origin"]]},\n'
            f'        .source = "{title["source"]}",\n    }},\n')


def main():
    species = read(Path(sys.argv[1]))
    structs = "".join(struct_of(name, fish) for name, fish in species.items())
    Path(sys.argv[2]).write_text(
        "/* The fish of data/fish.csv; made by tools/make_fish.py. */\n"
        '#include "nature/fish/species_table.h"\n\n'
        f"const FishSpecies FISH_SPECIES[] = {{\n{structs}}};\n"
        f"const int FISH_SPECIES_COUNT = {len(species)};\n",
        encoding="utf-8")


main()
