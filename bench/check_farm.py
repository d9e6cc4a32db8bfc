#!/usr/bin/env python3
"""Times `leat check` on the demo and on a folder of many rows.

usage: check_farm.py LEAT [ROWS]

Prints the median and the least of nine runs in milliseconds, the whole process
counted, beside what is asked for: 50 ms, and a second for 200,000 rows.
"""
import os
import statistics
import subprocess
import sys
import tempfile
import time

RUNS = 9
BEDS_IN_ZONE = 8
BEDS_IN_LOOP = 64


def add_rows(folder, file, rows):
    """Rows behind a table; each names its columns."""
    path = os.path.join(folder, file)
    with open(path, encoding="utf-8") as table:
        head = table.readline().strip().split(",")
    with open(path, "a", encoding="utf-8") as table:
        for row in rows:
            table.write(",".join(str(row.get(name, "")) for name in head))
            table.write("\n")


def enlarge(folder, rows):
    """A sound farm of about so many rows: beds, plants in them, orders."""
    beds = rows // 3
    loops = beds // BEDS_IN_LOOP + 1
    zones = beds // BEDS_IN_ZONE + 1
    add_rows(folder, "loops.csv", ({"id": f"l{i}", "sump_m3": 40}
                                   for i in range(loops)))
    add_rows(folder, "pumps.csv", ({"id": f"p{i}", "loop": f"l{i}",
                                    "flow_m3_h": 60} for i in range(loops)))
    add_rows(folder, "zones.csv", (
        {"id": f"z{i}", "loop": f"l{i // 8}", "pump": f"p{i // 8}",
         "turn": i % 8 + 1, "minutes": 20} for i in range(zones)))
    add_rows(folder, "beds.csv", (
        {"id": f"bed-{i}", "walk": 1000 + i, "length_m": 2.4, "width_m": 1.2,
         "depth_m": 0.3, "flood_m": 0.25, "gravel": "gravel-8-20",
         "porosity_frac": 0.42, "zone": f"z{i // BEDS_IN_ZONE}",
         "edge": "none"} for i in range(beds)))
    add_rows(folder, "plants.csv", (
        {"id": f"plant-{i}", "way": "lettuce-head", "bed": f"bed-{i}",
         "place": "floor", "sections": 4, "set_on": "2027-01-11",
         "counted_on": "2027-03-01"} for i in range(beds)))
    add_rows(folder, "orders.csv", (
        {"id": f"order-{i}", "buyer": "hotel", "product": "basil",
         "quantity": 4, "firmness": "promised", "months": "5-10"}
        for i in range(rows - 2 * beds)))


def milliseconds(words):
    start = time.monotonic()
    subprocess.run(words, stdout=subprocess.PIPE, check=True)
    return (time.monotonic() - start) * 1e3


def report(name, leat, folder, wanted_ms):
    times = sorted(milliseconds([leat, "check", folder]) for _ in range(RUNS))
    print(f"{name}: median {statistics.median(times):.1f} ms, least "
          f"{times[0]:.1f} ms; asked for: {wanted_ms} ms")


def main():
    leat = sys.argv[1]
    rows = int(sys.argv[2]) if len(sys.argv) > 2 else 200000
    with tempfile.TemporaryDirectory(prefix="leat-bench-") as top:
        demo = os.path.join(top, "demo")
        large = os.path.join(top, "large")
        for folder in (demo, large):
            subprocess.run([leat, "new", folder], stdout=subprocess.PIPE,
                           check=True)
        enlarge(large, rows)
        report("leat check, the demo", leat, demo, 50)
        report(f"leat check, {rows} rows", leat, large, 1000)


main()
