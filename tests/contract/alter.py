"""A plan changed by hand, and two plans compared, through the server.

usage: alter.py LEAT
"""
import sys
import time
import unittest

from server import Server

LEAT = sys.argv[1]


class Alter(unittest.TestCase):
    def setUp(self):
        self.server = Server(LEAT, plan=True).__enter__()
        self.addCleanup(self.server.__exit__)
        self.year = self.server.json("/api/year")
        self.batch = next(b for b in self.year["batches"]
                          if b["place"] == "floor"
                          and b["set_on"] > "2027-03-15")

    def alter(self, status=200, **question):
        got, answer = self.server.tell("POST", "/api/alter", question)
        self.assertEqual(got, status, answer)
        return answer

    def drop(self, **more):
        return {"plan": "accepted", "changes": [
            {"batch": self.batch["id"], "drop": True}], **more}

    def names(self):
        return [p["name"] for p in self.server.json("/api/plans")["plans"]]

    def test_what_is_only_tried_changes_nothing(self):
        found = self.alter(**self.drop())
        self.assertFalse(found["is_accepted"])
        self.assertEqual(found["changes"][0]["before"]["bed"],
                         self.batch["bed"])
        self.assertEqual(self.server.json("/api/year"), self.year)
        self.assertEqual(self.names(), ["accepted"])

    def test_what_is_accepted_stands_in_the_year_and_the_plan_before_is_kept(
            self):
        found = self.alter(**self.drop())
        self.assertTrue(self.alter(**self.drop(
            accept=True, mark=found["mark"]))["is_accepted"])
        now = self.server.json("/api/year")
        self.assertNotIn(self.batch["id"], [b["id"] for b in now["batches"]])
        self.assertEqual(self.names(), ["accepted", "before"])
        kept = self.server.json("/api/year?plan=before")
        self.assertIn(self.batch["id"], [b["id"] for b in kept["batches"]])
        sides = self.server.json("/api/compare")
        self.assertEqual([(b["bed"], b["units_after"])
                          for b in sides["batches"]],
                         [(self.batch["bed"], 0)])
        back = self.alter(plan="before", accept=True)
        self.assertTrue(back["is_accepted"])
        again = self.server.json("/api/year")
        self.assertEqual(sorted(b["id"] for b in again["batches"]),
                         sorted(b["id"] for b in kept["batches"]))

    def test_what_was_looked_at_in_other_tables_is_not_accepted(self):
        found = self.alter(**self.drop())
        sheet = self.server.json("/api/table?name=buyers")
        sheet["rows"][0]["name"] = "Sedge Hall"
        status, _ = self.server.tell("PUT", "/api/table?name=buyers", {
            "hash": sheet["hash"], "rows": sheet["rows"]})
        self.assertEqual(status, 200)
        answer = self.alter(409, **self.drop(accept=True, mark=found["mark"]))
        self.assertIn("look again", answer["error"]["text"])
        self.assertEqual(self.names(), ["accepted"])

    def test_a_draft_that_was_searched_is_kept_to_be_changed_and_compared(self):
        status, work = self.server.tell("POST", "/api/work", {
            "what": "plan", "weeks": 12, "moves": 8000})
        self.assertEqual(status, 202, work)
        for _ in range(600):
            state = self.server.json(f"/api/work?id={work['id']}")
            if state["state"] != "running":
                break
            time.sleep(0.1)
        self.assertEqual(state["state"], "done", state.get("error"))
        self.assertEqual(self.names(), ["accepted", "draft"])
        draft = self.server.json("/api/year?plan=draft")
        self.assertEqual(draft["change"], None)
        batch = next(b for b in draft["batches"] if b["set_on"] > "2027-03-15")
        found = self.alter(plan="draft", changes=[
            {"batch": batch["id"], "drop": True}], keep=True)
        self.assertTrue(found["is_kept"])
        self.assertEqual(self.names(), ["accepted", "draft", "changed"])
        sides = self.server.json("/api/compare?one=draft&two=changed")
        self.assertEqual(len(sides["batches"]), 1)

    def test_faults_are_told_by_their_key(self):
        for question, words in (
                ({"changes": [{"batch": "x", "weeks": "two"}]}, "weeks"),
                ({"changes": [{"batch": "x", "set_on": "2027-13-01"}]},
                 "set_on"),
                ({"changes": [{"batch": "x", "colour": 1}]}, "colour"),
                ({"changes": 4}, "changes"),
                ({"changes": [{"bed": "H1-S1"}]}, "names one of"),
                ({"plan": "best"}, "names no plan"),
                ({"accept": 1}, "accept")):
            answer = self.alter(400, **question)
            self.assertIn(words, answer["error"]["text"])
        self.alter(404, changes=[{"batch": "no-such-batch", "drop": True}])


if __name__ == "__main__":
    unittest.main(argv=[__file__])
