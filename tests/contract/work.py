"""Plans, orders asked about and many years, worked out while the server goes
on: progress, stop, acceptance, limits.

usage: work.py LEAT [short]
"""
import json
import os
import signal
import sys
import time
import unittest

from loop import children_of, is_alive
from server import Server

LEAT = sys.argv[1]
long = unittest.skipIf("short" in sys.argv[2:], "in the long run")
SHORT = {"what": "plan", "weeks": 12, "moves": 8000}
LONG = {"what": "plan", "weeks": 26, "moves": 3 * 10 ** 6}


class Work(unittest.TestCase):
    def setUp(self):
        self.server = Server(LEAT, plan=True).__enter__()
        self.addCleanup(self.server.__exit__)

    def begin(self, question):
        status, answer = self.server.tell("POST", "/api/work", question)
        self.assertEqual(status, 202, answer)
        return answer["id"]

    def state(self, work):
        return self.server.json(f"/api/work?id={work}")

    def wait(self, work, until=lambda s: s["state"] in ("done", "failed"),
             seconds=60):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            state = self.state(work)
            if until(state):
                return state
            time.sleep(0.05)
        self.fail(f"still {state['state']}")
        return None

    def accept(self, work):
        return self.server.tell("POST", "/api/plan/accept", {"id": work})

    def stop(self, work):
        status, _, body = self.server.ask("DELETE", f"/api/work?id={work}")
        self.assertEqual(status, 200, body)

    def test_a_plan_is_found_and_accepted_as_it_was_shown(self):
        work = self.begin(SHORT)
        found = self.wait(work)
        self.assertEqual(found["state"], "done", found.get("error"))
        self.assertEqual(found["answer"]["weeks"], 12)
        status, answer = self.accept(work)
        self.assertEqual(status, 200, answer)
        shown = self.server.json("/api/year")
        self.assertAlmostEqual(shown["value"], found["answer"]["value"],
                               delta=1.0)
        self.assertEqual(len(shown["batches"]), len(found["answer"]["batches"]))
        self.assertEqual(self.state(work)["state"], "accepted")
        self.assertEqual(self.accept(work)[0], 409)

    @long
    def test_a_plan_of_other_tables_is_not_accepted(self):
        work = self.begin(SHORT)
        self.wait(work)
        sheet = self.server.json("/api/table?name=buyers")
        sheet["rows"][0]["name"] = "Sedge Hall"
        status, _ = self.server.tell("PUT", "/api/table?name=buyers", {
            "hash": sheet["hash"], "rows": sheet["rows"]})
        self.assertEqual(status, 200)
        status, answer = self.accept(work)
        self.assertEqual(status, 409)
        self.assertIn("plan again", answer["error"]["text"])

    def test_progress_is_told_and_a_stop_gives_the_best_so_far(self):
        work = self.begin(LONG)
        moving = self.wait(work, lambda s: (s["progress"] or 0) >= 0 and
                           s["value"] is not None)
        self.assertEqual(moving["state"], "running")
        self.stop(work)
        stopped = self.wait(work)
        self.assertEqual(stopped["state"], "done", stopped.get("error"))
        self.assertGreater(len(stopped["answer"]["batches"]), 0)

    @long
    def test_pages_are_answered_while_it_works(self):
        works = [self.begin(LONG), self.begin(LONG)]
        self.server.json("/api/farm")
        slowest = 0.0
        for _ in range(50):
            began = time.monotonic()
            self.server.json("/api/farm")
            slowest = max(slowest, time.monotonic() - began)
        self.assertLess(slowest, 1.0)
        status, answer = self.server.tell("POST", "/api/work", SHORT)
        self.assertEqual(status, 503, answer)
        for work in works:
            self.stop(work)

    @long
    def test_an_order_is_asked_about(self):
        work = self.begin({"what": "can", "product": "head-lettuce",
                           "buyer": "stall", "quantity": 3,
                           "from": "2027-05-03", "moves": 8000})
        found = self.wait(work)
        self.assertEqual(found["state"], "done", found.get("error"))
        self.assertIn(found["answer"]["answer"], ("yes", "yes-if", "no"))

    @long
    def test_many_years_are_run(self):
        work = self.begin({"what": "years", "years": 2, "weeks": 4})
        found = self.wait(work)
        self.assertEqual(found["state"], "done", found.get("error"))
        self.assertIsInstance(found["answer"], dict)

    def test_what_cannot_be_worked_out_says_why(self):
        work = self.begin({"what": "can", "product": "no-such", "buyer": "stall",
                           "quantity": 3, "from": "2027-05-03"})
        failed = self.wait(work)
        self.assertEqual(failed["state"], "failed")
        self.assertIn("no-such", failed["error"]["text"])

    def test_bad_questions_and_unknown_works_are_refused(self):
        for question in ({}, {"what": "dance"}, {"what": "plan", "weeks": 3},
                         {"what": "plan", "weeks": "many"}, {"what": "can"},
                         {"what": "plan", "anew": 1},
                         {"what": "plan", "anew": True, "keep_weeks": 2},
                         {"what": "years", "years": 0}):
            status, _ = self.server.tell("POST", "/api/work", question)
            self.assertEqual(status, 400, question)
        for method in ("GET", "DELETE"):
            self.assertEqual(
                self.server.ask(method, "/api/work?id=none")[0], 404)
        self.assertEqual(self.accept("none")[0], 404)

    @long
    def test_children_and_theirs_die_with_the_server(self):
        work = self.begin(LONG)
        self.wait(work, lambda s: s["value"] is not None)
        children = children_of(self.server.process.pid)
        self.assertGreater(len(children), 1)
        self.server.process.send_signal(signal.SIGKILL)
        self.server.process.wait()
        time.sleep(0.5)
        self.assertFalse([c for c in children if is_alive(c)])
        self.server.process.stdout.close()
        self.server.process.stderr.close()
        self.server.start()

    @long
    def test_a_worker_that_is_killed_is_told(self):
        work = self.begin(LONG)
        self.wait(work, lambda s: s["value"] is not None)
        for child in children_of(self.server.process.pid):
            os.kill(child, signal.SIGKILL)
        self.assertEqual(self.wait(work)["state"], "failed")
        self.assertEqual(json.loads(self.server.get("/api/work")[2])
                         ["works"][0]["state"], "failed")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
