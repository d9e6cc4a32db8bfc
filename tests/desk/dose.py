"""leat dose on the demo and with other stocks: days, portions, turns, refusals.

usage: dose.py LEAT SOURCE_ROOT
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
WATER = ("loop=loop-1", "ph=6.2", "alkalinity_mg_l=30", "tan_mg_l=0.5",
         "temp_degc=24")
MORNING = "at=2027-03-02T08:00"


def run(*words):
    return subprocess.run([LEAT, "dose", *words], capture_output=True,
                          text=True, timeout=60)


class Dose(unittest.TestCase):
    def setUp(self):
        self.top = tempfile.mkdtemp(prefix="leat-dose-")
        self.addCleanup(shutil.rmtree, self.top, True)
        self.farm = os.path.join(self.top, "farm")
        shutil.copytree(DEMO, self.farm)

    def stock(self, *rows):
        with open(os.path.join(self.farm, "bases.csv"), "w",
                  encoding="utf-8") as file:
            file.write("id,kind,strength_frac,stock_kg\n" + "\n".join(rows))

    def asked(self, *words):
        told = run(self.farm, *words, MORNING, "--json")
        self.assertEqual(told.returncode, 0, told.stderr)
        return json.loads(told.stdout)

    def told(self, *words):
        told = run(self.farm, *words, MORNING)
        self.assertEqual((told.returncode, told.stderr), (0, ""))
        for line in told.stdout.splitlines():
            self.assertLessEqual(len(line), 79, line)
        return " ".join(told.stdout.split())

    def test_steps_of_a_day_in_portions_up_to_the_target(self):
        answer = self.asked(*WATER, "target_ph=6.8")
        days = answer["days"]
        self.assertEqual(len(days), 3)
        last = 6.2
        for day in days:
            self.assertLessEqual(day["ph_after"] - last, 0.2 + 1e-6)
            self.assertAlmostEqual(3 * day["portion_g"], day["product_g"], 6)
            self.assertLessEqual(day["nh3_after_mg_l"], 0.05)
            last = day["ph_after"]
        self.assertAlmostEqual(last, 6.8, 2)
        # The chain of days is the sum's own chain.
        whole = subprocess.run(
            [LEAT, "sum", "base-dose", "base=KHCO3", "volume_m3=13.5",
             "alkalinity_mg_l=30", "ph=6.2", "target_ph=6.8", "temp_degc=24",
             "tan_mg_l=0.5", "strength_pct=99", "--json"],
            capture_output=True, text=True, timeout=60)
        self.assertIn("Goggles", answer["cautions"][0])
        self.assertAlmostEqual(
            json.loads(whole.stdout)["value"], days[0]["product_g"], 3)

    def test_potassium_and_calcium_take_turns(self):
        self.stock("koh,potassium-hydroxide,0.9,10",
                   "lime,calcium-hydroxide,0.95,10")
        answer = self.asked(*WATER, "target_ph=6.8")
        bases = [day["base"] for day in answer["days"]]
        self.assertGreaterEqual(len(bases), 2)
        for one, two in zip(bases, bases[1:]):
            self.assertNotEqual(one, two)
        cautions = " ".join(answer["cautions"])
        self.assertIn("KOH burns", cautions)
        self.assertIn("Ca(OH)2 burns", cautions)
        self.assertIn("galvanised", cautions)

    def test_what_cannot_burn_comes_first(self):
        self.stock("koh,potassium-hydroxide,0.9,10",
                   "mild,potassium-bicarbonate,0.99,10")
        self.assertEqual(self.asked(*WATER, "target_ph=6.4")["days"][0]["base"],
                         "mild")

    def test_a_hydroxide_that_could_overshoot_is_refused(self):
        self.stock("koh,potassium-hydroxide,0.9,10")
        answer = self.asked("loop=loop-1", "ph=7.5", "alkalinity_mg_l=35",
                            "tan_mg_l=0.05", "temp_degc=24", "target_ph=8.2")
        text = (answer["no_base"] or "") + (answer["stopped"] or "")
        self.assertIn("overshoots", text)

    def test_ammonia_stops_the_days(self):
        answer = self.asked("loop=loop-1", "ph=6.6", "alkalinity_mg_l=20",
                            "tan_mg_l=4", "temp_degc=26", "target_ph=8.0")
        self.assertIn("NH3-N", answer["stopped"] or answer["no_base"])
        for day in answer["days"]:
            self.assertLessEqual(day["nh3_after_mg_l"], 0.05 + 1e-9)

    def test_the_farm_s_own_response_is_taken_but_never_over_the_sum(self):
        mild = self.asked(*WATER, "target_ph=6.8", "yours_g=200",
                          "yours_ph=0.1")
        self.assertAlmostEqual(mild["yours_today_g"], 400, delta=1)
        wild = self.asked(*WATER, "target_ph=6.8", "yours_g=2000",
                          "yours_ph=0.1")
        self.assertAlmostEqual(wild["yours_today_g"],
                               wild["days"][0]["product_g"], 6)
        self.assertTrue(any("ceiling" in n for n in wild["notices"]))

    def test_no_base_where_it_is_not_due_or_not_known(self):
        for words, text in (
                (("loop=loop-1", "ph=7.2", "target_ph=6.5"), "cliff"),
                (("loop=loop-1", "ph=7.0", "alkalinity_mg_l=110",
                  "target_ph=7.2"), "Hard source water"),
                (("loop=loop-1", "ph=8.3", "alkalinity_mg_l=5",
                  "target_ph=8.3"), "in doubt"),
                (("loop=loop-1", "ph=6.5", "alkalinity_mg_l=120",
                  "target_ph=6.9"), "carbon dioxide")):
            answer = self.asked(*words, "tan_mg_l=0.3", "temp_degc=20")
            self.assertEqual(answer["days"], [])
            self.assertIn(text, answer["no_base"])
        os.remove(os.path.join(self.farm, "readings.csv"))
        answer = self.asked("loop=loop-1", "target_ph=6.8")
        self.assertIn("tested: ph, alkalinity, tan, temp", answer["no_base"])
        self.stock()
        self.assertIn("No base is in stock",
                      self.asked(*WATER, "target_ph=6.8")["no_base"])

    def test_salts_by_hand_and_iron_by_its_label(self):
        answer = self.asked("loop=loop-2", "potassium_mg_l=10",
                            "calcium_mg_l=15", "iron_rise_mg_l=2")
        salts = {salt["id"]: salt for salt in answer["salts"]}
        # 14.7 m3: 147 g K of a product of 0.98 x 0.4488; 29.4 g Fe of 11 %.
        self.assertAlmostEqual(salts["potassium-sulphate"]["product_g"],
                               147 / 0.98 / 0.448752, 1)
        self.assertAlmostEqual(salts["gypsum"]["product_g"],
                               220.5 / 0.95 / 0.2328, delta=1)
        self.assertAlmostEqual(salts["iron"]["product_g"], 29.4 / 0.11, 1)
        self.assertEqual(salts["iron"]["portions"], 4)
        self.assertIn("galvanised", self.told("loop=loop-2",
                                              "iron_rise_mg_l=2"))
        self.stock()
        self.assertTrue(self.asked("loop=loop-2", "iron_rise_mg_l=2")
                        ["notices"])

    def test_what_is_asked_wrongly_is_told(self):
        for words, code, text in (
                ([], 2, "what is wanted"), (["target_ph=11"], 2, "expected"),
                (["target_ph=7", "yours_g=5"], 2, "go together"),
                (["iron_rise_mg_l=40"], 2, "expected"),
                (["target_ph=7", "loop=Q"], 1, "no loop"),
                (["target_ph=x"], 2, "number")):
            told = run(self.farm, *words)
            self.assertEqual((told.returncode, told.stdout), (code, ""))
            self.assertIn(text, told.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
