"""leat check and leat new on whole folders, sound and broken in every way.

usage: check_farm.py LEAT SOURCE_ROOT
"""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

LEAT = sys.argv[1]
ROOT = sys.argv[2]
DEMO = os.path.join(ROOT, "demo", "withy-reach")
MB = 1024 * 1024


def run(*words, **more):
    return subprocess.run([LEAT, *words], capture_output=True, text=True,
                          timeout=60, **more)


class Folder(unittest.TestCase):
    """A copy of the demo farm that a test may break."""

    def setUp(self):
        self.top = tempfile.mkdtemp(prefix="leat-check-")
        self.addCleanup(shutil.rmtree, self.top, True)
        self.farm = os.path.join(self.top, "farm")
        shutil.copytree(DEMO, self.farm)

    def path(self, file):
        return os.path.join(self.farm, file)

    def read(self, file):
        with open(self.path(file), "rb") as table:
            return table.read()

    def write(self, file, data):
        with open(self.path(file), "wb") as table:
            table.write(data)

    def change(self, file, old, new, count=1):
        data = self.read(file)
        self.assertIn(old, data)
        self.write(file, data.replace(old, new, count))

    def check(self, *options):
        """What leat check says: its lines, the closing count left out."""
        told = run("check", self.farm, *options)
        self.assertIn(told.returncode, (0, 1), told.stderr)
        lines = told.stdout.splitlines()
        self.assertRegex(lines[-1], r"farm: \d+ rows, \d+ faults?, \d+ notice")
        self.assertEqual(told.returncode == 0, ", 0 faults," in lines[-1])
        return lines[:-1]

    def assert_told(self, *wanted):
        """Each of these lines is told, and no other fault."""
        lines = [line for line in self.check()
                 if not line.startswith("notice: ")]
        self.assertEqual(sorted(lines), sorted(wanted))


class Sound(Folder):
    def test_the_demo_is_sound(self):
        self.assertEqual(self.check(), [])

    def test_answers_in_json_hold_the_same(self):
        self.change("loops.csv", b"loop-1,the H1 side,4", b"loop-1,,x")
        told = run("check", self.farm, "--json")
        self.assertEqual(told.returncode, 1)
        answer = json.loads(told.stdout)
        self.assertEqual(answer["fault_count"], 1)
        self.assertEqual(answer["faults"][0], {
            "file": "loops.csv", "line": 2, "column": 3, "value": "x",
            "expected": "sump_m3: a number from 0 to 1000"})
        self.assertEqual(answer["notices"], [])

    def test_byte_order_marks_and_windows_line_ends_are_read(self):
        for name in os.listdir(self.farm):
            if name.endswith(".csv"):
                self.write(name, b"\xef\xbb\xbf" +
                           self.read(name).replace(b"\n", b"\r\n"))
        self.assertEqual(self.check(), [])

    def test_semicolons_and_decimal_commas_are_read_with_one_notice(self):
        for name in ("beds.csv", "pumps.csv"):
            data = self.read(name).replace(b",", b";").replace(b".", b",")
            self.write(name, data)
        lines = self.check()
        self.assertEqual(len(lines), 1)
        self.assertIn("notice: ", lines[0])
        self.assertIn("(2 tables)", lines[0])

    def test_a_folder_and_a_table_may_be_links(self):
        os.rename(self.path("beds.csv"), os.path.join(self.top, "other.csv"))
        os.symlink(os.path.join(self.top, "other.csv"), self.path("beds.csv"))
        link = os.path.join(self.top, "link")
        os.symlink(self.farm, link)
        self.assertEqual(run("check", link).returncode, 0)

    def test_hidden_files_and_other_files_are_left_alone(self):
        self.write(".beds.csv", b"\0")
        self.write("notes.txt", b"\0")
        self.assertEqual(self.check(), [])


