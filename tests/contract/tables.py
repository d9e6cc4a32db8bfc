"""Tables by forms: the checks of `leat check`, two writers, a kill in between.

usage: tables.py LEAT
"""
import json
import os
import signal
import subprocess
import sys
import threading
import unittest

from server import Server

LEAT = sys.argv[1]


class Tables(unittest.TestCase):
    def setUp(self):
        self.server = Server(LEAT).__enter__()
        self.addCleanup(self.server.__exit__)

    def table(self, name):
        return self.server.json(f"/api/table?name={name}")

    def put(self, name, sheet, rows=None):
        return self.server.tell("PUT", f"/api/table?name={name}", {
            "hash": sheet["hash"],
            "rows": sheet["rows"] if rows is None else rows})

    def test_every_table_of_the_list_can_be_read_and_written_back(self):
        for line in self.server.json("/api/tables")["tables"]:
            sheet = self.table(line["name"])
            self.assertEqual(len(sheet["rows"]), line["rows"])
            names = [field["name"] for field in sheet["fields"]]
            for row in sheet["rows"]:
                self.assertLessEqual(set(row), set(names))
            if line["name"].startswith("plan"):
                continue
            status, answer = self.put(line["name"], sheet)
            self.assertEqual(status, 200, (line["name"], answer))
            again = self.table(line["name"])
            self.assertEqual(len(again["rows"]), len(sheet["rows"]))
        told = self.server.run("check", self.server.farm, "--json")
        self.assertEqual(json.loads(told.stdout)["fault_count"], 0)

    def test_a_changed_cell_is_in_the_file(self):
        sheet = self.table("tanks")
        sheet["rows"][0]["volume_m3"] = 13.75
        status, answer = self.put("tanks", sheet)
        self.assertEqual(status, 200, answer)
        with open(os.path.join(self.server.farm, "tanks.csv"),
                  encoding="utf-8") as file:
            self.assertIn("13.75", file.read())
        self.assertEqual(self.table("tanks")["hash"], answer["hash"])
        told = self.server.json("/api/journal?kind=table")["entries"]
        self.assertEqual(len(told), 1)
        self.assertIn("volume_m3", told[0]["text"])
        self.assertIn("-> 13.75", told[0]["text"])

    def test_a_fault_is_told_with_row_and_field_and_nothing_is_written(self):
        sheet = self.table("tanks")
        rows = [dict(row) for row in sheet["rows"]]
        rows[1]["volume_m3"] = "plenty"
        status, answer = self.put("tanks", sheet, rows)
        self.assertEqual(status, 400)
        fault = answer["faults"][0]
        self.assertEqual((fault["row"], fault["column"], fault["value"]),
                         (1, "volume_m3", "plenty"))
        self.assertEqual(self.table("tanks"), sheet)

    def test_a_row_that_others_name_cannot_go(self):
        sheet = self.table("tunnels")
        status, answer = self.put("tunnels", sheet, sheet["rows"][1:])
        self.assertEqual(status, 400)
        self.assertIn("beds.csv", [f["file"] for f in answer["faults"]])
        self.assertEqual(self.table("tunnels"), sheet)

    def test_two_writers_both_keep_their_words(self):
        sheet = self.table("buyers")
        mine = [dict(row) for row in sheet["rows"]]
        theirs = [dict(row) for row in sheet["rows"]]
        mine[0]["name"] = "Reed and Sons"
        theirs[0]["name"] = "Alder Kitchen"
        self.assertEqual(self.put("buyers", sheet, theirs)[0], 200)
        status, answer = self.put("buyers", sheet, mine)
        self.assertEqual(status, 409)
        self.assertEqual(answer["theirs"]["rows"][0]["name"], "Alder Kitchen")
        self.assertEqual(answer["yours"]["rows"][0]["name"], "Reed and Sons")
        status, _ = self.put("buyers", answer["theirs"], mine)
        self.assertEqual(status, 200)

    def test_of_many_writers_at_once_exactly_one_wins(self):
        sheet = self.table("buyers")
        outcomes = []

        def write(number):
            rows = [dict(row) for row in sheet["rows"]]
            rows[0]["name"] = f"Buyer {number}"
            outcomes.append(self.put("buyers", sheet, rows)[0])

        crowd = [threading.Thread(target=write, args=(n,)) for n in range(8)]
        for one in crowd:
            one.start()
        for one in crowd:
            one.join()
        self.assertEqual(outcomes.count(200), 1, outcomes)
        self.assertLessEqual(set(outcomes), {200, 409, 503})

    def test_a_sound_farm_lacks_something_only_where_that_is_said(self):
        sheet = self.table("products")
        rows = [*sheet["rows"], {"id": "sorrel", "unit": "bunch"}]
        status, answer = self.put("products", sheet, rows)
        self.assertEqual(status, 400)
        self.assertTrue(answer["faults"])
        status, answer = self.server.tell(
            "PUT", "/api/table?name=products",
            {"hash": sheet["hash"], "rows": rows, "may_lack": True})
        self.assertEqual(status, 200)
        self.assertTrue(answer["faults"])

    def test_plan_tables_cannot_be_typed(self):
        status, _ = self.server.tell("PUT", "/api/table?name=plan",
                                     {"hash": "none", "rows": []})
        self.assertEqual(status, 400)

    def test_bad_sheets_are_refused(self):
        for value in ({}, {"hash": 1, "rows": []}, {"hash": "x", "rows": {}},
                      {"hash": "x", "rows": [1]},
                      {"hash": "x", "rows": [{"no-such": 1}]},
                      {"hash": "x", "rows": [{"id": ["a"]}]},
                      {"hash": "x", "rows": [{"id": "a\nb"}]}):
            status, answer = self.server.tell("PUT", "/api/table?name=tanks",
                                              value)
            self.assertEqual(status, 400, value)
            self.assertIn("error", answer)

    def test_a_kill_while_writing_leaves_the_old_table_or_the_new(self):
        sheet = self.table("buyers")
        names = {sheet["rows"][0]["name"]}
        for turn in range(13):
            current = self.table("buyers")
            rows = [dict(row) for row in current["rows"]]
            rows[0]["name"] = f"Buyer {turn}"
            names.add(rows[0]["name"])
            body = json.dumps({"hash": current["hash"], "rows": rows}).encode()

            def write(body=body):
                try:
                    self.server.ask("PUT", "/api/table?name=buyers", body)
                except OSError:
                    pass

            writer = threading.Thread(target=write)
            writer.start()
            subprocess.run(["sleep", str(0.001 * (turn % 13))], check=True)
            self.server.process.send_signal(signal.SIGKILL)
            self.server.process.wait()
            writer.join()
            self.server.process.stdout.close()
            self.server.process.stderr.close()
            self.server.start()
            after = self.table("buyers")
            self.assertEqual(len(after["rows"]), len(sheet["rows"]))
            self.assertIn(after["rows"][0]["name"], names)
        told = self.server.run("check", self.server.farm)
        self.assertEqual(told.returncode, 0, told.stdout)


class Blank(unittest.TestCase):
    def test_a_farm_is_set_up_from_blank_table_by_table(self):
        with Server(LEAT) as full, Server(LEAT) as server:
            blank = os.path.join(server.folder, "blank")
            self.assertEqual(server.run("new", blank, "--blank").returncode, 0)
            server.stop()
            server.process.stdout.close()
            server.process.stderr.close()
            server.farm = blank
            server.start()
            self.assertGreater(server.json("/api/farm")["fault_count"], 0)
            for line in full.json("/api/tables")["tables"]:
                if line["name"].startswith("plan") or not line["rows"]:
                    continue
                name = line["name"]
                given = full.json(f"/api/table?name={name}")
                now = server.json(f"/api/table?name={name}")
                status, answer = server.tell("PUT", f"/api/table?name={name}", {
                    "hash": now["hash"], "rows": given["rows"],
                    "may_lack": True})
                self.assertEqual(status, 200, (name, answer))
            self.assertEqual(server.json("/api/farm")["fault_count"], 0)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
