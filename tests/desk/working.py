"""leat working: what it says of a figure gives that figure, and it is the one
that the page shows.

usage: working.py LEAT SOURCE_ROOT
"""
import datetime
import json
import math
import re
import sys
import unittest

from demo_farm import DemoFarm, accept_plan, run

DAYS = ("2027-03-10", "2027-06-17")
FROM = {"book", "yours", "guess", "told", "table", "plan", "foreseen", "worked"}
EPOCH = datetime.date(1970, 1, 1)
FUNCTIONS = {"min": min, "max": max, "floor": math.floor, "sqrt": math.sqrt,
             "hypot": math.hypot, "exp": math.exp, "log10": math.log10,
             "round": lambda x: math.floor(x + 0.5), "pow": pow}


def number(value):
    """A day as its number."""
    if isinstance(value, str):
        return (datetime.date.fromisoformat(value) - EPOCH).days
    return value


def worked_out(working, end="value"):
    """What the equation gives with its inputs put in."""
    left, right = working["symbols"].split(" = ", 1)
    put = {i["symbol"]: number(i[end]) for i in working["inputs"]
           if i["symbol"]}
    text = re.sub(r"(?<=[\w) ]) x (?=[\w( ])", " * ", right).replace("^", "**")
    names = set(re.findall(r"[A-Za-z_]\w*", text))
    assert names <= set(put) | set(FUNCTIONS), (names, put, right)
    return left, eval(text, {"__builtins__": {}}, {**FUNCTIONS, **put})


def near(a, b):
    return abs(a - b) <= 1e-9 * max(1.0, abs(a), abs(b))