class Broken(Folder):
    """The broken inputs: each is told, with its place, and nothing else."""

    def test_wrong_types(self):
        self.change("beds.csv", b"H1-S1,H1,south,101,2.4",
                    b"H1-S1,H1,south,first,wide")
        self.change("farm.csv", b"2027-03-01", b"1/3/2027")
        self.assert_told(
            'beds.csv:2:4: "first": expected walk: a whole number from 0 to '
            "100000",
            'beds.csv:2:5: "wide": expected length_m: a number from 0.2 to '
            "100",
            'farm.csv:2:8: "1/3/2027": expected records_from: a date as '
            "2027-03-01")

    def test_impossible_numbers(self):
        self.change("tanks.csv", b"A,loop-1,grow,6,", b"A,loop-1,grow,-6,")
        self.change("fish.csv", b",190,440,", b",1e99,nan,")
        self.assert_told(
            'tanks.csv:2:4: "-6": expected volume_m3: a number from 0.05 to '
            "1000",
            'fish.csv:2:5: "1e99": expected count: a whole number from 1 to '
            "1000000",
            'fish.csv:2:6: "nan": expected mean_g: a number from 0.01 to '
            "20000")

    def test_a_line_of_100_mb(self):
        self.write("contacts.csv", b"id,turn,name,phone\na,1,Ann,0\nb,2," +
                   b"x" * (100 * MB) + b",0\nc,3,Cy,0\n")
        start = time.monotonic()
        self.assert_told(
            'contacts.csv:3:3: "' + "x" * 48 + '...": expected at most 65536 '
            "bytes in a cell")
        self.assertLess(time.monotonic() - start, 30)

    def test_a_table_that_is_too_large(self):
        with open(self.path("contacts.csv"), "wb") as table:
            table.truncate(129 * MB)
        self.assert_told("contacts.csv: expected a table that can be read; "
                         "contacts.csv holds more than 128 MB")

    def test_a_cell_over_64_kb(self):
        self.write("contacts.csv", b"id,turn,name,phone\na,1,\"" +
                   b"x\n" * 32769 + b"\",0\nb,2,Bo,0\n")
        lines = self.check()
        self.assertTrue(lines[0].startswith("contacts.csv:2:3: "), lines[0])
        self.assertIn("expected at most 65536 bytes in a cell", lines[0])

    def test_nul_bytes(self):
        self.change("loops.csv", b"the H1 side", b"the \0 side")
        self.assert_told('loops.csv:2: "loop-1,the \\x00 side,4,mains": expected '
                         "text without NUL bytes (is this a table?)")

    def test_a_program_in_place_of_a_table(self):
        shutil.copy(LEAT, self.path("contacts.csv"))
        self.assertGreater(len(self.check()), 0)

    def test_bad_utf8(self):
        self.change("loops.csv", b"the H1 side", b"S\xe3o side")
        self.assert_told('loops.csv:2: "loop-1,S\\xe3o side,4,mains": expected '
                         "text in UTF-8 (save the table as UTF-8)")

    def test_an_unclosed_quote(self):
        self.change("loops.csv", b"the H1 side", b'"the H1 side')
        lines = self.check()
        self.assertIn('loops.csv:2:2: "the H1 side,4,mains\\x0aloop-2,the H2 '
                      'side,4,mains\\x0a": expected a closing quote before the '
                      "end of the table", lines)

    def test_duplicate_ids(self):
        self.change("loops.csv", b"loop-2,", b"loop-1,")
        lines = self.check()
        self.assertIn('loops.csv:3:1: "loop-1": expected an id of its own; '
                      "line 2 has it already", lines)

    def test_a_wrong_reference_with_a_near_name(self):
        self.change("zones.csv", b"1-south,loop-1,", b"1-south,lopo-1,")
        self.assert_told('zones.csv:2:2: "lopo-1": expected loop: an id of '
                         "the table loops (near: loop-1)")

    def test_a_missing_table_and_a_missing_column(self):
        os.remove(self.path("beds.csv"))
        self.change("loops.csv", b"sump_m3", b"sump_l")
        lines = self.check()
        self.assertIn("beds.csv: expected this table: beds; it is missing",
                      lines)
        self.assertIn('loops.csv:1: expected a column "sump_m3" (volume of '
                      "the sump)", lines)
        self.assertIn('loops.csv:1:3: "sump_l": expected a column of the '
                      "table loops (near: sump_m3)", lines)

    def test_an_unknown_table(self):
        os.rename(self.path("zones.csv"), self.path("zone.csv"))
        lines = self.check()
        self.assertIn("zone.csv: expected a table that Leat knows (near: "
                      "zones.csv)", lines)

    def test_mixed_decimals_and_delimiters(self):
        self.write("pumps.csv", b"id;loop;flow_m3_h;head_m\n"
                   b"pump-1;loop-1;12,5;2.4\npump-2,loop-2,12,2\n")
        lines = self.check()
        self.assertIn('pumps.csv:2:4: "2.4": expected head_m: one decimal '
                      'mark in a table, "," as on line 2', lines)
        self.assertIn('pumps.csv:3: "pump-2,loop-2,12,2": expected 4 cells as '
                      "in the header, not 1; commas and semicolons may not be "
                      "mixed in a table", lines)

    def test_an_empty_table(self):
        self.write("beds.csv", b"")
        self.assertIn("beds.csv:1: expected a header row with the names of "
                      "the columns", self.check())

    def test_a_package_of_another_format(self):
        self.change("datapackage.json", b'"leat_format": 1',
                    b'"leat_format": 7')
        self.assert_told("datapackage.json: expected leat_format 1, not 7")
        self.write("datapackage.json", b"{")
        lines = self.check()
        self.assertIn("datapackage.json: expected JSON; line 1", lines[0])

    def test_a_missing_package_is_a_notice(self):
        os.remove(self.path("datapackage.json"))
        lines = self.check()
        self.assertEqual(len(lines), 1)
        self.assertIn("notice: datapackage.json: ", lines[0])

    def test_all_faults_are_counted_and_the_first_thousand_printed(self):
        rows = b"".join(b"c%d,x,Ann,0\n" % i for i in range(1500))
        self.write("contacts.csv", b"id,turn,name,phone\n" + rows)
        told = run("check", self.farm)
        lines = told.stdout.splitlines()
        self.assertEqual(len(lines), 1002)
        self.assertIn("and 500 more", lines[1000])
        self.assertIn("1500 faults", lines[1001])
        told = run("check", self.farm, "--all")
        self.assertEqual(len(told.stdout.splitlines()), 1501)


