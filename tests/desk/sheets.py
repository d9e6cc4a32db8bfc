"""leat sheets on the demo with a short plan: rows in walking order, and a filled
sheet keyed back as it stands.

usage: sheets.py LEAT SOURCE_ROOT
"""
import html.parser
import json
import os
import shutil
import sys
import unittest

from demo_farm import DemoFarm, accept_plan, run

KINDS = ["round", "feed", "water", "pick", "sow"]
VOID = {"meta", "path", "circle", "use", "br"}


class Tags(html.parser.HTMLParser):
    """Every tag that opens closes, and nothing comes from elsewhere."""

    def __init__(self):
        super().__init__()
        self.open = []
        self.rows = 0
        self.faults = []

    def handle_starttag(self, tag, attrs):
        if tag == "div" and ("class", "row") in attrs:
            self.rows += 1
        for key, value in attrs:
            if key in ("src", "href") and not value.startswith("#"):
                self.faults.append(value)
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if not self.open or self.open.pop() != tag:
            self.faults.append("</" + tag)


class Sheets(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        accept_plan(cls.farm, 20000)

    def sheets(self, day, *words):
        done = run("sheets", self.farm, "--today", day, "--json", *words)
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)["sheets"]

    def test_each_kind_has_its_rows_numbered_through(self):
        sheets = self.sheets("2027-03-16")
        self.assertEqual([s["kind"] for s in sheets], KINDS)
        for sheet in sheets:
            numbers = [r["number"] for r in sheet["rows"] if r["number"]]
            self.assertEqual(numbers, list(range(1, len(numbers) + 1)))
            self.assertTrue(numbers, sheet["kind"])

    def test_the_round_sheet_walks_as_the_round_does(self):
        rows = self.sheets("2027-03-16", "--kind", "round")[0]["rows"]
        walk = json.loads(run("round", self.farm, "--today", "2027-03-16",
                              "--json").stdout)
        eyes = [s["id"] for s in walk["stops"] if not s["hands"]]
        stops = list(dict.fromkeys(r["stop"] for r in rows))
        self.assertEqual(stops, eyes)
        plates = [r["plate"] for r in rows if r["picture"] == "fish"]
        # Those that stand; the plan may have put fish in others by then.
        self.assertLessEqual({"A", "B", "C", "E"}, set(plates))
        self.assertEqual(plates, [p for p in "ACBDE" if p in plates])

    def test_the_page_is_whole_and_alone(self):
        path = os.path.join(self.top, "day.html")
        done = run("sheets", self.farm, "--today", "2027-03-16", "--out", path)
        self.assertEqual(done.returncode, 0, done.stderr)
        with open(path, encoding="utf-8") as file:
            page = file.read()
        tags = Tags()
        tags.feed(page)
        self.assertEqual(tags.faults, [])
        self.assertEqual(tags.open, [])
        rows = sum(1 for s in self.sheets("2027-03-16")
                   for r in s["rows"] if r["number"])
        self.assertEqual(tags.rows, rows)
        self.assertNotIn("<script", page)
        self.assertNotIn("http", page)

    def test_what_comes_from_tables_is_escaped(self):
        other = os.path.join(self.top, "other")
        shutil.copytree(self.farm, other)
        path = os.path.join(other, "tunnels.csv")
        with open(path, encoding="utf-8") as file:
            text = file.read()
        with open(path, "w", encoding="utf-8") as file:
            file.write(text.replace("first tunnel", "<b>first & best</b>"))
        page = run("sheets", other, "--today", "2027-03-16").stdout
        self.assertIn("&lt;b&gt;first &amp; best&lt;/b&gt;", page)
        self.assertNotIn("<b>first", page)

    def test_a_filled_sheet_is_keyed_back_in_order(self):
        """Every blank gets a number, every box a tick: all is taken."""
        entries = []
        for sheet in self.sheets("2027-03-16"):
            for row in sheet["rows"]:
                for field in row["fields"]:
                    entry = field["entry"]
                    if not entry:
                        continue
                    if field["fill"] in ("text", "lot"):
                        entry[field["fill"]] = "as told"
                    elif field["fill"] == "count":
                        entry["count"] = 3
                    elif field["fill"]:
                        entry[field["fill"]] = 6.9
                    entries.append(entry)
        self.assertGreater(len(entries), 40)
        done = run("note", self.farm, "--today", "2027-03-16", "--stdin",
                   "--json", text=json.dumps({"entries": entries}))
        self.assertEqual(done.returncode, 0, done.stderr)
        walk = json.loads(run("round", self.farm, "--today", "2027-03-16",
                              "--json").stdout)
        reads = [i for s in walk["stops"] for i in s["items"]
                 if i["kind"] in ("read", "feed", "pick")]
        self.assertTrue(reads)
        for item in reads:
            self.assertTrue(item["done"] or item["hold"], item["id"])

    def test_an_unknown_kind_is_named(self):
        done = run("sheets", self.farm, "--today", "2027-03-16", "--kind",
                   "round,walk")
        self.assertEqual(done.returncode, 2)
        self.assertIn("walk", done.stderr)
        self.assertIn("water", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
