"""leat note, journal, export, import, backup and restore on the demo: what was
told changes the answers, is kept once, and is never lost.

usage: journal.py LEAT SOURCE_ROOT
"""
import csv
import io
import json
import os
import shutil
import sys
import tempfile
import unittest

from demo_farm import DEMO, run as leat

DAY = "2027-03-03"


class Journal(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.top = tempfile.mkdtemp(prefix="leat-journal-")
        cls.planned = os.path.join(cls.top, "planned")
        shutil.copytree(DEMO, cls.planned)
        plan = leat("plan", cls.planned, "--accept", "--moves", "3000",
                    "--no-ceiling")
        assert plan.returncode == 0, plan.stderr

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.top, True)

    def setUp(self):
        self.dir = tempfile.mkdtemp(dir=self.top)
        self.farm = os.path.join(self.dir, "farm")
        shutil.copytree(self.planned, self.farm)

    def ok(self, *words, text=None):
        done = leat(*words, text=text)
        self.assertEqual(done.returncode, 0, done.stderr)
        return done.stdout

    def note(self, *facts, day=DAY):
        return self.ok("note", self.farm, *facts, "--today", day)

    def bad(self, *words, text=None):
        done = leat(*words, text=text)
        self.assertNotEqual(done.returncode, 0)
        self.assertEqual(done.stdout, "")
        return done.stderr

    def entries(self, *words):
        return json.loads(self.ok("journal", self.farm, *words,
                                  "--json"))["entries"]

    def jobs(self, day=DAY):
        answer = json.loads(self.ok("jobs", self.farm, "--today", day,
                                    "--json"))
        return {job["id"]: job for job in answer["jobs"]}

    def kilos(self, tank, day=DAY):
        answer = json.loads(self.ok("foresee", self.farm, "--today", day,
                                    "--json"))
        return next(t for t in answer["tanks"] if t["id"] == tank)["kg"][0]

    def test_a_farm_that_was_told_nothing_has_no_database(self):
        self.assertIn("Nothing was told yet", self.ok("journal", self.farm))
        self.ok("jobs", self.farm, "--today", DAY)
        self.assertFalse(os.path.exists(os.path.join(self.farm, "leat.db")))

    def test_dead_fish_are_fewer_kilos_until_the_entry_is_struck(self):
        before = self.kilos("E")
        self.note("kind=died", "place=E", "count=12", "cause=pump")
        self.assertAlmostEqual(self.kilos("E"), 0.4 * before,
                               delta=0.02 * before)
        self.note("strikes=1", "text=typed 12 for 2", "who=Ana")
        self.assertAlmostEqual(self.kilos("E"), before, delta=0.02 * before)
        told = self.entries()
        self.assertEqual(told[1]["struck_why"], "typed 12 for 2")
        text = self.ok("journal", self.farm)
        self.assertIn("struck through by entry 2, Ana: typed 12 for 2", text)

    def test_more_fish_sold_than_stand_there_is_kept_and_doubted(self):
        told = self.note("kind=sold", "place=E", "count=35")
        self.assertIn("In doubt: entry 1", told)
        self.assertEqual(len(self.entries()), 1)
        settle = json.loads(self.ok("journal", self.farm, "--settle",
                                    "--today", DAY, "--json"))
        self.assertEqual(settle["fish"]["missing"], 15)
        self.assertEqual(settle["fish"]["standing"],
                         settle["fish"]["opened"] - settle["fish"]["sold"])

    def test_what_nobody_told_of_is_to_settle_until_it_is_told(self):
        self.note("kind=seen", "text=rain")
        self.note("kind=died", "place=A", "count=1")
        later = "2027-03-24"
        settle = json.loads(self.ok("journal", self.farm, "--settle",
                                    "--today", later, "--json"))
        cleared = next(s for s in settle["to_settle"]
                       if s["kind"] == "cleared")
        self.note("kind=cleared", f"place={cleared['place']}",
                  f"batch={cleared['batch']}", day=later)
        after = json.loads(self.ok("journal", self.farm, "--settle",
                                   "--today", later, "--json"))
        self.assertEqual(len(after["to_settle"]),
                         len(settle["to_settle"]) - 1)
        self.assertEqual(after["doubts"], [])

    def test_a_reading_told_is_the_reading_judged(self):
        told = json.loads(self.ok("reading", self.farm, "tank=A", "ph=6.4",
                                  f"at={DAY}T09:00", "--json"))
        self.note("kind=read", "place=A", "quantity_key=tan_mg_l",
                  "value=3.25", "happened_at=08:00")
        now = json.loads(self.ok("reading", self.farm, "tank=A", "ph=6.4",
                                 f"at={DAY}T09:00", "--json"))
        taken = {t["quantity"]: t["value"] for t in now["from_readings_csv"]}
        self.assertEqual(taken["tan_mg_l"], 3.25)
        self.assertNotIn(3.25, [t["value"] for t in told["from_readings_csv"]])

    def test_entries_from_the_input_are_kept_exactly_once(self):
        many = json.dumps({"entries": [
            {"uid": "p-1", "kind": "fed", "place": "A", "grams": 1120},
            {"uid": "p-2", "kind": "worked", "minutes": 35, "who": "Bo"}]})
        for turn in range(2):
            told = json.loads(self.ok("note", self.farm, "--stdin", "--today",
                                      DAY, "--json", text=many))
            self.assertEqual([a["is_new"] for a in told["added"]],
                             [turn == 0] * 2)
        self.assertEqual(len(self.entries()), 2)
        wrong = json.dumps([{"kind": "fed", "place": "A", "grams": 5},
                            {"kind": "fed", "place": "AA", "grams": 5}])
        self.assertIn("entry 2: place=AA", self.bad(
            "note", self.farm, "--stdin", "--today", DAY, text=wrong))
        self.assertEqual(len(self.entries()), 2)

    def test_wrong_entries_are_told_with_what_is_near(self):
        for facts, words in [
                (["kind=dieded", "place=A"], "did you mean died"),
                (["kind=died", "place=A"], "needs count"),
                (["kind=cleaned", "place=H1-S11"], "did you mean H1-S1"),
                (["kind=read", "place=A", "quantity_key=ph", "value=68"],
                 "from 2 to 12"),
                (["kind=sold", "place=A", "count=3", "mean_g=450",
                  "grams=1.35"], "another unit"),
                (["kind=seen", "text=x", "happened_on=2027-03-09"],
                 "lies ahead"),
                (["kind=counted", "text=x"], "Leat writes these itself"),
                (["place=A"], "kind: is missing")]:
            with self.subTest(facts=facts):
                self.assertIn(words, self.bad("note", self.farm, *facts,
                                              "--today", DAY))
        self.assertFalse(os.path.exists(os.path.join(self.farm, "leat.db")))

    def test_the_journal_is_filtered_and_written_as_tables(self):
        self.note("kind=died", "place=A", "count=1", "who=Ana")
        self.note("kind=died", "place=B", "count=2",
                  "happened_on=2027-03-02")
        self.note("kind=seen", "text=a, \"quoted\" note", "who=Ana")
        self.assertEqual(len(self.entries("kind=died")), 2)
        self.assertEqual(len(self.entries("place=B")), 1)
        self.assertEqual(len(self.entries("who=Ana")), 2)
        self.assertEqual(len(self.entries("from=2027-03-03")), 2)
        late = self.entries("until=2027-03-02")
        self.assertTrue(late[0]["is_late"])
        self.assertIn("told late", self.ok("journal", self.farm))
        rows = list(csv.DictReader(io.StringIO(
            self.ok("journal", self.farm, "--csv"))))
        self.assertEqual(len(rows), 3)
        self.assertEqual(rows[0]["text"], 'a, "quoted" note')
        self.assertIn("--limit", self.ok("journal", self.farm, "--limit", "2"))

    def test_exported_tables_give_the_same_answers(self):
        self.note("kind=sold", "place=A", "count=30")
        self.note("kind=read", "place=A", "quantity_key=ph", "value=6.15")
        later = "2027-03-24"
        before = self.jobs(later)
        self.ok("export", self.farm, "--today", later)
        check = leat("check", self.farm)
        self.assertEqual(check.returncode, 0, check.stdout)
        after = self.jobs(later)
        for job in set(before) & set(after):
            if before[job]["amount"]:
                self.assertAlmostEqual(
                    after[job]["amount"], before[job]["amount"],
                    delta=0.02 * before[job]["amount"] + 1e-9, msg=job)
        self.note("kind=died", "place=A", "count=2", day=later)
        settle = json.loads(self.ok("journal", self.farm, "--settle",
                                    "--today", later, "--json"))
        self.assertEqual(settle["fish"]["died"], 2)
        self.assertEqual(settle["fish"]["sold"], 0)
        self.assertIn("nothing was told", self.bad(
            "export", os.path.join(self.top, "planned"), "--today", later))

    def test_changed_tables_are_taken_with_their_differences(self):
        changed = os.path.join(self.dir, "changed")
        os.mkdir(changed)
        with open(os.path.join(self.farm, "buyers.csv")) as file:
            lines = file.read().splitlines()
        with open(os.path.join(changed, "buyers.csv"), "w") as file:
            file.write("\n".join(lines + [lines[-1].replace(
                lines[-1].split(",")[0], "new-inn", 1)]) + "\n")
        told = self.ok("import", self.farm, changed, "--today", DAY)
        self.assertIn("new-inn: added", told)
        self.assertIn("new-inn: added", self.entries("kind=table")[0]["text"])
        self.assertIn("Nothing differs", self.ok(
            "import", self.farm, os.path.join(changed, "buyers.csv"),
            "--today", DAY))
        with open(os.path.join(changed, "buyers.csv"), "w") as file:
            file.write(lines[0] + "\n")
        self.assertIn("nothing was written", self.bad(
            "import", self.farm, changed, "--today", DAY))

    def test_a_backup_is_put_back_and_a_damaged_file_names_it(self):
        copy = os.path.join(self.dir, "copy.db")
        self.note("kind=died", "place=A", "count=1")
        self.assertIn("1 entries kept", self.ok("backup", self.farm, copy))
        self.note("kind=died", "place=A", "count=2")
        database = os.path.join(self.farm, "leat.db")
        with open(database, "r+b") as file:
            for at in range(4096, os.path.getsize(database) - 4, 256):
                file.seek(at)
                file.write(b"\x5a\xa5\x5a\xa5")
        told = self.bad("journal", self.farm)
        self.assertIn("damaged", told)
        self.assertIn(copy, told)
        check = leat("check", self.farm)
        self.assertEqual(check.returncode, 1)
        self.assertIn("leat.db: expected a database that can be read",
                      check.stdout)
        tonight = leat("emergency", self.farm, "pump=pump-1", "--today", DAY)
        self.assertEqual(tonight.returncode, 0, tonight.stderr)
        self.assertIn("put back", self.ok("restore", self.farm, copy))
        self.assertEqual(len(self.entries()), 1)
        self.assertIn("there already", self.bad("backup", self.farm, copy))

    def test_a_plan_from_the_journal_begins_where_it_left_off(self):
        self.note("kind=sold", "place=A", "count=30")
        done = leat("plan", self.farm, "--today", DAY, "--accept", "--moves",
                    "2000", "--no-ceiling")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("written from the", done.stderr)
        with open(os.path.join(self.farm, "fish.csv")) as file:
            fish = list(csv.DictReader(file))
        in_a = [int(f["count"]) for f in fish if f["tank"] == "A"]
        self.assertEqual(sum(in_a), 160)
        self.note("kind=died", "place=A", "count=3")
        settle = json.loads(self.ok("journal", self.farm, "--settle",
                                    "--today", DAY, "--json"))
        self.assertEqual(settle["fish"]["died"], 3)
        self.assertEqual(settle["fish"]["sold"], 0)
        kinds = [entry["kind"] for entry in self.entries()]
        self.assertIn("plan_accepted", kinds)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