class Steering(Folder):
    """Names that would steer a terminal."""

    def test_a_control_character_is_refused_with_its_place(self):
        self.change("loops.csv", b"the H1 side", b"the \x1b[2JH1 side")
        self.assert_told('loops.csv:2:2: "the \\x1b[2JH1 side": expected '
                         "name: one line of text without control characters; "
                         "its byte 5 is \\x1b")

    def test_paths_and_files_are_shown_escaped(self):
        evil = os.path.join(self.top, "f\x1b[2J\nx")
        os.rename(self.farm, evil)
        with open(os.path.join(evil, "a\x1b\xa0.csv"), "wb"):
            pass
        for options in ([], ["--json"]):
            told = run("check", evil, *options)
            self.assertEqual(told.returncode, 1)
            self.assertNotIn("\x1b", told.stdout + told.stderr)
            self.assertNotIn("\nx", told.stdout + told.stderr)
            self.assertIn("a\\x1b", told.stdout.replace("\\\\", "\\"))
        told = run("new", os.path.join(self.top, "g\x1b[2J"))
        self.assertEqual(told.returncode, 0)
        self.assertNotIn("\x1b", told.stdout)


class Senseless(Folder):
    """Tables that are right one by one and make no sense together."""

    def test_a_circle_of_links(self):
        self.change("links.csv", b"a-overflow,overflow,A,,,loop-1",
                    b"a-overflow,overflow,A,,C,")
        self.change("links.csv", b"c-overflow,overflow,C,,,loop-1",
                    b"c-overflow,overflow,C,,A,")
        self.assert_told('links.csv:2:1: "a-overflow": expected water that '
                         "ends somewhere; link a-overflow is part of a "
                         "circle: A, C, A")

    def test_a_sump_that_cannot_supply_its_zones_in_step(self):
        self.change("zones.csv", b"1-middle,loop-1,pump-1,2",
                    b"1-middle,loop-1,pump-1,1")
        self.assert_told('zones.csv:2:4: "1": expected a sump that can supply '
                         "and catch turn 1: 2 zones hold 4.84 m3 when full, "
                         "the sump of loop loop-1 4")

    def test_a_bed_in_no_zone(self):
        self.change("beds.csv", b"0.42,1-south,", b"0.42,,")
        self.assert_told('beds.csv:2:11: expected zone: the zone that floods '
                         "bed H1-S1; it is in none")

    def test_a_mix_with_a_part_nobody_grows(self):
        self.change("parts.csv", b"salad-bag,rocket-cut,", b"salad-bag,,")
        self.assert_told("parts.csv:4:2: expected way: a way that is grown "
                         "here, or fish_over_g for fish; nobody grows this "
                         "part of salad-bag")
        self.change("parts.csv", b"salad-bag,,", b"salad-bag,roket,")
        self.assert_told('parts.csv:4:2: "roket": expected way: an id of the '
                         "table ways")

    def test_a_density_over_its_ceiling_on_the_first_day(self):
        self.change("fish.csv", b",190,440,", b",350,440,")
        self.assert_told('fish.csv:2:3: "A": expected at most 25 kg/m3 in '
                         "tank A on the first day, not 25.67")

    def test_an_order_without_a_price(self):
        self.change("prices.csv", b"head-lettuce,,1.60", b"thyme,hotel,1.60")
        lines = self.check()
        self.assertIn('orders.csv:2:3: "head-lettuce": expected a price of '
                      "head-lettuce for buyer box, or for everybody", lines)
        self.assertEqual(len(lines), 6)


