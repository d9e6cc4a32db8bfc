"""leat carry on the demo: text, JSON, narrowing, refusals.

usage: carry.py LEAT SOURCE_ROOT
"""
import json
import os
import shutil
import sys
import unittest

from demo_farm import DemoFarm, accept_plan, run


class Carry(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        accept_plan(cls.farm, 60000)
        cls.page = json.loads(run("carry", cls.farm, "--json").stdout)

    def test_the_page_tells_each_loop_in_words_and_numbers(self):
        told = run("carry", self.farm)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertEqual(told.stderr, "")
        for word in ("do the fish carry the beds?", "\nLoop loop-1",
                     "\nLoop loop-2", "Feed given", "four weeks from"):
            self.assertIn(word, told.stdout)
        self.assertTrue(all(len(line) < 100
                            for line in told.stdout.splitlines()))

    def chains(self, *words, farm=None):
        told = run("carry", farm or self.farm, *words, "--json")
        self.assertEqual(told.returncode, 0, told.stderr)
        return {loop["id"]: loop for loop in json.loads(told.stdout)["loops"]}

    def test_a_cold_spell_is_told_as_a_chain(self):
        loops = self.chains("spell_k=-9", "spell_d=10",
                            "spell_from=2027-11-20")
        for loop in loops.values():
            chain = loop["chain"]
            self.assertEqual((chain["from"], chain["days"]),
                             ("2027-11-20", 10))
            self.assertLess(chain["water_k"], 0)
            self.assertLessEqual(chain["feed_frac"], 0.001)
            later = [row["days"] for row in chain["later"]]
            self.assertTrue(later and max(later) >= 1, later)
            self.assertTrue(all(abs(days) >= 1 for days in later))
            words = [word for word in loop["words"] if "cold days" in word]
            self.assertEqual(len(words), 1)
            self.assertIn("10 cold days from 2027-11-20 (9.0 K)", words[0])
            self.assertIn("days later", words[0])
            short = ("nothing in the water runs short by it"
                     if chain["short_element"] is None
                     else chain["short_element"] + " gone by")
            self.assertIn(short, words[0])
        self.assertLess(min(loop["chain"]["feed_frac"]
                            for loop in loops.values()), -0.05)

    def test_a_hard_frost_kills_what_is_tender(self):
        for loop in self.chains("spell_k=-15", "spell_d=5",
                                "spell_from=2027-12-18").values():
            self.assertGreater(loop["chain"]["frozen_batches"], 0)
            self.assertIn("frost kills", " ".join(loop["words"]))
            self.assertTrue("2027-12-18" <= loop["chain"]["frozen_on"]
                            <= "2027-12-22")
        for loop in self.chains("spell_k=2", "spell_d=5",
                                "spell_from=2027-12-18").values():
            self.assertEqual(loop["chain"]["frozen_batches"], 0)

    def test_next_to_nothing_changes_nothing(self):
        for loop in self.chains("spell_k=-0.1", "spell_d=1").values():
            chain = loop["chain"]
            self.assertIsNone(chain["short_element"])
            self.assertEqual(chain["later"], [])
            self.assertIn("feed as usual; nothing in the water runs short by "
                          "it; no crop a day later", " ".join(loop["words"]))

    def test_without_a_spell_there_is_no_chain(self):
        for loop in self.page["loops"]:
            self.assertIsNone(loop["chain"])

    def test_the_forecast_is_a_spell(self):
        farm = os.path.join(self.top, "told")
        shutil.copytree(self.farm, farm)
        with open(os.path.join(farm, "forecast.csv"), "w") as file:
            file.write("date,tmax_degc,tmin_degc\n2027-03-03,6,-3\n"
                       "2027-03-04,5,-4\n2027-03-05,7,-2\n")
        for loop in self.chains(farm=farm).values():
            chain = loop["chain"]
            self.assertTrue(chain["is_forecast"])
            self.assertEqual((chain["from"], chain["days"]),
                             ("2027-03-03", 3))
            self.assertTrue(-13 < chain["warmer_k"] < -7, chain)

    def test_spells_out_of_range_are_refused_by_name(self):
        for words, text in ((("spell_k=-40",), "-40 K"),
                            (("spell_k=x",), "spell_k="),
                            (("spell_d=7",), "spell_k="),
                            (("spell_k=2", "spell_d=90"), "spell_d=90"),
                            (("spell_k=2", "spell_from=2031-01-01"),
                             "2031-01-01"),
                            (("spell_k=2", "--weeks", "1", "spell_d=9"),
                             "9 days")):
            told = run("carry", self.farm, *words)
            self.assertNotEqual(told.returncode, 0, words)
            self.assertIn(text, told.stderr)

    def test_every_week_has_its_numbers(self):
        page = self.page
        self.assertEqual(len(page["weeks"]), 52)
        self.assertEqual([loop["id"] for loop in page["loops"]],
                         ["loop-1", "loop-2"])
        for loop in page["loops"]:
            self.assertEqual(len(loop["elements"]), 6)
            for element in loop["elements"]:
                for key in ("fish_g", "asked_g", "taken_g", "store_g_m3"):
                    self.assertEqual(len(element[key]), 52)
                for asked, taken in zip(element["asked_g"],
                                        element["taken_g"]):
                    self.assertLessEqual(taken, asked + 1e-9)

    def test_what_is_short_is_short_in_the_numbers_too(self):
        for loop in self.page["loops"]:
            said = " ".join(loop["words"])
            for element in loop["elements"]:
                is_said = "Short: %s " % element["name"] in said
                self.assertEqual(is_said, element["short_from"] is not None)
                least = min(taken / asked for asked, taken in
                            zip(element["asked_g"], element["taken_g"])
                            if asked > 1e-3)
                if element["short_from"]:
                    self.assertLess(least, 0.5)

    def test_potassium_is_what_fish_do_not_bring(self):
        # All who farm so report it: potassium, calcium and iron run short.
        short = {element["name"] for loop in self.page["loops"]
                 for element in loop["elements"] if element["short_from"]}
        self.assertIn("potassium", short)

    def test_iron_given_is_not_short(self):
        page = json.loads(run("carry", self.farm, "--iron", "--json").stdout)
        for loop in page["loops"]:
            iron = loop["elements"][5]
            self.assertEqual(iron["name"], "iron")
            self.assertGreater(min(iron["store_g_m3"][8:]), 0.3)

    def test_one_loop_and_few_weeks(self):
        told = run("carry", self.farm, "loop=loop-2", "--weeks", "8")
        self.assertEqual(told.returncode, 0)
        self.assertNotIn("Loop loop-1", told.stdout)
        self.assertIn("8 weeks", told.stdout)

    def test_refusals_name_what_is_wrong(self):
        told = run("carry", self.farm, "loop=pond")
        self.assertEqual(told.returncode, 1)
        self.assertIn("pond", told.stderr)
        self.assertEqual(run("carry", self.farm, "--weeks", "0").returncode, 2)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]])
