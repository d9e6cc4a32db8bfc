"""leat sum keeps its contract: list, help, JSON, exit codes, page.

usage: contract.py LEAT SOURCE_ROOT
"""
import json
import os
import re
import shlex
import subprocess
import sys
import unittest

LEAT = sys.argv[1]
ROOT = sys.argv[2]

# The sums and their keys as they were agreed; keys may be added to them.
AGREED = """
unionised-ammonia: temp_degc ph tan_mg_l
oxygen-saturation: temp_degc altitude_m salinity_g_kg
carbon-dioxide: temp_degc ph alkalinity_mg_l
ammonia-made: feed_kg_d protein_pct
oxygen-left: density_kg_m3 weight_g temp_degc oxygen_mg_l limit_mg_l fed_hours_ago bacteria_mg_l_h
base-dose: base volume_m3 alkalinity_mg_l ph target_ph temp_degc tan_mg_l fry
base-swap: from to mass_g
iron-dose: volume_m3 target_mg_l strength_pct
top-up-limit: chlorine_mg_l volume_m3 tank_degc source_degc
feed-for-beds: leafy_m2 fruiting_m2
beds-for-feed: feed_g_d ratio_g_m2_d
feed-today: count weight_g temp_degc species
days-to-weight: from_g to_g temp_degc species
growth-rate: from_g to_g days
grade-split: count mean_g cv_pct moved_count moved_mean_g cut_g
share-above: mean_g cv_pct cut_g count
tank-density: count weight_g volume_m3
seeds-to-sow: plants germination_pct confidence_pct survival_pct
trays: seeds cells
sow-date: deliver_on bed_days nursery_days slack_days
plants-in-bed: area_m2 row_cm in_row_cm
beds-held: units_week units_bed weeks_in_bed turnaround_weeks
flood-cycle: area_m2 depth_m porosity flow_m3_h drain_mm beds_in_step sump_m3
head-loss: flow_m3_h diameter_mm length_m roughness
pump-power: flow_m3_h head_m efficiency_pct
day-length: latitude_deg date
sun-today: latitude_deg date
sun-position: latitude_deg longitude_deg time
reference-et: temp_max_degc temp_min_degc rh_pct wind_m_s altitude_m net_radiation_mj_m2_d
vapour: temp_degc rh_pct altitude_m
air-state: dry_degc wet_degc altitude_m
vent-minutes: inside_degc inside_rh_pct outside_degc outside_rh_pct air_changes_h target_rh_pct
nitrification: area_m2 temp_degc ph oxygen_mg_l tan_mg_l
bed-week-value: units price weeks turnaround_weeks beds
infection-hours: temp_degc min_degc optimum_degc max_degc min_wet_h max_wet_h
mould-rules: temp_degc wet_h morning_wet_h early_degc forenoon_degc night_mild_h
"""


def run(*words):
    return subprocess.run([LEAT, *words], capture_output=True, text=True,
                          timeout=60)


def page():
    return run("sums").stdout


def examples():
    """The words after `leat` of each sum's example."""
    lines = re.findall(r"^    leat (sum .*)$", page(), re.M)
    return [shlex.split(line) for line in lines]


