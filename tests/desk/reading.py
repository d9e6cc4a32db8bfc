"""leat reading on the demo and on farms with faults: what it says to stop, the
dose in portions or refused, and what it refuses itself.

usage: reading.py LEAT SOURCE_ROOT
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

LEAT = sys.argv[1]
ROOT = sys.argv[2]
DEMO = os.path.join(ROOT, "demo", "withy-reach")
MORNING = "at=2027-03-02T08:00"


def run(*words):
    return subprocess.run([LEAT, "reading", *words], capture_output=True,
                          text=True, timeout=60)


class Reading(unittest.TestCase):
    def setUp(self):
        self.top = tempfile.mkdtemp(prefix="leat-reading-")
        self.addCleanup(shutil.rmtree, self.top, True)
        self.farm = os.path.join(self.top, "farm")
        shutil.copytree(DEMO, self.farm)

    def told(self, *words):
        told = run(self.farm, *words, MORNING)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertEqual(told.stderr, "")
        for line in told.stdout.splitlines():
            self.assertLessEqual(len(line), 79, line)
        self.assertNotRegex(told.stdout, r"\b(nan|inf)\b|[{}]")
        return told.stdout

    def asked(self, *words):
        told = run(self.farm, *words, MORNING, "--json")
        self.assertEqual(told.returncode, 0, told.stderr)
        return json.loads(told.stdout)

    def ids(self, answer):
        return [finding["id"] for finding in answer["findings"]]

    def test_a_stalled_gravel(self):
        words = ("loop=loop-1", "tan_mg_l=1.5", "ph=6.1", "alkalinity_mg_l=25",
                 "temp_degc=24")
        answer = self.asked(*words)
        self.assertIn("ph-stall", self.ids(answer))
        self.assertEqual(answer["feed"], "none")
        flat = " ".join(self.told(*words).split())
        self.assertIn("The fallen pH stalls nitrification", flat)
        self.assertIn("Feed: none. Again over pH 6.6", flat)
        dose = answer["doses"][0]
        self.assertEqual(dose["base"], "potassium-bicarbonate")
        self.assertAlmostEqual(3 * dose["portion_g"], dose["today_g"], 6)
        self.assertLessEqual(dose["ph_after"], 6.1 + 0.2 + 1e-6)
        self.assertIn("Goggles", dose["cautions"][0])
        self.assertLess(flat.index("Goggles"), flat.index("in portions of"))

    def test_a_dose_that_would_free_ammonia_is_refused_with_the_reason(self):
        answer = self.asked("loop=loop-1", "tan_mg_l=9", "ph=7.2",
                            "alkalinity_mg_l=18", "temp_degc=25")
        self.assertIn("alkalinity-least", self.ids(answer))
        self.assertIn("no base now", answer["doses"][0]["refused"])
        self.assertIsNone(answer["doses"][0]["today_g"])

    def test_no_dose_where_a_needed_reading_lacks(self):
        os.remove(os.path.join(self.farm, "readings.csv"))
        answer = self.asked("loop=loop-1", "ph=6.0", "alkalinity_mg_l=15")
        self.assertEqual(answer["doses"], [])
        self.assertEqual(answer["dose_waits_for"], "tan, temp")
        self.assertIn("No dose before these are tested: tan, temp",
                      " ".join(self.told("loop=loop-1", "ph=6.0",
                                         "alkalinity_mg_l=15").split()))

    def test_what_cannot_be_is_named_first(self):
        answer = self.asked("tank=A", "oxygen_mg_l=18", "temp_degc=28",
                            "ph=8.3", "alkalinity_mg_l=5")
        self.assertEqual(self.ids(answer)[:2], ["oxygen-absurd", "ph-over-air"])
        self.assertEqual(answer["findings"][0]["class"], "cannot-all-be-true")
        self.assertEqual(answer["doses"], [])

    def test_good_water_asks_for_nothing(self):
        text = self.told("tank=A", "tan_mg_l=0.1", "nitrite_mg_l=0.02", "ph=7.1",
                         "temp_degc=21", "oxygen_mg_l=7.1", "chloride_mg_l=60",
                         "nitrate_mg_l=45", "alkalinity_mg_l=110")
        self.assertIn("Feed: as usual.", text)
        self.assertNotIn("Stop feeding", text)

    def test_every_fish_of_the_place_is_told_by_size(self):
        answer = self.asked("loop=loop-1", "tan_mg_l=3", "ph=8.0", "temp_degc=22")
        self.assertEqual([f["tank"] for f in answer["fish"]], ["A", "C"])
        for fish in answer["fish"]:
            self.assertLess(fish["least_g"], fish["most_g"])
            self.assertLessEqual(fish["would_eat_low_frac"],
                                 fish["would_eat_high_frac"])
        self.assertGreater(answer["water_change_frac"], 0.3)
        self.assertLessEqual(answer["water_change_today_frac"], 0.3)

    def test_places_without_fish_or_loop(self):
        text = self.told("tank=purge-tub", "oxygen_mg_l=2.1", "temp_degc=20")
        self.assertIn("no fish are told here", text)
        text = self.told("oxygen_mg_l=2.6")
        self.assertIn("Neither tank= nor loop= is told", text)
        self.assertIn("Feed: none.", text)

    def test_faults_in_the_tables_are_no_reason_to_refuse(self):
        for table, old, new in (("orders.csv", "firm", "frm"),
                                ("fish.csv", "C,2027-03-01,360",
                                 "C,2027-03-01,?"),
                                ("loops.csv", "4,mains", "x,mains"),
                                ("readings.csv", "ph,7.2", "ph,72")):
            path = os.path.join(self.farm, table)
            with open(path, encoding="utf-8") as file:
                text = file.read()
            with open(path, "w", encoding="utf-8") as file:
                file.write(text.replace(old, new))
        flat = " ".join(self.told("loop=loop-1", "tan_mg_l=2.5", "ph=8.4",
                                  "temp_degc=25").split())
        self.assertIn("faults (leat check)", flat)
        self.assertIn("Stop feeding", flat)

    def test_it_answers_well_under_a_second(self):
        start = time.monotonic()
        self.told("tank=B", "oxygen_mg_l=3.4")
        self.assertLess(time.monotonic() - start, 1.0)

    def test_what_is_asked_wrongly_is_told(self):
        for words, code, text in (
                ([], 2, "at least one reading"),
                (["ph=15"], 2, "expected 3 to 12"),
                (["ph=-1"], 2, "expected 3 to 12"),
                (["tan_mg_l=nan"], 2, "number"),
                (["oxygen_mg_l=1e300"], 2, "expected 0 to 40"),
                (["ph=7", "tank=Z"], 1, "no tank"),
                (["ph=7", "loop=loop-3"], 1, "did you mean loop-1"),
                (["ph=7", "tank=A", "loop=loop-2"], 2, "not of loop"),
                (["phh=7"], 2, "did you mean ph"),
                (["ph=7", "at=yesterday"], 2, "expected 02:10")):
            told = run(self.farm, *words)
            self.assertEqual((told.returncode, told.stdout), (code, ""),
                             (words, told.stderr))
            self.assertIn(text, told.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
