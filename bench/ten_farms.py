"""Writes a folder with the farm of another so many times over: every loop,
tank, zone, tunnel, bed, fish and plant of it with a number behind its id.

usage: ten_farms.py FROM TO TIMES
"""
import csv
import os
import shutil
import sys

MANY = {"loops", "tunnels", "tanks", "pumps", "zones", "links", "aerators",
        "heaters", "beds", "fish", "plants", "readings"}
# Columns that name a row of one of those tables.
NAMES = {"id", "loop", "tunnel", "tank", "pump", "zone", "bed", "from_tank",
         "to_tank", "from_loop", "to_loop"}


def main():
    source, target, times = sys.argv[1], sys.argv[2], int(sys.argv[3])
    shutil.copytree(source, target)
    for table in sorted(MANY):
        path = os.path.join(target, table + ".csv")
        if not os.path.exists(path):
            continue
        with open(path, newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        if not rows:
            continue
        with open(path, "w", newline="", encoding="utf-8") as file:
            out = csv.DictWriter(file, rows[0].keys())
            out.writeheader()
            for number in range(1, times + 1):
                for row in rows:
                    out.writerow({
                        key: f"{value}-{number}" if key in NAMES and value
                        else value for key, value in row.items()})
    # Rows of other tables that name one of those: the first farm's.
    for table, key in (("fish_sources", "breeders"), ("nursery", "tunnel")):
        path = os.path.join(target, table + ".csv")
        with open(path, newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        with open(path, "w", newline="", encoding="utf-8") as file:
            out = csv.DictWriter(file, rows[0].keys())
            out.writeheader()
            for row in rows:
                row[key] = row[key] + "-1" if row.get(key) else ""
                if table == "nursery":  # room for all the seedlings
                    row["trays"] = " ".join(str(times * int(trays)) for trays
                                            in row["trays"].split())
                out.writerow(row)
    for name in os.listdir(target):  # the plan names rows that are gone
        if name.startswith("plan") and name != "plants.csv":
            os.remove(os.path.join(target, name))


main()