class Sums(unittest.TestCase):
    def test_the_agreed_names_and_keys_are_there(self):
        told = page()
        for line in AGREED.split("\n"):
            if not line:
                continue
            name, keys = line.split(": ")
            part = told.split(f"\n### {name}\n")[1].split("\n###")[0]
            for key in keys.split():
                self.assertIn(f"| `{key}` |", part, name)

    def test_the_list_names_every_sum_with_its_keys(self):
        listed = run("sum")
        self.assertEqual(listed.returncode, 0)
        names = [words[1] for words in examples()]
        self.assertGreater(len(names), 54)
        for name in names:
            self.assertIn(f"\n  {name}: ", listed.stdout)
        for line in listed.stdout.splitlines():
            self.assertLess(len(line), 80)
            self.assertEqual(line, line.rstrip())

    def test_a_sum_without_keys_tells_them_and_an_example(self):
        for words in examples():
            told = run("sum", words[1])
            self.assertEqual(told.returncode, 0, words)
            self.assertIn("For example\n  leat sum " + words[1], told.stdout)
            for fact in words[2:]:
                self.assertIn("\n  " + fact.split("=")[0] + " ", told.stdout)

    def test_every_example_answers_in_text_and_in_json(self):
        for words in examples():
            with self.subTest(words[1]):
                text = run(*words)
                self.assertEqual((text.returncode, text.stderr), (0, ""))
                self.assertIn("\nWorking\n", text.stdout)
                told = run(*words, "--json")
                self.assertEqual((told.returncode, told.stderr), (0, ""))
                answer = json.loads(told.stdout)
                self.assertEqual(list(answer), [
                    "name", "inputs", "value", "low", "high", "unit", "also",
                    "working", "source"])
                self.assertEqual(answer["name"], words[1])
                for fact in words[2:]:
                    self.assertIn(fact.split("=")[0], answer["inputs"])
                for also in answer["also"]:
                    self.assertEqual(list(also), ["name", "value", "low",
                                                  "high", "unit"])
                for value in [answer, *answer["also"]]:
                    is_date = value["unit"] == "date"
                    for key in "value", "low", "high":
                        if is_date:
                            self.assertRegex(value[key],
                                             r"^\d{4}-\d\d-\d\d$")
                        else:
                            self.assertIsInstance(value[key], (int, float))

    def test_numbers_are_written_with_no_tail(self):
        told = run("sum", "tank-density", "count=10", "weight_g=7.6",
                   "volume_m3=0.01", "--json").stdout
        self.assertIn('"value": 7.6,', told)
        self.assertIn('"weight_g": 7.6,', told)

    def test_cautions_come_first_in_both(self):
        words = ["sum", "base-dose", "base=KOH", "volume_m3=33",
                 "alkalinity_mg_l=40", "ph=6.4", "target_ph=6.6",
                 "temp_degc=25", "tan_mg_l=0.5"]
        self.assertTrue(run(*words).stdout.startswith("Caution\n  Goggles"))
        answer = json.loads(run(*words, "--json").stdout)
        self.assertTrue(answer["working"][0].startswith("Goggles"))

    def test_errors_come_in_json_with_their_exit_code(self):
        for words, kind, code in [
                (["trays", "seeds=10"], "usage", 2),
                (["trais", "seeds=10"], "usage", 2),
                (["trays", "seeds=ten", "cells=5"], "input", 1),
                (["trays", "seeds=-1", "cells=5"], "range", 1),
                (["base-swap", "from=x", "to=KOH", "mass_g=1"], "not-found",
                 1),
                (["base-dose", "base=KOH", "volume_m3=33",
                  "alkalinity_mg_l=40", "ph=7.4", "target_ph=7.6",
                  "temp_degc=25", "tan_mg_l=9"], "limit", 1)]:
            told = run("sum", *words, "--json")
            self.assertEqual(told.returncode, code, words)
            error = json.loads(told.stdout)["error"]
            self.assertEqual(list(error), ["kind", "text"])
            self.assertEqual(error["kind"], kind)
            self.assertTrue(told.stderr.startswith("leat: "))
            plain = run("sum", *words)
            self.assertEqual((plain.returncode, plain.stdout), (code, ""))

    def test_what_is_no_text_does_no_harm(self):
        for value in [b"\xff\xfe", b"\x1b[31m", b"a" * 5000, b"\"\\"]:
            told = subprocess.run(
                [LEAT, "sum", "base-swap", b"from=" + value, "to=KOH",
                 "mass_g=1", "--json"], capture_output=True, timeout=60)
            self.assertEqual(told.returncode, 1)
            json.loads(told.stdout)

    def test_sources_are_those_of_the_list(self):
        with open(os.path.join(ROOT, "docs/sources.md"),
                  encoding="utf-8") as file:
            listed = set(re.findall(r"^- \*\*\[([^]]+)\]\*\*", file.read(),
                                    re.M))
        for words in examples():
            for key in json.loads(run(*words, "--json").stdout)["source"]:
                self.assertIn(key, listed, words[1])

    def test_the_page_is_current(self):
        with open(os.path.join(ROOT, "docs/sums.md"),
                  encoding="utf-8") as file:
            self.assertEqual(file.read(), page(),
                             "make it anew: leat sums > docs/sums.md")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
