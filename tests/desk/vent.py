"""leat vent on the demo: heat, midday, floor, wind, frost, fleece, moulds.

usage: vent.py LEAT SOURCE_ROOT
"""
import csv
import json
import os
import shutil
import sys
import tempfile
import unittest

from demo_farm import DEMO, DemoFarm, accept_plan, run

HEAD = ["date", "tmax_degc", "tmin_degc", "cloud_pct", "rh_pct", "wind_m_s"]


def vent(*words):
    return run("vent", *words)


class Vent(DemoFarm):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.planned = os.path.join(cls.top, "planned")
        shutil.copytree(DEMO, cls.planned)
        accept_plan(cls.planned, 60000)

    def page(self, farm, day, *words):
        told = vent(farm, "--today", day, *words, "--json")
        self.assertEqual(told.returncode, 0, told.stderr)
        return json.loads(told.stdout)

    def copy(self, farm):
        to = tempfile.mkdtemp(dir=self.top)
        shutil.copytree(farm, to, dirs_exist_ok=True)
        return to

    def told(self, farm, *days):
        """A copy of the farm with a forecast of rows."""
        to = self.copy(farm)
        with open(os.path.join(to, "forecast.csv"), "w", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(HEAD)
            writer.writerows(days)
        return to

    def tunnels(self, farm, **cells):
        """A copy of the farm with these cells in every tunnel's row."""
        to = self.copy(farm)
        path = os.path.join(to, "tunnels.csv")
        with open(path, newline="") as file:
            rows = list(csv.DictReader(file))
        for row in rows:
            row.update(cells)
        with open(path, "w", newline="") as file:
            writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
            writer.writeheader()
            writer.writerows(rows)
        return to

    # ---- Heat and midday

    def test_summer_is_open_day_and_night_for_its_warmth(self):
        page = self.page(self.planned, "2027-07-10")
        for tunnel in page["tunnels"]:
            self.assertEqual(tunnel["midday"], "for-warmth")
            self.assertGreater(tunnel["heat"]["width_frac"], 0.9)
            hot = max(h["air_degc"] for h in tunnel["opened"]["hours"])
            shut = max(h["air_degc"] for h in tunnel["shut"]["hours"])
            self.assertGreater(shut, hot + 3)
            self.assertTrue(all(h["open_frac"] == 0
                                for h in tunnel["shut"]["hours"]))

    def test_a_cold_day_has_two_hours_by_common_practice(self):
        farm = self.told(self.planned, ["2027-12-14", 9, 2, 90, 90, 2])
        page = self.page(farm, "2027-12-14")
        self.assertTrue(page["is_forecast"])
        self.assertEqual(page["forecast_days"], 1)
        for tunnel in page["tunnels"]:
            self.assertIsNone(tunnel["heat"])
            self.assertEqual(tunnel["midday"], "as-asked")
            self.assertTrue(tunnel["is_usual"])
            dry = tunnel["dry"]
            self.assertEqual(dry["until_h"] - dry["from_h"], 2)
            self.assertIn("common practice of this trade",
                          " ".join(tunnel["lines"]))
            for hour in (12, 13):
                self.assertEqual(
                    tunnel["opened"]["hours"][hour]["open_frac"], 1)
            self.assertLess(tunnel["opened"]["rh_frac"],
                            tunnel["shut"]["rh_frac"] - 0.005)

    def test_the_row_tells_other_hours(self):
        cold = self.told(self.planned, ["2027-12-14", 9, 2, 90, 90, 2])
        four = self.page(self.tunnels(cold, midday_h="4"), "2027-12-14")
        none = self.page(self.tunnels(cold, midday_h="0"), "2027-12-14")
        for tunnel in four["tunnels"]:
            self.assertFalse(tunnel["is_usual"])
            dry = tunnel["dry"]
            self.assertEqual(dry["until_h"] - dry["from_h"], 4)
        for tunnel in none["tunnels"]:
            self.assertEqual(tunnel["midday"], "not-asked")
            self.assertIsNone(tunnel["dry"])

    def test_the_floor_makes_it_narrower_then_shorter_then_not_at_all(self):
        cold = self.told(self.planned, ["2027-12-13", 8, 0, 60, 90, 2],
                         ["2027-12-14", 8, 0, 60, 90, 3],
                         ["2027-12-15", 7, 0, 60, 90, 2])
        seen = []
        shut = self.page(cold, "2027-12-14")["tunnels"][0]["shut"]["hours"]
        top = max(h["air_degc"] for h in shut)
        for floor in [str(round(top - 4 + 0.25 * i, 2)) for i in range(17)]:
            page = self.page(self.tunnels(cold, floor_degc=floor),
                             "2027-12-14")
            tunnel = page["tunnels"][0]
            seen.append(tunnel["midday"])
            text = " ".join(tunnel["lines"])
            if tunnel["dry"]:
                for hour in range(int(tunnel["dry"]["from_h"]),
                                  int(tunnel["dry"]["until_h"])):
                    self.assertGreaterEqual(
                        tunnel["opened"]["hours"][hour]["air_degc"],
                        float(floor) - 0.1)
            if tunnel["midday"] == "shorter":
                self.assertIn("shorter than 2 hours", text)
                self.assertIn("the floor of", text)
        order = ["as-asked", "narrower", "shorter", "too-cold"]
        self.assertEqual(seen, sorted(seen, key=order.index))
        self.assertIn("narrower", seen)
        self.assertEqual(seen[-1], "too-cold")

    def test_the_floor_is_that_of_what_stands_there(self):
        for tunnel in self.page(self.planned, "2027-06-10")["tunnels"]:
            self.assertGreaterEqual(tunnel["floor_degc"], 2)
        page = self.page(self.planned, "2027-07-20")
        ways = {tunnel["floor_way"] for tunnel in page["tunnels"]}
        self.assertTrue(ways & {"basil-bunch", "cucumber-edge"}, ways)

    def test_openings_apart_are_named_ridge_first(self):
        cold = self.told(self.planned, ["2027-12-14", 9, 2, 90, 90, 2])
        apart = self.tunnels(cold, vent_m2="0", ridge_m2="6", end_m2="10",
                             side_m2="24")
        page = self.page(apart, "2027-12-14")
        for tunnel in page["tunnels"]:
            self.assertEqual(tunnel["dry"]["width_frac"], 1)
            self.assertIn("At the widest: ridge 6 m2, ends 10 m2, sides 24 "
                          "m2.", tunnel["lines"])
        for tunnel in self.page(cold, "2027-12-14")["tunnels"]:
            self.assertNotIn("At the widest", " ".join(tunnel["lines"]))

    # ---- Wind, frost, fleece

    def test_wind_and_frost_of_the_row_keep_it_shut(self):
        day = ["2027-12-14", 1, -6, 80, 80, 11]
        cold = self.told(self.planned, day)
        windy = self.page(self.tunnels(cold, shut_wind_m_s="9"), "2027-12-14")
        frosty = self.page(self.tunnels(cold, shut_outside_degc="2"),
                           "2027-12-14")
        plain = self.page(cold, "2027-12-14")
        for tunnel in windy["tunnels"]:
            self.assertEqual(tunnel["midday"], "wind")
            self.assertIn("over the 9 m/s", " ".join(tunnel["lines"]))
        for tunnel in frosty["tunnels"]:
            self.assertEqual(tunnel["midday"], "frost")
            self.assertTrue(all(h["open_frac"] == 0
                                for h in tunnel["opened"]["hours"]))
        for tunnel in plain["tunnels"]:
            self.assertIn("lee side", " ".join(tunnel["lines"]))

    def test_fleece_of_the_row_is_told_and_warms(self):
        cold = self.told(self.planned, ["2027-12-14", 4, -4, 0, 70, 2],
                         ["2027-12-15", 4, -6, 0, 70, 2])
        bare = self.page(cold, "2027-12-14")
        under = self.page(self.tunnels(cold, fleece_degc="3"), "2027-12-14")
        for a, b in zip(bare["tunnels"], under["tunnels"]):
            self.assertFalse(a["is_fleeced"])
            self.assertTrue(b["is_fleeced"])
            self.assertAlmostEqual(a["crop_degc"], a["night_degc"])
            self.assertGreater(b["crop_degc"], b["night_degc"] + 1)
            self.assertIn("Frost outside tonight", " ".join(b["lines"]))

    # ---- Moulds

    def test_december_presses_on_lettuce_and_july_on_cucumbers(self):
        def levels(day):
            return {(p["mould"], p["shut"])
                    for t in self.page(self.planned, day)["tunnels"]
                    for p in t["pressure"]}
        self.assertIn(("downy mildew of lettuce", "high"),
                      levels("2027-12-14"))
        self.assertIn(("powdery mildew of cucurbits", "high"),
                      levels("2027-07-10"))
        self.assertNotIn(("downy mildew of lettuce", "high"),
                         levels("2027-07-10"))
        note = self.page(self.planned, "2027-12-14")["note"]
        self.assertRegex(note, r"^H1, H2, H3: open \d\d:\d\d-\d\d:\d\d, wide. "
                               r"High: .*downy mildew of lettuce \(H1, H2")

    def test_pressure_names_its_rule_and_batches_and_no_product(self):
        told = vent(self.planned, "--today", "2027-12-14")
        self.assertIn("wet for 4 h from 06:00", told.stdout)
        self.assertIn("no remedy", told.stdout)
        self.assertIn("lettuce-", told.stdout)
        for line in told.stdout.splitlines():
            self.assertLessEqual(len(line), 80, line)

    def test_fog_dries_less_than_a_clear_day(self):
        farm = self.told(self.planned, ["2027-12-14", 8, 7, 100, 100, 1])
        page = self.page(farm, "2027-12-14")
        dry = self.told(self.planned, ["2027-12-14", 9, 1, 0, 55, 1])
        for wet, clear in zip(page["tunnels"],
                              self.page(dry, "2027-12-14")["tunnels"]):
            self.assertLess(clear["opened"]["rh_frac"],
                            wet["opened"]["rh_frac"] - 0.1)
            self.assertNotIn("hardly dries", " ".join(clear["lines"]))

    # ---- Bad states

    def test_without_plants_or_openings_it_is_told(self):
        bare = self.tunnels(self.farm, vent_m2="0")
        with open(os.path.join(bare, "plants.csv")) as file:
            head = file.readline()
        with open(os.path.join(bare, "plants.csv"), "w") as file:
            file.write(head)
        page = self.page(bare, "2027-03-02")
        for tunnel in page["tunnels"]:
            self.assertEqual(tunnel["midday"], "no-opening")
            self.assertEqual(tunnel["pressure"], [])
            self.assertIn("no opening", " ".join(tunnel["lines"]))

    def test_heat_and_cold_beyond_measure_stay_finite(self):
        for most, least in ((54, 40), (-30, -55)):
            farm = self.told(self.planned,
                             ["2027-07-10", most, least, 0, 100, 0])
            text = vent(farm, "--today", "2027-07-10", "--json").stdout
            self.assertNotIn("nan", text.lower())
            self.assertTrue(json.loads(text)["is_forecast"])

    def test_no_tunnel_and_days_out_of_reach_are_refused(self):
        none = self.copy(self.farm)
        for name in ("tunnels.csv", "plants.csv"):
            path = os.path.join(none, name)
            with open(path) as file:
                head = file.readline()
            with open(path, "w") as file:
                file.write(head)
        for name in ("beds.csv", "tanks.csv", "nursery.csv", "heaters.csv"):
            path = os.path.join(none, name)
            with open(path, newline="") as file:
                rows = list(csv.DictReader(file))
            with open(path, "w", newline="") as file:
                writer = csv.DictWriter(file, list(rows[0]),
                                        lineterminator="\n")
                writer.writeheader()
                for row in rows:
                    if "tunnel" in row:
                        row["tunnel"] = ""
                writer.writerows(rows)
        told = vent(none, "--today", "2027-03-02")
        self.assertNotEqual(told.returncode, 0)
        self.assertIn("no tunnel", told.stderr)
        for day in ("2026-12-01", "2031-01-01"):
            told = vent(self.farm, "--today", day)
            self.assertNotEqual(told.returncode, 0)
            self.assertIn(day, told.stderr)

    def test_a_faulty_forecast_is_told_by_its_place(self):
        twice = ["2027-03-02", 15, 6, 40, 70, 2]
        upside = ["2027-03-03", 5, 6, 40, 70, 2]
        for rows, text in (((twice, twice), "forecast.csv line 3: expected each day once"),
                           ((upside,), "at most tmax_degc, 5"),
                           ((["2027-03-02", "warm", 6, 1, 70, 2],),
                            "expected tmax_degc: a number")):
            told = vent(self.told(self.farm, *rows), "--today", "2027-03-02")
            self.assertEqual(told.returncode, 1)
            self.assertIn(text, told.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
