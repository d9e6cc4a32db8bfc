#!/usr/bin/env python3
"""Counts a Meson test log: prints "passed failed skipped".

usage: count_tests.py TESTLOG_JSON
"""
import json
import sys

GOOD = {"OK", "EXPECTEDFAIL"}


def count(lines):
    results = [json.loads(line)["result"] for line in lines if line.strip()]
    passed = sum(result in GOOD for result in results)
    skipped = results.count("SKIP")
    return passed, len(results) - passed - skipped, skipped


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    with open(sys.argv[1], encoding="utf-8") as log:
        print(*count(log))
