"""leat round on the demo with a small plan written by hand: the walk in the
farm's own order, one tap a stop, what it refuses.

usage: round.py LEAT SOURCE_ROOT
"""
import json
import os
import sys
import unittest

from demo_farm import SMALL_PLAN, DemoFarm, run, write_small_plan

TAPS_MOST = 12


class Round(DemoFarm):
    def accept(self):
        write_small_plan(self.farm)

    def drop(self):
        for name in SMALL_PLAN:
            path = os.path.join(self.farm, name)
            if os.path.exists(path):
                os.remove(path)

    def round(self, day):
        done = run("round", self.farm, "--today", day, "--json")
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def test_without_a_plan_it_says_what_to_do(self):
        self.drop()
        done = run("round", self.farm, "--today", "2027-03-02")
        self.assertEqual(done.returncode, 1)
        self.assertIn("leat plan", done.stderr)

    def test_a_usual_day_takes_few_taps_in_walking_order(self):
        self.accept()
        page = self.round("2027-03-03")
        eyes = [s for s in page["stops"] if not s["hands"]]
        self.assertEqual(page["taps"], len(eyes))
        self.assertLessEqual(len(eyes), TAPS_MOST)
        self.assertEqual(
            [s["id"] for s in eyes],
            ["tanks-loop-1", "sump-loop-1", "tanks-loop-2", "sump-loop-2",
             "tubs", "tunnel-H1", "tunnel-H2", "nursery", "tunnel-H3"])
        hands = [s["hands"] for s in page["stops"]]
        self.assertEqual(hands, sorted(hands))
        self.assertEqual(page["suspects"], [])
        self.assertEqual(page["told_today"], 0)
        self.assertAlmostEqual(sum(l["given_g"] for l in page["loops"]),
                               page["feed_g"], places=6)
        for loop in page["loops"]:
            self.assertGreaterEqual(loop["wanted_g"], 0)

    def test_one_tap_tells_the_feed_and_that_all_is_usual(self):
        self.accept()
        stop = self.round("2027-03-03")["stops"][0]
        kinds = [e["kind"] for e in stop["as_usual_entries"]]
        self.assertEqual(kinds[-1], "as_usual")
        self.assertNotIn("read", kinds)
        fed = [e for e in stop["as_usual_entries"] if e["kind"] == "fed"]
        items = {i["id"]: i for i in stop["items"]}
        self.assertTrue(fed)
        for entry in fed:
            item = items["feed-" + entry["place"]]
            self.assertEqual(entry["grams"], item["value"]["amount"])
            self.assertEqual(entry["stop"], stop["id"])
            self.assertEqual(entry["happened_on"], "2027-03-03")
            self.assertIn("scoops", item["text"])
            self.assertEqual(item["value"]["yesterday_from"], "plan")
            self.assertLess(item["value"]["odd_below"], entry["grams"])
            self.assertGreater(item["value"]["odd_above"], entry["grams"])

    def test_the_jobs_and_the_round_feed_alike(self):
        self.accept()
        page = self.round("2027-03-04")
        jobs = json.loads(run("jobs", self.farm, "--today", "2027-03-04",
                              "--json").stdout)
        fed = {j["places"][0]["id"]: j["amount"] for j in jobs["jobs"]
               if j["kind"] == "feed" and j["day"] == "2027-03-04"}
        told = {i["place"]: i["value"]["amount"] for s in page["stops"]
                for i in s["items"] if i["kind"] == "feed"}
        self.assertEqual(fed.keys(), told.keys())
        for tank, grams in fed.items():
            self.assertAlmostEqual(told[tank], grams, delta=0.5)

    def test_monday_looks_back_into_the_week_before(self):
        self.accept()
        first = self.round("2027-03-01")
        later = self.round("2027-03-08")
        before = [i["value"]["yesterday"] for s in first["stops"]
                  for i in s["items"] if i["kind"] == "feed"]
        after = [i["value"]["yesterday"] for s in later["stops"]
                 for i in s["items"] if i["kind"] == "feed"]
        self.assertEqual(set(before), {None})
        self.assertNotIn(None, after)

    def test_text_has_both_parts(self):
        self.accept()
        text = run("round", self.farm, "--today", "2027-03-02").stdout
        self.assertLess(text.index("Eyes first"),
                        text.index("Then the hands"))
        self.assertIn("Sow head lettuce", text)
        for line in text.splitlines():
            self.assertLessEqual(len(line), 80, line)

    def note(self, entries, day):
        done = run("note", self.farm, "--today", day, "--stdin", "--json",
                   text=json.dumps({"entries": entries}))
        self.assertEqual(done.returncode, 0, done.stderr)

    def test_what_one_tap_tells_is_taken_and_ticks_the_list(self):
        self.accept()
        self.addCleanup(self.forget)
        day = "2027-03-16"
        before = self.round(day)
        for stop in before["stops"]:
            self.note(stop["as_usual_entries"], day)
        after = self.round(day)
        self.assertEqual([s["id"] for s in before["stops"]],
                         [s["id"] for s in after["stops"]])
        self.assertGreater(after["told_today"], len(after["stops"]))
        for stop in after["stops"]:
            self.assertTrue(stop["as_usual"], stop["id"])
            for item in stop["items"]:
                is_own = item["kind"] == "read" or (
                    item["value"] and not item["entries"]
                    and item["kind"] != "look")
                self.assertNotEqual(item["done"], is_own, item["id"])
        fed = {i["place"]: i["value"] for s in self.round("2027-03-17")["stops"]
               for i in s["items"] if i["kind"] == "feed"}
        told = {i["place"]: i["value"]["amount"] for s in before["stops"]
                for i in s["items"] if i["kind"] == "feed"}
        for tank, value in fed.items():
            self.assertEqual(value["yesterday_from"], "told")
            self.assertEqual(value["yesterday"], told[tank])

    def test_a_delivery_to_one_buyer_is_none_to_another(self):
        self.accept()
        day = "2027-03-01"
        delivers = lambda: {item["id"].split(".")[2]: item["done"]
                            for stop in self.round(day)["stops"]
                            for item in stop["items"]
                            if ".deliver." in item["id"]}
        buyers = sorted(delivers())
        self.assertGreater(len(buyers), 1)
        self.assertFalse(any(delivers().values()))
        told = run("note", self.farm, "kind=delivered", f"buyer={buyers[0]}",
                   "product=head-lettuce", "quantity=3", "--today", day)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertEqual([b for b, done in delivers().items() if done],
                         [buyers[0]])
        run("note", self.farm, "strikes=1", "text=a try", "--today", day)

    def test_a_cold_tank_and_a_full_bed_are_told_as_maybe_one(self):
        self.accept()
        self.addCleanup(self.forget)
        day = "2027-03-16"
        cold = {"kind": "read", "place": "C", "quantity_key": "temp_degc",
                "value": 13.0}
        full = {"kind": "seen", "place": "H1-S3", "cause": "not-draining",
                "text": "does not drain"}
        dead = {"kind": "died", "place": "A", "count": 1}
        usual = self.round(day)
        self.note([cold, full, dead], day)
        page = self.round(day)
        self.assertEqual(page["suspects"][0]["pump"], "pump-1")
        self.assertIn("tank C", page["suspects"][0]["text"].replace("T", "t"))
        self.assertIn("H1-S3", page["suspects"][0]["text"])
        items = {i["id"]: i for s in page["stops"] for i in s["items"]}
        self.assertIsNotNone(items["feed-C"]["hold"])
        self.assertEqual(items["feed-C"]["value"]["amount"], 0)
        self.assertEqual(items["feed-C"]["entries"], [])
        before = {i["id"]: i for s in usual["stops"] for i in s["items"]}
        self.assertLess(items["feed-A"]["value"]["amount"],
                        before["feed-A"]["value"]["amount"])
        self.assertEqual(page["told_today"], 3)

    def test_water_without_oxygen_stops_the_feed_until_it_is_read_again(self):
        self.accept()
        self.addCleanup(self.forget)
        day = "2027-03-16"
        low = {"kind": "read", "place": "B", "quantity_key": "oxygen_mg_l",
               "value": 2.1, "happened_at": 430}
        self.note([low], day)
        page = self.round(day)
        items = {i["id"]: i for s in page["stops"] for i in s["items"]}
        self.assertIn("2.1", items["feed-B"]["hold"])
        self.assertEqual(items["feed-B"]["entries"], [])
        self.assertIsNone(items["feed-A"]["hold"])
        self.assertIn("2.1", page["suspects"][0]["text"])
        self.note([{"kind": "seen", "place": "B", "text": "looked"}], day)
        items = {i["id"]: i for s in self.round(day)["stops"]
                 for i in s["items"]}
        self.assertIsNotNone(items["feed-B"]["hold"])
        self.note([dict(low, value=6.3, happened_at=520)], day)
        page = self.round(day)
        items = {i["id"]: i for s in page["stops"] for i in s["items"]}
        self.assertIsNone(items["feed-B"]["hold"])
        self.assertEqual(page["suspects"], [])

    def forget(self):
        for name in os.listdir(self.farm):
            if name.startswith("leat.db"):
                os.remove(os.path.join(self.farm, name))

    def test_a_day_outside_the_plan_is_refused(self):
        self.accept()
        done = run("round", self.farm, "--today", "2029-03-02")
        self.assertEqual(done.returncode, 1)
        self.assertIn("plan runs from", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
