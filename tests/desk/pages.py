"""leat beds, fish and orders on the demo with a short plan: what they say hangs
together.

usage: pages.py LEAT SOURCE_ROOT
"""
import json
import os
import shutil
import sys
import unittest

from demo_farm import DEMO, DemoFarm, accept_plan, run


class Pages(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.bare = os.path.join(cls.top, "bare")
        shutil.copytree(DEMO, cls.bare)
        accept_plan(cls.farm, 20000)

    def answer(self, *words):
        done = run(words[0], self.farm, *words[1:], "--json")
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def refused(self, *words):
        done = run(words[0], self.farm, *words[1:])
        self.assertNotEqual(done.returncode, 0)
        return done.stderr

    # ---- beds

    def test_every_bed_stands_once_in_walking_order(self):
        page = self.answer("beds", "--today", "2027-05-12")
        beds = [b for s in page["stops"] for b in s["beds"]]
        self.assertEqual(len(beds), 64)
        self.assertEqual([b["plate"] for b in beds], list(range(1, 65)))
        walk = [b["walk"] for b in beds]
        self.assertEqual(walk, sorted(walk))
        self.assertEqual([s["id"] for s in page["stops"]], ["H1", "H2", "H3"])

    def test_a_bed_holds_no_more_than_its_sections(self):
        page = self.answer("beds", "--today", "2027-06-16")
        for bed in (b for s in page["stops"] for b in s["beds"]):
            floor = sum(b["sections"] for b in bed["now"]
                        if b["place"] == "floor")
            self.assertLessEqual(floor, bed["sections"], bed["id"])
            self.assertEqual(bed["free_sections"], bed["sections"] - floor)
            for batch in bed["now"]:
                self.assertLessEqual(batch["set_on"], "2027-06-16")
                self.assertGreater(batch["clear_on"], "2027-06-16")
                if batch["stage"] == "picking":
                    self.assertLessEqual(batch["pick_on"], "2027-06-16")
            for batch in bed["next"]:
                self.assertGreater(batch["set_on"], "2027-06-16")

    def test_trays_are_sown_and_not_yet_set(self):
        page = self.answer("beds", "--today", "2027-04-14")
        self.assertTrue(page["trays"])
        for batch in page["trays"]:
            self.assertLessEqual(batch["sow_on"], "2027-04-14")
            self.assertGreater(batch["set_on"], "2027-04-14")

    def test_one_bed_alone_and_an_unknown_one(self):
        page = self.answer("beds", "bed=H2-M3", "--today", "2027-05-12")
        beds = [b for s in page["stops"] for b in s["beds"]]
        self.assertEqual([b["id"] for b in beds], ["H2-M3"])
        self.assertEqual(beds[0]["pump"], "pump-2")
        self.assertIn("H2-M3", self.refused("beds", "bed=H2-M33"))

    def test_beds_need_no_plan(self):
        done = run("beds", self.bare, "--today", "2027-03-02")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("head lettuce", done.stdout)

    # ---- fish

    def test_a_grading_makes_and_loses_no_fish(self):
        page = self.answer("fish", "--today", "2027-05-12")
        seen = 0
        for tank in page["tanks"]:
            self.assertAlmostEqual(
                tank["kg"], sum(b["kg"] for b in tank["batches"]), places=6)
            for batch in tank["batches"]:
                for grading in batch["gradings"]:
                    seen += 1
                    before, moved, left = (grading[k] for k in
                                           ("before", "moved", "left"))
                    self.assertAlmostEqual(moved["kg"] + left["kg"],
                                           before["kg"], places=6)
                    self.assertAlmostEqual(moved["count"] + left["count"],
                                           before["count"], delta=1)
                    self.assertLess(left["mean_g"], before["mean_g"])
                    self.assertGreater(moved["mean_g"], before["mean_g"])
        self.assertGreater(seen, 3)

    def test_the_fish_eat_what_the_round_feeds(self):
        fish = self.answer("fish", "--today", "2027-04-21")
        walk = self.answer("round", "--today", "2027-04-21")
        fed = {t["id"]: t["feed_g"] for t in fish["tanks"] if t["feed_g"]}
        told = {i["place"]: i["value"]["amount"] for s in walk["stops"]
                for i in s["items"] if i["kind"] == "feed"}
        self.assertEqual(fed.keys(), told.keys())
        for tank, grams in fed.items():
            self.assertAlmostEqual(told[tank], grams, delta=0.5)

    def test_a_cut_is_shown_before_it_is_told(self):
        page = self.answer("fish", "tank=B", "cut_g=240", "to=A",
                           "--today", "2027-04-21")
        asked = page["asked"]
        self.assertEqual(asked["to"], "A")
        self.assertGreater(asked["moved"]["mean_g"], 240.0)
        self.assertLess(asked["left"]["mean_g"], 240.0)
        self.assertIn("disease", asked["doubt"])
        self.assertIn("none", self.refused("fish", "tank=B", "cut_g=9000"))
        self.assertIn("all", self.refused("fish", "tank=B", "cut_g=2"))
        self.assertIn("tank=", self.refused("fish", "cut_g=200"))
        self.assertIn("another tank",
                      self.refused("fish", "tank=B", "cut_g=200", "to=B"))

    def test_sale_weight_comes_early_likely_late(self):
        page = self.answer("fish", "sale_g=500", "--today", "2027-03-10")
        self.assertEqual(page["sale_g"], 500.0)
        days = [b for b in page["batches"] if b["ready_late"]]
        self.assertTrue(days)
        for batch in days:
            self.assertLessEqual(batch["ready_early"], batch["ready_on"])
            self.assertLessEqual(batch["ready_on"], batch["ready_late"])

    # ---- orders

    def test_orders_add_up_week_by_week(self):
        page = self.answer("orders", "--today", "2027-05-12", "--weeks", "4")
        self.assertEqual([w["name"] for w in page["weeks"]],
                         ["2027-W19", "2027-W20", "2027-W21", "2027-W22"])
        self.assertTrue(page["orders"])
        for order in page["orders"]:
            self.assertEqual(len(order["weeks"]), 4)
            for week in order["weeks"]:
                self.assertLessEqual(week["planned"], week["ordered"] + 1e-6)
                self.assertLessEqual(week["low"], week["expected"] + 1e-6)
                self.assertLessEqual(week["expected"], week["high"] + 1e-6)

    def test_offers_run_from_low_to_high_beside_the_orders(self):
        page = self.answer("orders", "--today", "2027-03-03")
        self.assertEqual(page["offers"]["week"], "2027-03-08")
        offers = page["offers"]["products"]
        self.assertTrue(any(o["high"] > 0 for o in offers))
        for offer in offers:
            self.assertLessEqual(offer["low"], offer["expected"])
            self.assertLessEqual(offer["expected"], offer["high"])
            self.assertLessEqual(offer["over"], offer["expected"])
            buyers = [t["buyer"] for t in offer["to"]]
            self.assertEqual(len(buyers), len(set(buyers)))

    def test_what_is_counted_short_is_shared_whole(self):
        page = self.answer("orders", "product=head-lettuce", "have=69",
                           "--today", "2027-03-02")
        short = [s for s in page["shortages"]
                 if s["product"] == "head-lettuce"
                 and s["week"] == "2027-03-01"]
        self.assertEqual(len(short), 1)
        self.assertEqual(short[0]["have"], 69)
        self.assertEqual(short[0]["lost"], short[0]["ordered"] - 69)
        for way in ("in_proportion", "by_rule"):
            self.assertEqual(sum(s[way] for s in short[0]["shares"]), 69)
        for share in short[0]["shares"]:
            self.assertIn("head lettuce", share["message"])
        self.assertIn("product=", self.refused("orders", "have=3"))

    def test_who_was_cut_last_week_is_as_told(self):
        farm = os.path.join(self.top, "delivered")
        shutil.copytree(self.farm, farm)

        def cut(buyer):
            done = run("orders", farm, "product=head-lettuce", "have=40",
                       "--today", "2027-03-09", "--json")
            page = json.loads(done.stdout)
            short = next(s for s in page["shortages"]
                         if s["product"] == "head-lettuce"
                         and s["week"] == "2027-03-08")
            return next(s["cut_before"] for s in short["shares"]
                        if s["buyer"] == buyer)

        done = run("note", farm, "--today", "2027-03-05", "kind=delivered",
                   "buyer=hotel", "product=head-lettuce", "quantity=9",
                   "unit=head", "happened_on=2027-03-04")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(cut("hotel"), 5)
        done = run("note", farm, "--today", "2027-03-05", "kind=delivered",
                   "buyer=hotel", "product=head-lettuce", "quantity=5",
                   "unit=head", "happened_on=2027-03-05")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(cut("hotel"), 0)

    def test_closures_of_those_weeks_are_told(self):
        page = self.answer("orders", "--today", "2027-03-17", "--weeks", "3")
        self.assertEqual([c["buyer"] for c in page["closures"]], ["canteen"])
        canteen = [o for o in page["orders"]
                   if o["buyer"] == "canteen" and not o["dated"]]
        self.assertTrue(canteen)
        self.assertTrue(all(o["weeks"][1]["closed"] for o in canteen))

    def test_orders_without_a_plan_say_what_to_do(self):
        done = run("orders", self.bare, "--today", "2027-03-02")
        self.assertEqual(done.returncode, 1)
        self.assertIn("leat plan", done.stderr)


    # ---- water

    def place(self, page, name):
        return next(p for p in page["places"] if p["id"] == name)

    def test_readings_stand_against_what_suits_the_fish(self):
        page = self.answer("water", "--today", "2027-03-01", "at=08:00")
        self.assertEqual([p["id"] for p in page["places"]],
                         ["loop-1", "A", "C", "loop-2", "B", "D", "E",
                          "purge-tub", "quarantine-tub"])
        tank = self.place(page, "A")
        reads = {r["quantity"]: r for r in tank["readings"]}
        self.assertEqual(reads["temp_degc"]["value"], 20.1)
        self.assertEqual(reads["temp_degc"]["mark"], "in range")
        self.assertGreater(reads["temp_degc"]["foreseen"], 15)
        self.assertEqual(reads["iron_mg_l"]["mark"], "not read")
        self.assertTrue(tank["fish"])
        for read in reads.values():
            if read["low"] is not None and read["high"] is not None:
                self.assertLess(read["low"], read["high"])

    def test_old_readings_say_nothing(self):
        page = self.answer("water", "--today", "2027-03-10", "at=08:00")
        reads = {r["quantity"]: r
                 for r in self.place(page, "A")["readings"]}
        self.assertEqual(reads["oxygen_mg_l"]["mark"], "old")

    def test_what_is_told_is_judged_and_kept_as_points(self):
        farm = os.path.join(self.top, "told")
        shutil.copytree(self.farm, farm)
        for hour, value in (("07:30", "3.4"), ("19:00", "2.6")):
            done = run("note", farm, "--today", "2027-03-02", "kind=read",
                       "place=B", "quantity_key=oxygen_mg_l",
                       f"value={value}", f"happened_at={hour}")
            self.assertEqual(done.returncode, 0, done.stderr)
        done = run("water", farm, "--today", "2027-03-02", "at=20:00",
                   "tank=B", "--json")
        page = json.loads(done.stdout)
        tank = self.place(page, "B")
        self.assertEqual(len(page["places"]), 1)
        oxygen = tank["readings"][1]
        self.assertEqual(oxygen["mark"], "low")
        self.assertEqual([p["value"] for p in oxygen["points"]], [3.4, 2.6])
        self.assertEqual(oxygen["points"][0]["minute"], 450)
        self.assertIn("oxygen-stop", [f["rule"] for f in tank["findings"]])
        self.assertIn("none", tank["feed"])

    def test_an_unknown_tank_is_named(self):
        self.assertIn("tank", self.refused("water", "tank=Z"))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
