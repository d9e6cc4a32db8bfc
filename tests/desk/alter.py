"""leat alter and leat compare on the demo: a planned batch changed by hand.

usage: alter.py LEAT SOURCE_ROOT
"""
import csv
import json
import os
import shutil
import unittest
from datetime import date, timedelta

from demo_farm import DAY, DemoFarm, accept_plan, run

def rows_of(folder, table):
    with open(os.path.join(folder, table), encoding="utf-8",
              newline="") as file:
        return list(csv.DictReader(file))


def bytes_of(folder):
    found = {}
    for top, _, names in os.walk(folder):
        for name in names:
            with open(os.path.join(top, name), "rb") as file:
                found[os.path.relpath(os.path.join(top, name), folder)] = \
                    file.read()
    return found


def later(day, weeks):
    return (date.fromisoformat(day) + timedelta(weeks=weeks)).isoformat()


def steps_of(shown):
    """The fish's steps, whatever their numbers."""
    return sorted((s["week"], s["step"], s["batch"], s["tank"],
                   s["to_tank"] or "", s["count"], round(s["mean_g"], 6))
                  for s in shown["fish_steps"])


class Alter(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.planned = os.path.join(cls.top, "planned")
        shutil.copytree(cls.farm, cls.planned)
        accept_plan(cls.planned, 40000)

    def setUp(self):
        self.at = os.path.join(self.top, self.id().split(".")[-1])
        shutil.copytree(self.planned, self.at)

    def alter(self, *words, code=0, text=None):
        told = run("alter", self.at, *words, *DAY, "--json", text=text)
        self.assertEqual(told.returncode, code, told.stdout + told.stderr)
        return json.loads(told.stdout) if code == 0 else told.stderr

    def compare(self, *words):
        told = run("compare", self.at, *words, *DAY, "--json")
        self.assertEqual(told.returncode, 0, told.stderr)
        return json.loads(told.stdout)

    def shown(self):
        told = run("plan", self.at, "--show", *DAY, "--json")
        self.assertEqual(told.returncode, 0, told.stderr)
        return json.loads(told.stdout)

    def batches(self, place="floor"):
        """Those to come, the earliest first."""
        return [row for row in rows_of(self.at, "plan_plants.csv")
                if row["place"] == place and not row["standing"]
                and row["set_on"] > "2027-03-15"
                and row["set_on"] < "2027-12-01"]

    def first(self, words, is_wanted, place="floor"):
        """The first batch whose change comes out as wanted."""
        for row in self.batches(place)[:60]:
            told = run("alter", self.at, f"batch={row['id']}", *words, *DAY,
                       "--json")
            if told.returncode == 0 and is_wanted(json.loads(told.stdout)):
                return row, json.loads(told.stdout)
        self.fail(f"no batch for {words}")
        return None

    def test_a_batch_a_week_later_is_sown_and_set_a_week_later(self):
        before = bytes_of(self.at)
        row, found = self.first(("weeks=+1",), lambda f: True)
        is_, was = found["changes"][0]["after"], found["changes"][0]["before"]
        self.assertEqual(was["set_on"], row["set_on"])
        self.assertEqual(is_["set_on"], later(row["set_on"], 1))
        self.assertGreater(is_["sow_on"], was["sow_on"])
        self.assertEqual((is_["bed"], is_["units"]),
                         (row["bed"], int(row["sections"])))
        self.assertAlmostEqual(found["value_before"], self.shown()["value"],
                               places=4)
        self.assertEqual(bytes_of(self.at), before, "nothing is written")

    def test_a_place_that_is_held_is_told_and_never_accepted(self):
        def is_held(found):
            return any(b["kind"] == "place" and b["is_new"]
                       for b in found["breaks"])
        others = [row["bed"] for row in self.batches()]
        row, found = None, None
        for bed in others:
            told = self.alter(f"batch={self.batches()[0]['id']}",
                              f"bed={bed}", "section=1", "sections=4")
            if is_held(told):
                row, found = self.batches()[0], told
                break
        self.assertIsNotNone(found)
        self.assertEqual(found["verdict"], "hard")
        held = next(b for b in found["breaks"] if b["kind"] == "place")
        self.assertTrue(held["is_hard"])
        self.assertEqual(held["place"], bed)
        self.assertIn("is held twice in week 20", held["text"])
        self.assertLessEqual(held["first_week"], held["last_week"])
        before = bytes_of(self.at)
        err = self.alter(f"batch={row['id']}", f"bed={bed}", "section=1",
                         "sections=4", "--accept", "--even-so", code=1)
        self.assertIn("not accepted", err)
        after = bytes_of(self.at)
        after.pop(".leat-lock", None)
        self.assertEqual(after, before)

    def test_one_left_out_is_accepted_and_taken_back(self):
        was = bytes_of(self.at)
        first = self.shown()
        row, found = self.first(
            ("--drop",), lambda f: f["value_after"] < f["value_before"] - 1
            and f["orders"])
        told = run("alter", self.at, f"batch={row['id']}", "--drop",
                   "--accept", *DAY)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertIn("--plan before --accept", told.stdout)
        self.assertNotIn(row["id"], [r["id"] for r in
                                     rows_of(self.at, "plan_plants.csv")])
        self.assertAlmostEqual(self.shown()["value"], found["value_after"],
                               places=4)
        sides = self.compare()
        self.assertEqual((sides["one"], sides["two"]), ("before", "accepted"))
        self.assertEqual([(b["way"], b["bed"], b["units_after"])
                          for b in sides["batches"]],
                         [(row["way"], row["bed"], 0)])
        self.assertAlmostEqual(sides["value_after"] - sides["value_before"],
                               found["value_after"] - found["value_before"],
                               places=4)
        turned = {o["order"]: o["kept_after"] for o in found["orders"]}
        self.assertEqual({o["order"]: o["kept_after"]
                          for o in sides["orders"]}, turned)
        self.assertEqual(self.alter("--plan", "before",
                                    "--accept")["is_accepted"], True)
        now = bytes_of(self.at)
        for table in ("plan_plants.csv", "plan_cleans.csv"):
            self.assertEqual(now[table], was[table], table)
        shown = self.shown()
        self.assertAlmostEqual(shown["value"], first["value"], places=4)
        self.assertEqual(steps_of(shown), steps_of(first))

    def test_what_falls_short_is_accepted_only_even_so(self):
        bed = rows_of(self.at, "plan_cleans.csv")[0]["bed"]
        found = self.alter(f"clean={bed}", "--drop")
        self.assertEqual(found["verdict"], "soft")
        self.assertEqual({b["kind"] for b in found["breaks"] if b["is_new"]},
                         {"clean-due"})
        err = self.alter(f"clean={bed}", "--drop", "--accept", code=1)
        self.assertIn("even so", err)
        self.assertTrue(self.alter(f"clean={bed}", "--drop", "--accept",
                                   "--even-so")["is_accepted"])
        self.assertNotIn(bed, [r["bed"] for r in
                               rows_of(self.at, "plan_cleans.csv")])

    def test_changes_kept_one_by_one_are_accepted_together(self):
        one, two = self.batches()[0], self.batches()[5]
        self.alter(f"batch={one['id']}", "--drop", "--keep")
        self.assertIn(one["id"], [r["id"] for r in
                                  rows_of(self.at, "plan_plants.csv")])
        sides = self.compare("one=accepted", "two=changed")
        self.assertEqual(len(sides["batches"]), 1)
        self.alter(f"batch={two['id']}", "--drop", "--plan", "changed",
                   "--accept")
        left = [r["id"] for r in rows_of(self.at, "plan_plants.csv")]
        self.assertNotIn(one["id"], left)
        self.assertNotIn(two["id"], left)

    def test_many_changes_come_as_json(self):
        one, two = self.batches()[0], self.batches()[5]
        found = self.alter("--stdin", text=json.dumps({"changes": [
            {"batch": one["id"], "drop": True},
            {"batch": two["id"], "drop": True}]}))
        self.assertEqual([c["what"] for c in found["changes"]],
                         ["dropped", "dropped"])
        apart = sum(self.alter(f"batch={row['id']}", "--drop")["value_after"]
                    - found["value_before"] for row in (one, two))
        self.assertLess(abs(found["value_after"] - found["value_before"]),
                        abs(apart) + 500)

    def test_sizes_are_whole_sections_or_plants_of_an_edge(self):
        row, found = self.first(("sections=1",), lambda f:
                                f["changes"][0]["before"]["units"] > 1)
        self.assertEqual(found["changes"][0]["after"]["units"], 1)
        row = next(r for r in self.batches() if int(r["sections"]) > 1)
        half = int(row["plants"]) / int(row["sections"])
        found = self.alter(f"batch={row['id']}", f"plants={round(half)}")
        self.assertEqual(found["changes"][0]["after"]["units"], 1)
        row, found = self.first(("plants=1",), lambda f: True, place="edge")
        self.assertEqual(found["changes"][0]["after"]["plants"], 1)
        err = self.alter(f"batch={row['id']}", "sections=2", code=1)
        self.assertIn("tell plants", err)

    def test_a_new_batch_takes_the_place_that_is_free(self):
        gone = self.batches()[8]
        found = self.alter("--stdin", text=json.dumps({"changes": [
            {"batch": gone["id"], "drop": True},
            {"way": gone["way"], "bed": gone["bed"],
             "set_on": gone["set_on"], "clear_on": gone["clear_on"],
             "sections": int(gone["sections"])}]}))
        self.assertEqual(found["verdict"], "fits")
        self.assertEqual(found["batches"], [], "it is the same again")
        self.assertAlmostEqual(found["value_after"], found["value_before"],
                               places=4)

    def test_a_sale_of_fish_moves_by_weeks(self):
        sale = next(r for r in rows_of(self.at, "plan_moves.csv")
                    if r["kind"] == "sale" and r["product"])
        found = self.alter(f"step={sale['id']}", "weeks=+2")
        change = found["changes"][0]
        self.assertEqual((change["what"], change["before"]["step"]),
                         ("fish", "sale"))
        self.assertEqual(sorted((f["week"], f["after"] - f["before"])
                                for f in found["fish"]),
                         [(change["before"]["week"], -int(sale["started"])),
                          (change["after"]["week"], int(sale["started"]))])
        kept = self.alter(f"step={sale['id']}", "--drop")
        self.assertIsNone(kept["changes"][0]["after"])

    def test_what_is_not_there_is_told_with_the_nearest(self):
        row = self.batches()[0]
        err = self.alter(f"batch={row['id']}x", "--drop", code=1)
        self.assertIn(f"did you mean {row['id']}?", err)
        self.assertIn("there is no bed", self.alter(
            f"batch={row['id']}", "bed=no-such-bed", code=1))
        self.assertIn("is no longer planned", self.alter(
            f"batch={rows_of(self.at, 'plan_plants.csv')[0]['id']}", "--drop",
            code=1))
        self.assertIn("tell the same twice", self.alter(
            f"batch={row['id']}", "weeks=1", "set_on=2027-05-03", code=1))
        self.assertIn("lies outside the plan", self.alter(
            f"batch={row['id']}", "weeks=600", code=1))
        self.assertIn("keeps no plan before",
                      self.alter("--plan", "before", code=1))
        self.assertIn("tell what to change", self.alter(code=2))

    def test_the_journal_tells_what_was_changed_by_hand(self):
        told = run("note", self.at, "kind=seen", "place=A", "text=calm", *DAY)
        self.assertEqual(told.returncode, 0, told.stderr)
        row = self.batches()[0]
        self.alter(f"batch={row['id']}", "--drop", "--accept")
        entries = json.loads(run("journal", self.at, "--json").stdout)
        texts = [e.get("text") or "" for e in entries["entries"]
                 if e["kind"] == "plan_accepted"]
        self.assertEqual(len(texts), 1)
        for entry in entries["entries"]:
            self.assertIn(entry["kind"], ("seen", "plan_accepted"))
        self.assertIn("by hand: " + row["id"], texts[0])


if __name__ == "__main__":
    unittest.main(argv=[__file__])
