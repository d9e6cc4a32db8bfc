"""The demo farm in a folder of a test's own, and the program run on it. Of
tests called as: NAME.py LEAT SOURCE_ROOT
"""
import os
import shutil
import subprocess
import sys
import tempfile
import unittest

LEAT = sys.argv[1]
# What searches for plans: where the program under test is built with
# sanitizers, the one that people run, which is many times faster. The search
# itself is tried with sanitizers in tests/plan and tests/demo.
PLANNER = os.environ.get("LEAT_PLANNER", LEAT)
ROOT = sys.argv[2]
DEMO = os.path.join(ROOT, "demo", "withy-reach")
DAY = ("--today", "2027-03-01")

# A small plan written by hand: one batch standing, one to come, one sale.
SMALL_PLAN = {
    "plan.csv": "id,from,weeks,accepted_on,seed,value,book\n"
                "accepted,2027-03-01,52,2027-03-01,1,1000,x\n",
    "plan_plants.csv":
        "id,way,bed,place,sections,first_section,plants,sow_on,set_on,"
        "pick_from,pick_until,clear_on,standing\n"
        "h1-s7-2026-12-28,lettuce-head,H1-S7,floor,4,0,63,2026-11-30,"
        "2026-12-28,2027-03-01,2027-03-28,2027-04-05,h1-s7-2026-12-28\n"
        "new-1,lettuce-head,H3-N7,floor,4,0,63,2027-03-01,2027-03-29,"
        "2027-05-03,2027-05-16,2027-05-24,\n",
    "plan_fish.csv":
        "id,batch,standing,lane,count,mean_g\n"
        "g-1,grow-out,grow-out,1,63,350\ng-2,grow-out,grow-out,2,62,410\n"
        "g-3,grow-out,grow-out,3,63,460\ng-4,grow-out,grow-out,4,62,540\n",
    "plan_moves.csv":
        "id,fish,kind,on,run,started,count,mean_g,from_tank,to_tank,product\n"
        "m1,g-4,sale,2027-03-08,1,8,8,550,A,,fish\n",
    "plan_cleans.csv": "bed,on\n",
    "plan_orders.csv": "order,week,wanted,kept\n" + "".join(
        f"head-lettuce-box,2027-03-{day:02d},55,55\n"
        for day in (1, 8, 15, 22)),
}


def run(*words, text=None, before=(), **more):
    leat = PLANNER if words[0] == "plan" and "--moves" in words else LEAT
    return subprocess.run([*before, leat, *words], capture_output=True,
                          text=True, timeout=240, input=text, **more)


def accept_plan(farm, moves):
    """By a search of so many moves."""
    told = run("plan", farm, *DAY, "--moves", str(moves), "--no-ceiling",
               "--accept")
    assert told.returncode == 0, told.stderr


def write_small_plan(farm):
    for name, text in SMALL_PLAN.items():
        with open(os.path.join(farm, name), "w", encoding="utf-8") as file:
            file.write(text)


class DemoFarm(unittest.TestCase):
    """A copy at self.farm for all tests of a class, in self.top."""

    @classmethod
    def setUpClass(cls):
        cls.top = tempfile.mkdtemp(prefix="leat-test-")
        cls.farm = os.path.join(cls.top, "farm")
        shutil.copytree(DEMO, cls.farm)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.top, True)
