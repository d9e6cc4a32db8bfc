"""leat carry on the demo: text, JSON, narrowing, refusals.

usage: carry.py LEAT SOURCE_ROOT
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import unittest

LEAT = sys.argv[1]
ROOT = sys.argv[2]
DEMO = os.path.join(ROOT, "demo", "withy-reach")


def run(*words):
    return subprocess.run([LEAT, *words], capture_output=True, text=True,
                          timeout=240)


class Carry(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.top = tempfile.mkdtemp(prefix="leat-carry-")
        cls.farm = os.path.join(cls.top, "farm")
        shutil.copytree(DEMO, cls.farm)
        told = run("plan", cls.farm, "--today", "2027-03-01", "--moves",
                   "60000", "--no-ceiling", "--accept")
        assert told.returncode == 0, told.stderr
        cls.page = json.loads(run("carry", cls.farm, "--json").stdout)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.top, True)

    def test_the_page_tells_each_loop_in_words_and_numbers(self):
        told = run("carry", self.farm)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertEqual(told.stderr, "")
        for word in ("do the fish carry the beds?", "\nLoop loop-1",
                     "\nLoop loop-2", "Feed given", "four weeks from"):
            self.assertIn(word, told.stdout)
        self.assertTrue(all(len(line) < 100
                            for line in told.stdout.splitlines()))

    def test_every_week_has_its_numbers(self):
        page = self.page
        self.assertEqual(len(page["weeks"]), 52)
        self.assertEqual([loop["id"] for loop in page["loops"]],
                         ["loop-1", "loop-2"])
        for loop in page["loops"]:
            self.assertEqual(len(loop["elements"]), 6)
            for element in loop["elements"]:
                for key in ("fish_g", "asked_g", "taken_g", "store_g_m3"):
                    self.assertEqual(len(element[key]), 52)
                for asked, taken in zip(element["asked_g"],
                                        element["taken_g"]):
                    self.assertLessEqual(taken, asked + 1e-9)

    def test_what_is_short_is_short_in_the_numbers_too(self):
        for loop in self.page["loops"]:
            said = " ".join(loop["words"])
            for element in loop["elements"]:
                is_said = "Short: %s " % element["name"] in said
                self.assertEqual(is_said, element["short_from"] is not None)
                least = min(taken / asked for asked, taken in
                            zip(element["asked_g"], element["taken_g"])
                            if asked > 1e-3)
                if element["short_from"]:
                    self.assertLess(least, 0.5)

    def test_potassium_is_what_fish_do_not_bring(self):
        # All who farm so report it: potassium, calcium and iron run short.
        short = {element["name"] for loop in self.page["loops"]
                 for element in loop["elements"] if element["short_from"]}
        self.assertIn("potassium", short)

    def test_iron_given_is_not_short(self):
        page = json.loads(run("carry", self.farm, "--iron", "--json").stdout)
        for loop in page["loops"]:
            iron = loop["elements"][5]
            self.assertEqual(iron["name"], "iron")
            self.assertGreater(min(iron["store_g_m3"][8:]), 0.3)

    def test_one_loop_and_few_weeks(self):
        told = run("carry", self.farm, "loop=loop-2", "--weeks", "8")
        self.assertEqual(told.returncode, 0)
        self.assertNotIn("Loop loop-1", told.stdout)
        self.assertIn("8 weeks", told.stdout)

    def test_refusals_name_what_is_wrong(self):
        told = run("carry", self.farm, "loop=pond")
        self.assertEqual(told.returncode, 1)
        self.assertIn("pond", told.stderr)
        self.assertEqual(run("carry", self.farm, "--weeks", "0").returncode, 2)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]])