class Workings(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        accept_plan(cls.farm, 20000)
        for words in (
                ("kind=fed", "place=B", "grams=640", "happened_on=2027-03-05"),
                ("kind=sampled", "place=B", "count=30", "mean_g=172",
                 "happened_on=2027-03-09"),
                ("kind=read", "place=A", "quantity_key=temp_degc", "value=21.4",
                 "happened_on=2027-03-10"),
                ("kind=fed", "place=B", "grams=655", "happened_on=2027-03-10")):
            done = run("note", cls.farm, *words, "--today", "2027-03-10")
            assert done.returncode == 0, done.stderr

    def page(self, command, day, *more):
        done = run(command, self.farm, "--today", day, *more, "--json")
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def workings(self, of, day):
        """All of them, by id and figure; each holds together by itself."""
        page = self.page("working", day, f"of={of}", "--full")
        made = {}
        for working in page["figures"]:
            key = (working["id"], working["figure"])
            self.assertNotIn(key, made)
            made[key] = working
            self.holds(working)
        return made

    def holds(self, working):
        where = (working["of"], working["id"], working["figure"])
        left, value = worked_out(working)
        self.assertEqual(left, working["figure"], where)
        self.assertTrue(near(value, number(working["value"])),
                        (where, value, working))
        self.assertTrue(working["words"] and working["name"], where)
        for put in working["inputs"]:
            self.assertIn(put["from"], FROM, where)
            self.assertTrue(put["name"], where)
            self.assertEqual(put["from"] == "told", put["on"] is not None
                             and put["from"] == "told", where)
            if put["opens"]:
                self.assertEqual(put["from"], "worked", where)
        for source in working["sources"]:
            self.assertTrue(source["text"], source)

    def shows(self, made, ident, figure, shown, digits=None):
        """The page's figure is the working's; what it does not know has none."""
        if shown is None:
            self.assertNotIn((ident, figure), made)
            return 0
        value = number(made[(ident, figure)]["value"])
        if digits is not None:
            value = math.floor(value + 0.5)
        self.assertTrue(near(value, number(shown)), (ident, figure, value,
                                                     shown))
        return 1

    def test_every_figure_of_fish(self):
        for day in DAYS:
            page = self.page("fish", day)
            tanks = self.workings("tank", day)
            parts = self.workings("in-tank", day)
            batches = self.workings("fish", day)
            farm = self.workings("farm", day)
            self.shows(farm, "all", "feed_g", page["feed_g"])
            for tank in page["tanks"]:
                for figure in ("kg", "mean_g", "density_kg_m3", "temp_degc",
                               "feed_g"):
                    self.shows(tanks, tank["id"], figure, tank[figure])
                self.shows(tanks, tank["id"], "count", tank["count"], 0)
                self.shows(tanks, tank["id"], "conversion",
                           tank["conversion"]["value"])
                for part in tank["batches"]:
                    ident = f"{tank['id']}/{part['batch']}"
                    self.shows(parts, ident, "count", part["count"], 0)
                    for figure in ("kg", "mean_g", "cv_frac"):
                        self.shows(parts, ident, figure, part[figure])
            for batch in page["batches"]:
                self.shows(batches, batch["batch"], "count", batch["count"], 0)
                for figure in ("kg", "mean_g", "ready_early", "ready_on",
                               "ready_late"):
                    self.shows(batches, batch["batch"], figure, batch[figure])
                shown = batch["over_count"]
                made = batches[(batch["batch"], "over_count")]
                self.assertTrue(abs(made["value"] - shown) <= 0.5)
        self.assertIsNotNone(next(
            t for t in self.page("fish", "2027-03-10")["tanks"]
            if t["id"] == "B")["conversion"]["value"])

    def test_every_figure_of_beds(self):
        for day in DAYS:
            page = self.page("beds", day)
            made = self.workings("batch", day)
            beds = self.workings("bed", day)
            seen = 0
            for bed in (b for s in page["stops"] for b in s["beds"]):
                for batch in bed["now"] + bed["next"]:
                    seen += self.batch(made, batch)
                job = bed["job"]
                self.shows(beds, bed["id"], "job_day", job and job["day"])
                self.shows(beds, bed["id"], "clean_due", bed["clean_due"])
            for batch in page["trays"]:
                seen += self.batch(made, batch)
            self.assertGreater(seen, 500)

    def test_every_figure_of_orders(self):
        for day in DAYS:
            page = self.page("orders", day)
            made = self.workings("order", day)
            offers = self.workings("offer", day)
            weeks = [week["name"] for week in page["weeks"]]
            short = 0
            for order in page["orders"]:
                for name, week in zip(weeks, order["weeks"]):
                    ident = f"{order['id']}/{name}"
                    for figure in ("ordered", "planned", "low", "expected",
                                   "high", "short"):
                        self.shows(made, ident, figure, week[figure])
                    short += week["short"] > 0
            lacks = self.workings("shortage", day)
            for shortage in page["shortages"]:
                for figure in ("ordered", "have", "lost"):
                    self.shows(lacks,
                               f"{shortage['product']}/{shortage['week']}",
                               figure, shortage[figure])
            for offer in page["offers"]["products"]:
                for figure in ("ordered", "low", "expected", "high", "over"):
                    self.shows(offers, offer["product"], figure, offer[figure])
            self.assertGreater(short, 0)

    def test_every_figure_of_water(self):
        seen = 0
        for day in DAYS:
            page = self.page("water", day, "at=12:00")
            made = self.workings("water", day)
            for place in page["places"]:
                for reading in place["readings"]:
                    for end in ("value", "foreseen", "low", "high"):
                        seen += self.shows(made, place["id"],
                                           f"{reading['quantity']}_{end}",
                                           reading[end])
        self.assertGreater(seen, 80)

    def test_every_figure_of_tunnels(self):
        for day in DAYS:
            done = run("vent", self.farm, "--today", day, "--json")
            self.assertEqual(done.returncode, 0, done.stderr)
            page = json.loads(done.stdout)
            made = self.workings("tunnel", day)
            air = self.workings("air", day)
            for end in ("outside_most_degc", "outside_least_degc"):
                self.shows(air, "day", end, page[end])
            for tunnel in page["tunnels"]:
                self.shows(made, tunnel["id"], "night_degc",
                           tunnel["night_degc"])
                for way in ("opened", "shut"):
                    self.shows(made, tunnel["id"], f"{way}_wet_h",
                               tunnel[way]["wet_h"])

    def test_every_dose(self):
        done = run("dose", self.farm, "loop=loop-1", "ph=6.2", "target_ph=6.8",
                   "alkalinity_mg_l=30", "tan_mg_l=0.5", "temp_degc=22",
                   "potassium_mg_l=12", "--today", "2027-03-10", "--json")
        plan = json.loads(done.stdout)
        made = {(w["id"], w["figure"]): w for w in plan["workings"]}
        for working in made.values():
            self.holds(working)
        self.assertGreater(len(plan["days"]), 2)
        for number_of, day in enumerate(plan["days"], 1):
            for figure in ("product_g", "portion_g", "ph_after"):
                self.shows(made, f"day-{number_of}", figure, day[figure])
        self.assertTrue(plan["salts"])
        for salt in plan["salts"]:
            for figure in ("product_g", "portion_g"):
                self.shows(made, salt["id"], figure, salt[figure])

    def batch(self, made, batch):
        ident = batch["batch"]
        units = made[(ident, "units")]
        for end in ("low", "high"):
            self.assertTrue(near(units[end], batch[f"units_{end}"]))
            _, value = worked_out(units, end)
            self.assertTrue(near(value, units[end]), (ident, end))
        return sum(self.shows(made, ident, figure, batch[figure])
                   for figure in ("sow_on", "set_on", "age_d", "pick_early",
                                  "pick_on", "pick_late", "last_pick_on",
                                  "clear_on", "plants", "age_degc_d", "units"))

    def test_what_opens_is_there_and_says_the_same(self):
        made = {of: self.workings(of, "2027-03-10")
                for of in ("tank", "in-tank", "fish", "farm", "batch", "bed")}
        opened = 0
        for working in (w for of in made.values() for w in of.values()):
            for put in working["inputs"]:
                key = put["opens"]
                if key:
                    one = made[key["of"]][(key["id"], key["figure"])]
                    self.assertTrue(near(number(one["value"]),
                                         number(put["value"])), put)
                    opened += 1
        self.assertGreater(opened, 100)

    def test_one_figure_alone_is_the_same(self):
        all_of = self.workings("tank", "2027-03-10")
        one = self.page("working", "2027-03-10", "of=tank", "id=B",
                        "figure=conversion")
        for key, value in all_of[("B", "conversion")].items():
            self.assertEqual(one[key], value)

    def test_a_reading_told_today_is_marked_as_told(self):
        one = self.page("working", "2027-03-10", "of=tank", "id=A",
                        "figure=temp_degc")
        self.assertEqual(one["value"], 21.4)
        self.assertEqual([(i["from"], i["on"]) for i in one["inputs"]],
                         [("told", "2027-03-10")])

    def test_an_unknown_figure_is_refused_with_the_nearest(self):
        done = run("working", self.farm, "of=tnak")
        self.assertEqual(done.returncode, 2)
        self.assertIn("did you mean tank", done.stderr)
        done = run("working", self.farm, "of=tank", "id=A", "figure=feedg")
        self.assertEqual(done.returncode, 1)
        self.assertIn("did you mean feed_g", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
