"""leat foresee on the demo: text, JSON, narrowing, refusals, and with a short
search's plan accepted.

usage: foresee.py LEAT SOURCE_ROOT
"""
import json
import os
import re
import shutil
import sys
import unittest

from demo_farm import DAY, DemoFarm, DEMO, accept_plan, run


class Foresee(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.planned = os.path.join(cls.top, "planned")
        shutil.copytree(DEMO, cls.planned)
        accept_plan(cls.planned, 150000)

    def told(self, farm, *words):
        told = run("foresee", farm, *words)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertEqual(told.stderr, "")
        return told.stdout

    def page(self, farm, *words):
        return json.loads(self.told(farm, *words, "--json"))

    def test_the_page_has_its_sections_in_order(self):
        text = self.told(self.farm, *DAY)
        places = [text.index(title) for title in (
            "Withy Reach: foreseen from 2027-W09", "No plan is accepted",
            "To know first", "\nLoop loop-1", "\nLoop loop-2", "\nFish tanks",
            "\nFish batches", "\nWhat comes to pick", "\nPlant batches",
            "\nThe typical year inside")]
        self.assertEqual(places, sorted(places))
        self.assertIn("low-middle-high", text)
        self.assertIn("tank B over 25 kg/m3: 2027-W", text)
        for line in text.splitlines():
            self.assertLessEqual(len(line), 100, line)
            self.assertEqual(line, line.rstrip())

    def test_json_holds_every_week_of_everything(self):
        page = self.page(self.farm, *DAY, "--weeks", "9")
        self.assertEqual(page["from"], "2027-03-01")
        self.assertEqual(page["weeks"][0], "2027-W09")
        self.assertEqual(len(page["weeks"]), 9)
        for loop in page["loops"]:
            for key in ("water_degc", "heater_kwh", "feed_offered_kg",
                        "feed_wanted_kg", "feed_ratio", "ammonia_made_g_d",
                        "oxygen_worst"):
                self.assertEqual(len(loop[key]), 9, key)
            carried = loop["ammonia_carried_g_d"]
            for low, mid, high in zip(carried["low"], carried["value"],
                                      carried["high"]):
                self.assertTrue(0 < low < mid < high)
        for batch in page["fish"]:
            self.assertEqual(len(batch["kg"]), 10)
            for week in range(9):
                parts = sum(tank["kg"][week] for tank in batch["tanks"])
                self.assertAlmostEqual(parts, batch["kg"][week], 6)
        for way in page["ways"]:
            for low, mid, high in zip(way["low"], way["value"], way["high"]):
                self.assertTrue(0 <= low <= mid <= high)
        beds = [bed for kind in page["bed_kinds"] for bed in kind["beds"]]
        self.assertEqual(len(beds), 64)
        self.assertIsNone(page["days"])

    def test_feed_wanted_is_the_sum_of_its_batches(self):
        page = self.page(self.farm, *DAY)
        wanted = sum(loop["feed_wanted_kg"][3] for loop in page["loops"])
        parts = sum(plant["feed_wanted_kg"][3] for plant in page["plants"])
        self.assertAlmostEqual(wanted, parts, 6)
        offered = sum(loop["feed_offered_kg"][3] for loop in page["loops"])
        fed = sum(tank["feed_kg"][3] for tank in page["tanks"]
                  if tank["loop"])
        self.assertAlmostEqual(offered, fed, 6)

    def test_days_are_not_days(self):
        page = self.page(self.farm, *DAY, "way=lettuce-head")
        kinds = {kind["name"]: kind["months"]
                 for kind in page["days"]["kinds"]}
        self.assertEqual(len(kinds), 8)
        north = kinds["H1 north"]
        south = kinds["H1 south"]
        self.assertGreater(north[10]["value"], north[4]["value"] + 15)
        self.assertGreater(north[10]["value"], south[10]["value"])
        text = self.told(self.farm, *DAY, "way=lettuce-head")
        self.assertIn("Days from setting", text)
        self.assertIn("  early", text)
        self.assertNotIn("Fish tanks", text)
        self.assertNotIn("rocket", text)

    def test_a_way_that_winter_kills_says_the_month(self):
        text = self.told(self.farm, *DAY, "way=cucumber-edge")
        self.assertIn("H3 north", text)
        self.assertNotIn("H1 middle", text.split("What comes")[0])
        self.assertRegex(text, r"    (Jan|Nov|Dec)[^:]*: .* in "
                               r"(Jan|Feb|Mar|Nov|Dec)")

    def test_a_tank_and_a_loop_narrow_the_page(self):
        text = self.told(self.farm, *DAY, "tank=C", "--weeks", "5")
        self.assertIn("august-fry-2026", text)
        self.assertNotIn("june-fry-2026", text)
        text = self.told(self.farm, *DAY, "loop=loop-2", "--weeks", "5")
        self.assertIn("E, 1.2 m3, loop-2", text)
        self.assertNotIn("loop-1", text)

    def test_a_lighter_fish_is_ready_earlier(self):
        def ready(*words):
            fish = {batch["id"]: batch["ready_on"]
                    for batch in self.page(self.farm, *DAY, *words)["fish"]}
            return fish["june-fry-2026"]
        self.assertEqual(ready(), ready("over_g=450"))
        self.assertLess(ready("over_g=300"), ready())

    def test_without_a_day_it_begins_where_the_tables_do(self):
        page = self.page(self.farm)
        self.assertRegex(page["from"], r"20\d\d-\d\d-\d\d")
        self.assertGreaterEqual(page["from"], "2027-03-01")

    def test_wrong_questions_are_refused(self):
        for words, code, reason in (
                (("way=letuce-head",), 1, "did you mean lettuce-head?"),
                (("tank=Q9",), 1, 'no tank "Q9"'),
                (("loop=loop-3",), 1, "did you mean loop-"),
                (("over_g=heavy",), 2, "over_g=heavy"),
                (("--weeks", "0"), 2, "weeks"),
                (("--weeks", "105"), 2, "weeks"),
                (("--today", "2027-02-21"), 1, "2027-03-01"),
                (("--today", "2029-03-01"), 1,
                 "count them again")):
            with self.subTest(words):
                told = run("foresee", self.farm, *words)
                self.assertEqual(told.returncode, code, told.stderr)
                self.assertIn(reason, told.stderr)
                self.assertEqual(told.stdout, "")

    def test_an_accepted_plan_is_followed(self):
        page = self.page(self.planned, *DAY)
        planned = [plant for plant in page["plants"]
                   if plant["planned"] and not plant["standing"]]
        self.assertGreater(len(planned), 20)
        for plant in planned:
            self.assertLessEqual(plant["sow_on"], plant["set_on"])
            self.assertLess(plant["set_on"], plant["clear_on"])
        self.assertNotIn("No plan is accepted", self.told(self.planned, *DAY))
        self.assertIn("The accepted plan ends on 2028-02-27",
                      self.told(self.planned, *DAY, "--weeks", "60"))

    def test_the_plan_is_taken_as_done_and_that_is_said(self):
        text = self.told(self.planned, "--today", "2027-04-07")
        self.assertIn("foreseen from 2027-W14", text)
        self.assertIn("taken as done", text)
        self.assertRegex(text, r"\d+ lines more have nothing to do")
        whole = self.told(self.planned, "--today", "2027-04-07", "--all")
        self.assertNotIn("lines more", whole)
        self.assertGreater(len(whole), len(text))

    def test_weeks_short_of_feed_and_over_it_are_marked(self):
        loops = self.page(self.planned, *DAY)["loops"]
        text = self.told(self.planned, *DAY)
        for loop in loops:
            ratios = [ratio for ratio in loop["feed_ratio"] if ratio]
            table = text.split("\nLoop " + loop["id"])[1].split("\n\n")[0]
            marks = re.findall(r" \d+\.\d\d (short|over)", table)
            self.assertEqual(marks.count("short"),
                             sum(ratio < 0.7 for ratio in ratios))
            self.assertEqual(marks.count("over"),
                             sum(ratio > 1.2 for ratio in ratios))
        ratios = [ratio for loop in loops for ratio in loop["feed_ratio"]]
        self.assertLess(min(ratios), 0.9)
        self.assertGreater(max(ratios), 1.2)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