class Doubtful(Folder):
    """Values that can be right: asked about, and no fault."""

    def test_a_doubt_shows_the_value_and_fails_nothing(self):
        self.change("prices.csv", b"thyme,,2.00", b"thyme,,200.00")
        self.change("farm.csv", b"Europe/Lisbon", b"Europe/Lissabon")
        told = run("check", self.farm)
        self.assertEqual(told.returncode, 0)
        self.assertEqual(told.stderr, "")
        self.assertIn('doubt: farm.csv:2:6: is "Europe/Lissabon" right? no '
                      "zone of the IANA list", told.stdout)
        self.assertIn('is "200.00" right? the middle price', told.stdout)
        self.assertIn(", 0 faults, 0 notices, 2 doubts", told.stdout)
        told = json.loads(run("check", self.farm, "--json").stdout)
        self.assertEqual(told["notices"], [])
        self.assertEqual([doubt["value"] for doubt in told["doubts"]],
                         ["Europe/Lissabon", "200.00"])
        self.assertEqual(told["fault_count"], 0)

    def test_a_doubtful_farm_can_be_used(self):
        self.change("tunnels.csv", b",38,", b",0,", 9)
        told = run("foresee", self.farm)
        self.assertEqual(told.returncode, 0, told.stderr)

    def test_breeders_over_the_density_are_a_fault(self):
        self.change("tanks.csv", b"breeders,1.2,", b"breeders,0.2,")
        lines = self.check()
        self.assertTrue(any("at most 25 kg/m3 in tank" in line
                            for line in lines), lines)

    def test_a_plan_without_its_tables_is_a_fault(self):
        self.write("plan.csv", b"id,from,weeks,accepted_on,seed,value,book\n"
                   b"p,2027-03-01,52,2027-03-01,1,0,x\n")
        lines = self.check()
        self.assertEqual(len(lines), 5)
        for line in lines:
            self.assertIn("expected this table of the plan accepted in "
                          "plan.csv", line)


