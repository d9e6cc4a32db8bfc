"""What people on the farm read, in each language beside the English: the same
things in the same order, and no English sentence left in it.

usage: tongues.py LEAT SOURCE_ROOT
"""
import csv
import json
import os
import re
import sys
import unittest

from demo_farm import ROOT, DemoFarm, accept_plan, run

LANGUAGES = ("es", "fr", "pt", "ar")
DAYS = ("2027-03-01", "2027-04-06", "2027-07-02")
WORD = re.compile(r"[A-Za-zÀ-ÿ]+")
# Words that only English has, of which a sentence has one.
ENGLISH = set("""the of and with from until what than into water feed fish
open shut close before after pick count every first today by is are was if
their which nothing each them they""".split())
# Said the same in every language: units and signs.
SAME = set("danger tan cl fe no g kg mg ug l m cm mm m2 m3 h d degc ph o2 n k w kw kwh x p1 csv leat "
           "min pa kpa mj eur alkal alcal".split())


def names_of_farm(farm):
    """A pattern of every text that stands in the farm's own tables."""
    names = set()
    for name in os.listdir(farm):
        if name.endswith(".csv"):
            with open(os.path.join(farm, name), encoding="utf-8") as file:
                for row in csv.reader(file):
                    names.update(cell.strip() for cell in row
                                 if re.search("[A-Za-z]", cell))
    longest_first = sorted(names, key=lambda name: (-len(name), name))
    return re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, longest_first)) +
                      r")(?!\w)", re.I)


class Tongues(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        accept_plan(cls.farm, 100000)
        cls.names = names_of_farm(cls.farm)

    def words(self, text):
        """Its words, in lower case, without the farm's own names."""
        found = {word.lower() for word in WORD.findall(self.names.sub("", text))
                 if len(word) > 1}
        return found - SAME

    def ask(self, language, *words):
        done = run(*words, *(("--language", language) if language else ()))
        self.assertEqual(done.returncode, 0, done.stderr)
        return done.stdout

    def compare(self, english, said, where, keys):
        """Alike in shape; texts under keys in words of their own."""
        self.assertIs(type(said), type(english), where)
        if isinstance(english, dict):
            self.assertEqual(list(said), list(english), where)
            for key, value in english.items():
                self.compare(value, said[key], where + (key,), keys)
        elif isinstance(english, list):
            self.assertEqual(len(said), len(english), where)
            for i, value in enumerate(english):
                self.compare(value, said[i], where + (i,), keys)
        elif isinstance(english, str):
            key = next(k for k in reversed(where) if isinstance(k, str))
            if key in keys:
                self.compare_text(english, said, where)
            else:
                self.assertEqual(said, english, where)
        else:
            self.assertEqual(said, english, where)

    def compare_text(self, english, said, where):
        if self.words(english):
            self.assertNotEqual(said, english, where)
        left = self.words(said) & ENGLISH
        self.assertFalse(left, f"{where}: {said}")
        numbers = re.compile(r"\d+(?:\.\d+)?")
        self.assertEqual(sorted(numbers.findall(said)),
                         sorted(numbers.findall(english)),
                         f"{where}: {said} / {english}")

    def compare_json(self, keys, *words):
        english = json.loads(self.ask(None, *words))
        for language in LANGUAGES:
            said = json.loads(self.ask(language, *words))
            self.compare(english, said, (language, *words), keys)

    def test_the_round(self):
        for day in DAYS:
            self.compare_json({"text", "name", "detail", "caution", "warning",
                               "hold", "title", "notices"},
                              "round", self.farm, "--today", day, "--json")

    def test_the_jobs_of_a_week(self):
        for day in DAYS[:2]:
            self.compare_json({"what", "note", "brief", "warning", "caution",
                               "text", "notices"},
                              "jobs", self.farm, "--today", day, "--json")

    def test_the_sheets(self):
        for day in DAYS[:2]:
            self.compare_json({"text", "note", "label", "usual", "title"},
                              "sheets", self.farm, "--today", day, "--json")

    def test_the_emergency_card(self):
        for what in ("pump=pump-1", "heater=pellets-1", "aerator=blower-2",
                     "power=all"):
            self.compare_json({"title", "lines", "what", "when", "notices"},
                              "emergency", self.farm, what, "at=02:10",
                              "--today", DAYS[0], "--json")

    def test_readings_and_doses(self):
        keys = {"means", "act", "feed_again", "test_next", "cautions",
                "refused", "dose_waits_for", "notices", "where", "when",
                "no_base", "stopped"}
        for told in (("tan_mg_l=3", "ph=8.2", "temp_degc=26"),
                     ("ph=6.1", "tan_mg_l=2", "alkalinity_mg_l=20",
                      "temp_degc=22", "nitrite_mg_l=0.1"),
                     ("oxygen_mg_l=2", "temp_degc=11"),
                     ("nitrite_mg_l=4", "chloride_mg_l=10", "iron_mg_l=0.2"),
                     ("oxygen_mg_l=19", "temp_degc=34", "nitrate_mg_l=800")):
            self.compare_json(keys, "reading", self.farm, "loop=loop-1", *told,
                              "--today", DAYS[0], "--json")

    def test_a_printed_sheet_is_written_in_its_direction(self):
        page = self.ask("ar", "sheets", self.farm, "--today", DAYS[1])
        self.assertIn('<html lang="ar" dir="rtl">', page)
        text = re.sub(r"<(style|svg).*?</\1>|<[^>]*>", " ", page, flags=re.S)
        self.assertFalse(self.words(text) & ENGLISH)

    def test_the_jobs_as_they_are_printed(self):
        for more in ((), ("--week", "this"), ("--loads",), ("--cautions",)):
            for language in LANGUAGES:
                said = self.ask(language, "jobs", self.farm, "--today",
                                DAYS[1], *more)
                self.assertFalse(self.words(said) & ENGLISH, (language, more))

    def test_the_round_as_it_is_printed(self):
        english = self.ask(None, "round", self.farm, "--today", DAYS[1])
        for language in LANGUAGES:
            said = self.ask(language, "round", self.farm, "--today", DAYS[1])
            self.assertEqual(said.count("[ ]"), english.count("[ ]"))
            self.assertFalse(self.words(said) & ENGLISH, language)

    def test_a_language_that_there_is_not(self):
        done = run("round", self.farm, "--language", "xx")
        self.assertEqual(done.returncode, 2)
        self.assertIn("es, fr, pt", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
