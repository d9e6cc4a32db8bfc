#!/usr/bin/env python3
"""Fifty clients at once on pages and state: wrk against `leat open` on the
loopback, with the demo farm and its plan.

usage: bench/serve.py [--seconds 60] [--clients 50] [LEAT]

Prints requests a second, p50, p99 and the worst in ms, answers that were no
2xx, errors of sockets, and the server's memory before and after; beside it the
slowest entry that somebody told meanwhile, one a second. wrk asks as fast as it
is answered, so this is the server at its limit. It asks as the pages of those do
who told nothing themselves just now: an answer may be two seconds old.
"""
import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
import threading
import time
import uuid
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "tests" / "contract"))
from server import TODAY, Server  # noqa: E402

PATHS = ["/", "/api/farm", "/api/round", "/api/jobs", "/api/beds",
         "/api/fish", "/api/me", "/api/journal", "/api/orders", "/app.js"]

MIX = """
local paths = {%s}
local at = 0
function request()
  at = at %% #paths + 1
  return wrk.format("GET", paths[at], {["Cache-Control"] = "max-age=2"})
end
"""


def tell_on(server, stop, slowest):
    """One entry a second, as people on their round do."""
    while not stop.wait(1.0):
        began = time.monotonic()
        status, answer = server.tell("POST", "/api/journal", {"entries": [
            {"uid": str(uuid.uuid4()), "kind": "seen", "happened_on": TODAY,
             "text": "looked at while others looked on"}]})
        assert status == 200, answer
        slowest.append(time.monotonic() - began)


def milliseconds(text):
    value, unit = re.match(r"([\d.]+)(us|ms|s|m)", text).groups()
    return float(value) * {"us": 1e-3, "ms": 1.0, "s": 1e3, "m": 6e4}[unit]


def run(server, seconds, clients, telling):
    paths = [path for path in PATHS if server.get(path)[0] == 200]
    with tempfile.NamedTemporaryFile("w", suffix=".lua") as script:
        script.write(MIX % ", ".join(f'"{path}"' for path in paths))
        script.flush()
        before = server.memory_kb()
        stop, told = threading.Event(), []
        teller = threading.Thread(target=tell_on, args=(server, stop, told))
        if telling:
            teller.start()
        out = subprocess.run(
            ["wrk", "-t1", f"-c{clients}", f"-d{seconds}s", "--latency",
             "-s", script.name, f"http://localhost:{server.port}/"],
            capture_output=True, text=True, check=True).stdout
        stop.set()
        if telling:
            teller.join()
    p99 = milliseconds(re.search(r" 99%\s+(\S+)", out).group(1))
    p50 = milliseconds(re.search(r" 50%\s+(\S+)", out).group(1))
    worst = milliseconds(re.search(r"Latency\s+\S+\s+\S+\s+(\S+)", out).group(1))
    bad = re.search(r"Non-2xx or 3xx responses: (\d+)", out)
    sockets = re.search(r"Socket errors: (.*)", out)
    return {
        "telling": telling, "paths": len(paths), "clients": clients,
        "seconds": seconds,
        "requests_s": float(re.search(r"Requests/sec:\s+(\S+)", out).group(1)),
        "p50_ms": p50, "p99_ms": p99, "worst_ms": worst,
        "not_2xx": int(bad.group(1)) if bad else 0,
        "socket_errors": sockets.group(1) if sockets else "none",
        "memory_before_kb": before, "memory_after_kb": server.memory_kb(),
        "slowest_entry_ms": round(1000 * max(told), 1) if told else None,
    }


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--clients", type=int, default=50)
    parser.add_argument("leat", nargs="?",
                        default=str(ROOT / "build-release/src/cli/leat"))
    asked = parser.parse_args()
    if not os.path.exists(asked.leat):
        sys.exit(f"{asked.leat} is not there: ./start builds it")
    with Server(asked.leat, plan=True) as server:
        for telling in (False, True):
            print(json.dumps(run(server, asked.seconds, asked.clients,
                                 telling)))


main()