class Unreadable(Folder):
    def test_no_folder_and_no_folder_of_that_name(self):
        told = run("check", self.path("nowhere"))
        self.assertEqual(told.returncode, 1)
        self.assertIn("there is no such folder", told.stderr)
        told = run("check", self.path("beds.csv"))
        self.assertEqual(told.returncode, 1)
        self.assertIn("is not a folder", told.stderr)

    def test_a_pipe_a_device_and_a_folder_in_place_of_a_table(self):
        for name in ("contacts.csv", "stores.csv", "readings.csv"):
            os.remove(self.path(name))
        os.mkfifo(self.path("contacts.csv"))
        os.symlink("/dev/zero", self.path("stores.csv"))
        os.mkdir(self.path("readings.csv"))
        lines = self.check()
        for name in ("contacts.csv", "stores.csv", "readings.csv"):
            self.assertIn(f"{name}: expected a table that can be read; {name} "
                          "is no plain file", lines)

    def test_a_circle_of_links(self):
        os.remove(self.path("contacts.csv"))
        os.symlink("contacts.csv", self.path("contacts.csv"))
        self.assertTrue(any(line.startswith("contacts.csv: expected a table "
                                            "that can be read")
                            for line in self.check()))

    def test_what_refers_to_an_unreadable_table_is_told_once(self):
        os.remove(self.path("beds.csv"))
        os.symlink("beds.csv", self.path("beds.csv"))
        lines = [line for line in self.check()
                 if not line.startswith(("notice: ", "doubt: "))]
        self.assertEqual(len(lines), 2, lines)
        self.assertIn("beds.csv cannot be read", lines[0])
        self.assertIn("an id of the table beds; some of its rows cannot be "
                      "read", lines[1])

    def test_the_one_fault_that_stops_a_plan_is_told_with_its_place(self):
        self.change("loops.csv", b",4,", b",four,", 1)
        told = run("jobs", self.farm)
        self.assertIn("leat: 1 fault in the farm (leat check", told.stderr)
        self.assertIn("): loops.csv line 2: expected sump_m3", told.stderr)

    def test_days_that_leave_no_room_for_a_plan_are_refused(self):
        self.change("farm.csv", b",2027-03-01,", b",2195-03-01,")
        self.assertIn('farm.csv:2:8: "2195-03-01": expected records_from: a '
                      "day from 1970 to 2190", self.check())

    def as_nobody(self, *words):
        """Runs leat as someone without rights to the folder."""
        def drop():
            if os.geteuid() == 0:
                os.setgid(65534)
                os.setuid(65534)
        return run(*words, preexec_fn=drop)

    def test_a_folder_and_a_table_without_rights(self):
        os.chmod(self.top, 0o755)
        binary = os.access(LEAT, os.X_OK) and self.as_nobody("version")
        if not binary or binary.returncode != 0:
            self.skipTest("the binary cannot be run without rights here")
        os.chmod(self.path("loops.csv"), 0)
        told = self.as_nobody("check", self.farm)
        self.assertEqual(told.returncode, 1)
        self.assertIn("loops.csv: expected a table that can be read; loops.csv "
                      "cannot be read: Permission denied", told.stdout)
        os.chmod(self.farm, 0)
        told = self.as_nobody("check", self.farm)
        os.chmod(self.farm, 0o755)
        self.assertEqual(told.returncode, 3)
        self.assertIn("cannot be read: Permission denied", told.stderr)


class New(Folder):
    def test_the_new_farm_is_the_demo(self):
        fresh = os.path.join(self.top, "fresh")
        self.assertEqual(run("new", fresh).returncode, 0)
        self.assertEqual(sorted(os.listdir(fresh)), sorted(os.listdir(DEMO)))
        for name in os.listdir(DEMO):
            with open(os.path.join(fresh, name), "rb") as mine, \
                    open(os.path.join(DEMO, name), "rb") as theirs:
                self.assertEqual(mine.read(), theirs.read(), name)

    def test_a_folder_that_holds_anything_is_refused(self):
        before = sorted(os.listdir(self.farm))
        told = run("new", self.farm)
        self.assertEqual(told.returncode, 1)
        self.assertIn("is not empty", told.stderr)
        self.assertIn("nothing was written", told.stderr)
        self.assertEqual(sorted(os.listdir(self.farm)), before)

    def test_an_empty_folder_is_taken(self):
        empty = os.path.join(self.top, "empty")
        os.mkdir(empty)
        self.assertEqual(run("new", empty).returncode, 0)

    def test_a_blank_farm_has_headers_and_examples(self):
        blank = os.path.join(self.top, "blank")
        self.assertEqual(run("new", blank, "--blank").returncode, 0)
        with open(os.path.join(blank, "loops.csv"), "rb") as table:
            self.assertEqual(table.read(), b"id,name,sump_m3,source\n")
        self.assertEqual(run("check", os.path.join(blank, "examples"))
                         .returncode, 0)
        told = run("check", blank)
        self.assertEqual(told.returncode, 1)
        self.assertIn("farm.csv: expected exactly one row", told.stdout)

    def test_a_folder_that_cannot_be_made_is_told(self):
        told = run("new", os.path.join(self.top, "a", "b"))
        self.assertEqual(told.returncode, 3)
        self.assertIn("cannot be made", told.stderr)


class Documents(unittest.TestCase):
    def test_the_page_of_the_tables_is_current(self):
        with open(os.path.join(ROOT, "docs/tables.md"), encoding="utf-8") as f:
            self.assertEqual(f.read(), run("tables").stdout,
                             "make it anew: leat tables > docs/tables.md")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=1)
