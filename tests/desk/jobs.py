"""leat jobs on the demo with a small plan written by hand: text, JSON, table,
calendar, and what it refuses.

usage: jobs.py LEAT SOURCE_ROOT
"""
import csv
import io
import json
import os
import shutil
import sys
import tempfile
import unittest

from demo_farm import DEMO, run, write_small_plan


class Jobs(unittest.TestCase):
    def setUp(self):
        self.top = tempfile.mkdtemp(prefix="leat-jobs-")
        self.addCleanup(shutil.rmtree, self.top, True)
        self.farm = os.path.join(self.top, "farm")
        shutil.copytree(DEMO, self.farm)

    def accept(self):
        write_small_plan(self.farm)

    def told(self, *words):
        told = run("jobs", self.farm, *words)
        self.assertEqual(told.returncode, 0, told.stderr)
        return told.stdout

    def test_without_a_plan_it_says_how_to_make_one(self):
        told = run("jobs", self.farm, "--week", "2027-W09")
        self.assertEqual(told.returncode, 1)
        self.assertIn("no plan is accepted yet", told.stderr)
        self.assertIn("--accept", told.stderr)

    def assert_fits(self, text):
        for line in text.splitlines():
            self.assertLessEqual(len(line), 80, line)
            self.assertEqual(line, line.rstrip())

    def test_a_week_has_hours_days_and_boxes_and_each_caution_once(self):
        self.accept()
        text = self.told("--week", "2027-W09")
        self.assertTrue(text.startswith("Jobs of week 2027-W09\n"))
        self.assertLess(text.index("\nHours"), text.index("Mon 1 Mar 2027"))
        self.assertLess(text.index("Mon 1 Mar 2027"),
                        text.index("Sun 7 Mar 2027"))
        self.assertIn("[ ] Feed", text)
        self.assertEqual(text.count("! base: goggles"), 1)
        self.assertNotIn("never water onto powder", text)
        full = self.told("--week", "2027-W09", "--cautions")
        self.assertIn("never water onto powder",
                      " ".join(full.split()))
        self.assertEqual(text, self.told("--week", "2027-W09"))
        self.assert_fits(full)

    def test_a_day_is_told_at_a_glance_and_the_rest_a_line_a_day(self):
        self.accept()
        text = self.told("--today", "2027-03-04")
        self.assertTrue(text.startswith("Thu 4 Mar 2027, 2027-W09"))
        self.assertLess(len(text.splitlines()), 45)
        self.assertEqual(
            [line[:3] for line in text.splitlines()
             if line[:4] in ("Wed ", "Thu ", "Fri ", "Sat ", "Sun ")],
            ["Thu", "Fri", "Sat", "Sun"])
        self.assert_fits(text)

    def test_a_day_is_named_in_many_ways(self):
        self.accept()
        friday = self.told("--day", "2027-03-05")
        self.assertTrue(friday.startswith("Fri 5 Mar 2027"))
        for words in (["--today", "2027-03-02", "--day", "fri"],
                      ["--week", "2027-W09", "--day", "friday"],
                      ["--today", "2027-03-04", "--day", "tomorrow"],
                      ["--today", "2027-03-05", "--day", "today"]):
            with self.subTest(words):
                self.assertEqual(self.told(*words), friday)
        self.assertEqual(
            self.told("--today", "2027-03-04", "--week", "next"),
            self.told("--week", "2027-W10"))
        self.assertEqual(
            self.told("--today", "2027-03-04", "--week", "this"),
            self.told("--week", "2027-W09"))

    def test_the_van_holds_no_more_than_is_picked(self):
        self.accept()
        page = json.loads(self.told("--week", "2027-W09", "--json"))
        loads = json.loads(
            self.told("--week", "2027-W09", "--loads", "--json"))["loads"]
        self.assertEqual(loads, page["loads"])
        heads = sum(job["amount"] for job in page["jobs"]
                    if job["kind"] == "pick" and "lettuce" in job["what"])
        given = sum(load["expected"] for load in loads
                    if load["product"] == "head-lettuce")
        self.assertGreater(given, 0)
        self.assertLessEqual(given, heads + 0.1)
        rules = {"firm": 0, "promised": 1, "outlet": 2}
        keys = [(load["day"], load["buyer"]) for load in loads]
        self.assertEqual([day for day, _ in keys],
                         sorted(day for day, _ in keys))
        for before, load in zip(loads, loads[1:]):
            if (before["day"], before["buyer"]) == (load["day"],
                                                    load["buyer"]):
                self.assertLessEqual(rules[before["rule"]],
                                     rules[load["rule"]])
        text = self.told("--week", "2027-W09", "--loads")
        self.assertIn("head lettuce", text)
        self.assertIn("short", text)
        self.assert_fits(text)
        thursday = self.told("--week", "2027-W09", "--loads", "--day", "thu")
        self.assertIn("Thu 4 Mar", thursday)
        self.assertNotIn("Fri 5 Mar", thursday)

    def test_past_the_tables_day_the_plan_is_taken_as_done_and_that_is_said(
            self):
        self.accept()
        self.assertNotIn("taken as done", self.told("--week", "2027-W09"))
        self.assertIn("taken as done", self.told("--week", "2027-W12"))

    def test_json_table_and_calendar_hold_the_same_jobs(self):
        self.accept()
        page = json.loads(self.told("--week", "2027-W09", "--json"))
        self.assertEqual(page["week"], "2027-W09")
        self.assertEqual(page["from"], "2027-03-01")
        ids = [job["id"] for job in page["jobs"]]
        self.assertEqual(len(ids), len(set(ids)))
        self.assertGreater(len(ids), 40)
        rows = list(csv.DictReader(io.StringIO(
            self.told("--week", "2027-W09", "--csv"))))
        self.assertEqual([row["id"] for row in rows], ids)
        for row, job in zip(rows, page["jobs"]):
            self.assertAlmostEqual(float(row["minutes"]), job["minutes"], 6)
            self.assertEqual(row["day"], job["day"])
        path = os.path.join(self.top, "week.ics")
        self.told("--week", "2027-W09", "--ics", path, "--events", "job")
        with open(path, newline="", encoding="utf-8") as file:
            calendar = file.read().replace("\r\n ", "")
        uids = [line[4:] for line in calendar.split("\r\n")
                if line.startswith("UID:")]
        self.assertEqual(sorted(uids), sorted(ids))

    def events(self, *words):
        path = os.path.join(self.top, "events.ics")
        self.told("--week", "2027-W09", "--ics", path, *words)
        with open(path, newline="", encoding="utf-8") as file:
            calendar = file.read().replace("\r\n ", "")
        return [line[4:] for line in calendar.split("\r\n")
                if line.startswith("UID:")], calendar

    def test_a_calendar_has_one_event_a_day_and_person_or_stop(self):
        self.accept()
        page = json.loads(self.told("--week", "2027-W09", "--json"))
        days = {(job["day"], hand) for job in page["jobs"]
                for hand in job["hands"]}
        nobody = {job["day"] for job in page["jobs"] if not job["hands"]}
        people, text = self.events()
        self.assertEqual(len(people), len(set(people)))
        self.assertEqual(len(people), len(days) + len(nobody))
        self.assertLess(len(people), 25)
        self.assertIn("withy-reach.person.owner.2027-03-01", people)
        self.assertIn("[ ] Round with feeding", text)
        self.assertIn("head lettuce", text)
        stops, _ = self.events("--events", "stop")
        self.assertEqual(len(stops), len({(job["day"], job["stop"])
                                          for job in page["jobs"]}))

    def test_hours_of_hands_are_the_minutes_of_their_jobs(self):
        self.accept()
        page = json.loads(self.told("--week", "2027-W09", "--json"))
        used = sum(hand["hours"] for hand in page["hands"])
        minutes = sum(job["minutes"] for job in page["jobs"] if job["hands"])
        self.assertAlmostEqual(used * 60, minutes, 4)
        for job in page["jobs"]:
            self.assertTrue(set(job["hands"]) <= set(job["may"]), job["id"])

    def test_the_standing_lettuce_is_picked_and_the_new_one_sown(self):
        self.accept()
        heads = 0
        for week in range(9, 13):
            page = json.loads(self.told("--week", f"2027-W{week:02d}",
                                        "--json"))
            heads += sum(job["amount"] for job in page["jobs"]
                         if job["kind"] == "pick" and "lettuce" in job["what"])
        self.assertGreater(heads, 10)
        self.assertLessEqual(heads, 63)
        page = json.loads(self.told("--week", "2027-W09", "--json"))
        sow = [job for job in page["jobs"] if job["kind"] == "sow"]
        self.assertEqual(len(sow), 1)
        self.assertGreater(sow[0]["amount"], 63)

    def test_a_plan_older_than_its_tables_is_told_everywhere(self):
        own = os.path.join(self.top, "own")
        shutil.copytree(DEMO, own)
        told = run("plan", own, "--moves", "2000", "--accept", "--no-ceiling",
                   "--weeks", "8")
        self.assertEqual(told.returncode, 0, told.stderr)
        for words in (["jobs", own, "--week", "2027-W09"], ["check", own],
                      ["foresee", own, "--today", "2027-03-01"],
                      ["plan", own, "--show"]):
            with self.subTest(words):
                told = run(*words)
                self.assertEqual(told.returncode, 0, told.stderr)
                self.assertNotIn("plan was accepted", told.stdout)
        orders = os.path.join(own, "orders.csv")
        with open(orders, encoding="utf-8") as file:
            text = file.read()
        with open(orders, "w", encoding="utf-8") as file:
            file.write(text.replace(",55,firm", ",65,firm", 1))
        for words in (["jobs", own, "--week", "2027-W09"], ["check", own],
                      ["foresee", own, "--today", "2027-03-01"],
                      ["plan", own, "--show"]):
            with self.subTest(words):
                told = run(*words)
                self.assertEqual(told.returncode, 0, told.stderr)
                line = " ".join(told.stdout.split())
                self.assertIn("accepted (2027-03-01) orders.csv changed: "
                              "plan again", line)

    def test_outside_the_plan_is_refused_with_its_weeks(self):
        self.accept()
        told = run("jobs", self.farm, "--week", "2029-W01")
        self.assertEqual(told.returncode, 1)
        self.assertIn("from 2027-W09 to 2028-W08", told.stderr)

    def test_wrong_calls_are_told(self):
        for words in (["--week", "2027-14"], ["--week", "2027-W54"],
                      ["--today", "yesterday"], ["--json", "--csv"],
                      ["--week", "2027-W09", "--day", "tomorrow"],
                      ["--day", "someday"], ["--events", "hour"],
                      ["--loads", "--csv"]):
            with self.subTest(words):
                told = run("jobs", self.farm, *words)
                self.assertEqual(told.returncode, 2, told.stderr)
                self.assertEqual(told.stdout, "")

    def test_a_calendar_that_cannot_be_written_is_an_error(self):
        self.accept()
        told = run("jobs", self.farm, "--week", "2027-W09", "--ics",
                   os.path.join(self.top, "none", "week.ics"))
        self.assertEqual(told.returncode, 3)
        self.assertIn("week.ics", told.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
