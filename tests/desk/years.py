"""leat foresee --years on the demo: the same bytes on one core and on two,
text, JSON, a stop in the middle, refusals.

usage: years.py LEAT SOURCE_ROOT
"""
import csv
import datetime
import json
import os
import shutil
import signal
import subprocess
import sys
import time
import unittest

from demo_farm import DAY, DemoFarm, LEAT, accept_plan, run


class Years(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        accept_plan(cls.farm, 60000)
        cls.ask = ("foresee", cls.farm, *DAY, "--years", "60", "--weeks", "8")
        told = run(*cls.ask, "--json")
        assert told.returncode == 0, told.stderr
        cls.bytes = told.stdout
        cls.page = json.loads(told.stdout)

    def test_one_core_gives_the_same_bytes(self):
        core = {min(os.sched_getaffinity(0))}
        alone = run(*self.ask, "--json",
                    preexec_fn=lambda: os.sched_setaffinity(0, core))
        self.assertEqual(alone.stdout,
                         self.bytes)
        other = run(*self.ask, "--json", "--seed", "2").stdout
        self.assertNotEqual(other, self.bytes)

    def test_every_series_has_its_weeks_in_order(self):
        page = self.page
        self.assertEqual(page["years"], 60)
        self.assertEqual(len(page["weeks"]), 8)
        keys = [series["key"] for series in page["series"]]
        for key in ("picked", "fish_ready", "feed_kg", "tan_mg_l",
                    "nitrate_mg_l", "ph", "oxygen_least_mg_l",
                    "oxygen_least_hour", "air_degc", "water_degc", "wet_h",
                    "water_heater_kwh"):
            self.assertIn(key, keys)
        for series in page["series"]:
            for row in series["rows"]:
                for low, middle, high in zip(row["low"], row["middle"],
                                             row["high"]):
                    self.assertLessEqual(low, middle)
                    self.assertLessEqual(middle, high)
                self.assertEqual(len(row["typical"]), 8)

    def test_orders_and_breaks_count_years(self):
        page = self.page
        self.assertGreater(len(page["orders"]), 10)
        for order in page["orders"]:
            self.assertTrue(0 <= order["chance"] <= 1)
            for week in order["weeks"]:
                self.assertGreater(week["wanted"], 0)
                self.assertTrue(0 <= week["chance"] <= 1)
        first = sum(kind["years_first"] for kind in page["breaks"])
        self.assertEqual(first + page["years_unbroken"], 60)
        self.assertTrue(page["words"][0].startswith("Nothing breaks in "))
        for way in page["counted_on"]:
            self.assertTrue(0 <= way["by_week_frac"] <= 1.5)
            self.assertTrue(0.5 < way["plan_frac"] <= 1)

    def test_the_page_is_text_of_the_width_of_a_terminal(self):
        told = run(*self.ask)
        self.assertEqual(told.stderr, "")
        self.assertEqual(told.returncode, 0)
        for word in ("60 possible years from 2027-W09", "What breaks first",
                     "Chance that an order's week is kept", "Picked in all",
                     "Loop loop-1", "Tank A", "Tunnel "):
            self.assertIn(word, told.stdout)
        self.assertTrue(all(len(line) < 100
                            for line in told.stdout.splitlines()))

    def test_an_interrupt_tells_the_years_there_are(self):
        before = sorted(os.listdir(self.farm))
        child = subprocess.Popen(
            [LEAT, "foresee", self.farm, *DAY, "--years", "100000", "--weeks",
             "8", "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        time.sleep(3.0)
        child.send_signal(signal.SIGINT)
        out, told = child.communicate(timeout=60)
        self.assertEqual(child.returncode, 0, told)
        page = json.loads(out)
        self.assertTrue(0 < page["years"] < 100000)
        self.assertEqual(page["years_asked"], 100000)
        self.assertEqual(sorted(os.listdir(self.farm)), before)

    def test_an_interrupt_keeps_nothing_to_count_on(self):
        before = sorted(os.listdir(self.farm))
        child = subprocess.Popen(
            [LEAT, "foresee", self.farm, *DAY, "--years", "100000", "--weeks",
             "8", "--keep"], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            text=True)
        time.sleep(3.0)
        child.send_signal(signal.SIGINT)
        _, told = child.communicate(timeout=60)
        self.assertEqual(child.returncode, 130, told)
        self.assertIn("nothing was kept", told)
        self.assertEqual(sorted(os.listdir(self.farm)), before)

    def test_a_logger_in_the_folder_replaces_the_weather_of_its_days(self):
        logged = os.path.join(self.top, "logged")
        shutil.copytree(self.farm, logged)
        log = os.path.join(logged, "weather_log.csv")
        first = datetime.datetime(2027, 3, 1)
        with open(log, "w", encoding="utf-8") as out:
            out.write("time,temp_degc\n")
            for hour in range(5 * 168):
                at = first + datetime.timedelta(hours=hour)
                if at.day == 9 and at.month == 3 and 2 <= at.hour < 12:
                    continue  # a hole of ten hours
                out.write(f"{at:%Y-%m-%d %H:%M},31.5\n")
        ask = ("foresee", logged, *DAY, "--years", "4", "--weeks", "4",
               "--json")
        told = run(*ask)
        self.assertEqual(told.returncode, 0, told.stderr)
        page = json.loads(told.stdout)
        notices = " ".join(page["notices"])
        self.assertIn("weather_log.csv", notices)
        self.assertIn("10", notices)
        self.assertIn("of the 672 hours", notices)
        water = {series["key"]: series for series in page["series"]}
        air = water["air_degc"]["rows"][0]
        usual = {series["key"]: series for series in self.page["series"]}
        for week in range(4):
            self.assertGreater(air["middle"][week],
                               usual["air_degc"]["rows"][0]["high"][week])
        # Every year has the same air outside, so inside it hardly differs.
        self.assertLess(air["high"][2] - air["low"][2], 2.5)
        self.assertEqual(run("check", logged).returncode, 0)
        with open(log, "a", encoding="utf-8") as out:
            out.write("2027-04-05 00:00,warm\n")
        told = run(*ask)
        self.assertNotEqual(told.returncode, 0)
        self.assertIn("weather_log.csv:", told.stderr)
        self.assertIn("warm", told.stderr)

    def test_what_is_kept_is_what_firm_orders_count_on_in_plans(self):
        kept = os.path.join(self.top, "kept")
        shutil.copytree(self.farm, kept)
        told = run("foresee", kept, *DAY, "--years", "49", "--weeks", "8",
                   "--keep")
        self.assertNotEqual(told.returncode, 0)
        self.assertIn("49", told.stderr)
        self.assertFalse(os.path.exists(os.path.join(kept, "counted.csv")))
        told = run("foresee", kept, *DAY, "--years", "60", "--weeks", "8",
                   "--keep")
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertIn("counted.csv", told.stdout)
        with open(os.path.join(kept, "counted.csv"), encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        shares = {way["way"]: way["by_week_frac"]
                  for way in self.page["counted_on"]}
        self.assertEqual([row["way"] for row in rows], list(shares))
        for row in rows:
            self.assertAlmostEqual(float(row["counted_pct"]) / 100,
                                   min(shares[row["way"]], 1), delta=6e-4)
            self.assertEqual(row["years"], "60")
        self.assertEqual(run("check", kept).returncode, 0)
        # The accepted plan is not out of date by it; years count by it.
        shown = run("jobs", kept, *DAY)
        self.assertEqual(shown.returncode, 0, shown.stderr)
        self.assertNotIn("counted", shown.stdout)
        page = json.loads(run("foresee", kept, *DAY, "--years", "2", "--weeks",
                              "8", "--json").stdout)
        for way in page["counted_on"]:
            self.assertAlmostEqual(way["plan_frac"],
                                   min(shares[way["way"]], 1), delta=6e-4)

    def test_what_makes_no_sense_is_refused_with_its_name(self):
        for words, told in (
                (("--years", "0"), "--years"),
                (("--years", "10", "way=lettuce-head"), "way="),
                (("--years", "10", "--weeks", "105"), "--weeks"),
                (("--seed", "3"), "--years"),
                (("--keep",), "--years"),
                (("--years", "10", "--today", "2026-01-05"), "2027-03-01")):
            got = run("foresee", self.farm, *words)
            self.assertNotEqual(got.returncode, 0, words)
            self.assertIn(told, got.stderr)
            self.assertEqual(got.stdout, "")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
