"""Entries told through the pages: kept once, seen at once, in the teller's own
name, and never lost once acknowledged.

usage: journal.py LEAT
"""
import json
import signal
import sys
import threading
import time
import unittest
import uuid

from people import LanServer
from server import TODAY, Server

LEAT = sys.argv[1]


def note(text, **more):
    return {"uid": str(uuid.uuid4()), "kind": "seen", "happened_on": TODAY,
            "text": text, **more}


class Journal(unittest.TestCase):
    def setUp(self):
        self.server = Server(LEAT, plan=True).__enter__()
        self.addCleanup(self.server.__exit__)

    def tell(self, *entries):
        return self.server.tell("POST", "/api/journal",
                                {"entries": list(entries)})

    def texts(self):
        page = self.server.json("/api/journal?limit=5000")
        return [entry["text"] for entry in page["entries"]]

    def test_an_entry_is_seen_at_once(self):
        self.assertEqual(self.texts(), [])
        status, answer = self.tell(note("a heron at the sump", place="A"))
        self.assertEqual(status, 200, answer)
        self.assertEqual(self.texts(), ["a heron at the sump"])
        page = self.server.json("/api/journal?place=A&kind=seen")
        self.assertEqual(len(page["entries"]), 1)
        self.assertEqual(self.server.json("/api/journal?place=B")["entries"],
                         [])

    def test_told_twice_it_is_kept_once(self):
        entry = note("sent again after the tunnel")
        first = self.tell(entry)[1]["added"][0]
        again = self.tell(entry)[1]["added"][0]
        self.assertEqual(first["number"], again["number"])
        self.assertEqual(len(self.texts()), 1)

    def test_the_round_knows_what_was_told(self):
        before = self.server.json("/api/round")
        feed = next(item for stop in before["stops"] for item in stop["items"]
                    if item["kind"] == "feed")
        self.assertFalse(feed["done"])
        status, answer = self.tell(*[
            entry | {"uid": str(uuid.uuid4()), "happened_on": TODAY}
            for entry in feed["entries"]])
        self.assertEqual(status, 200, answer)
        after = self.server.json("/api/round")
        feed = next(item for stop in after["stops"] for item in stop["items"]
                    if item["id"] == feed["id"])
        self.assertTrue(feed["done"])

    def test_one_bad_entry_and_none_is_kept(self):
        status, answer = self.tell(note("good"),
                                   note("bad", place="no-such-place"))
        self.assertEqual(status, 400)
        self.assertIn("no-such-place", answer["error"]["text"])
        self.assertEqual(self.texts(), [])

    def test_two_people_at_once_both_keep_their_words(self):
        words = [f"note {n}" for n in range(40)]
        refused = []

        def send(part):
            for text in part:
                entry = note(text)
                status, answer = self.tell(entry)
                for _ in range(10):
                    if status != 503:  # busy: said again, kept once
                        break
                    time.sleep(0.2)
                    status, answer = self.tell(entry)
                if status != 200:
                    refused.append((status, answer))

        crowd = [threading.Thread(target=send, args=(words[n::4],))
                 for n in range(4)]
        for one in crowd:
            one.start()
        for one in crowd:
            one.join()
        self.assertEqual(refused, [])
        self.assertEqual(sorted(self.texts()), sorted(words))

    def test_what_was_acknowledged_survives_a_kill(self):
        acknowledged = []
        for turn in range(8):
            def send(turn=turn):
                number = 0
                while True:
                    text = f"turn {turn} note {number}"
                    try:
                        if self.tell(note(text))[0] == 200:
                            acknowledged.append(text)
                    except (OSError, ValueError):
                        return
                    number += 1

            sender = threading.Thread(target=send)
            sender.start()
            before = len(acknowledged)
            end = time.monotonic() + 20.0
            while len(acknowledged) == before and time.monotonic() < end:
                time.sleep(0.005)
            sender.join(0.013 * turn)  # .. and then amid the next
            self.server.process.send_signal(signal.SIGKILL)
            self.server.process.wait()
            sender.join()
            self.server.process.stdout.close()
            self.server.process.stderr.close()
            self.server.start()
        self.assertGreaterEqual(len(acknowledged), 8)
        self.assertLessEqual(set(acknowledged), set(self.texts()))


class Own(unittest.TestCase):
    def test_nobody_tells_in_anothers_name_and_a_hand_sees_the_own(self):
        with LanServer(LEAT) as server:
            def ask(name, method, path, value=None):
                body = None if value is None else json.dumps(value).encode()
                status, _, text = server.ask(method, path, body,
                                             sessions[name])
                return status, json.loads(text)

            sessions = {name: server.login(name)[1]
                        for name in ("Bea", "Ivo", "Noe")}
            told = {"entries": [note("gate left open", who="Ivo")]}
            self.assertEqual(ask("Bea", "POST", "/api/journal", told)[0], 200)
            told = {"entries": [note("gate shut again")]}
            status, answer = ask("Ivo", "POST", "/api/journal", told)
            self.assertEqual(status, 200)
            number = answer["added"][0]["number"]
            self.assertEqual(
                [(e["who"], e["text"]) for e in
                 ask("Bea", "GET", "/api/journal")[1]["entries"]],
                [("Bea", "gate left open")])
            self.assertEqual(
                len(ask("Ivo", "GET", "/api/journal")[1]["entries"]), 2)
            self.assertEqual(ask("Noe", "POST", "/api/journal", told)[0], 403)
            strike = {"entries": [note("mistake", kind="struck",
                                       strikes=number)]}
            self.assertEqual(ask("Bea", "POST", "/api/journal", strike)[0],
                             400)
            self.assertEqual(ask("Ivo", "POST", "/api/journal", strike)[0],
                             200)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
