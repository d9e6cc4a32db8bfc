"""Nobody can stop the server for others, and it ends cleanly.

usage: loop.py LEAT
"""
import json
import os
import signal
import socket
import sys
import time
import unittest
from concurrent.futures import ThreadPoolExecutor

from server import TODAY, Server, free_port

LEAT = sys.argv[1]


def children_of(pid):
    """Process ids of all that descend from it."""
    found = []
    for name in os.listdir("/proc"):
        try:
            with open(f"/proc/{name}/stat", encoding="ascii",
                      errors="replace") as file:
                parent = int(file.read().rsplit(")", 1)[1].split()[1])
        except (OSError, ValueError):
            continue
        if parent == pid:
            found += [int(name), *children_of(int(name))]
    return found


def is_alive(pid):
    try:
        with open(f"/proc/{pid}/stat", encoding="ascii") as file:
            return file.read().rsplit(")", 1)[1].split()[0] != "Z"
    except OSError:
        return False


class Loop(unittest.TestCase):
    def test_an_answer_may_be_two_seconds_old_where_it_is_asked_for_so(self):
        with Server(LEAT, plan=True) as server:
            young = {"Cache-Control": "max-age=2"}

            def lots(headers=None):
                status, _, body = server.ask("GET", "/api/lots",
                                             headers=headers)
                self.assertEqual(status, 200)
                return len(json.loads(body)["lots"])

            self.assertEqual(lots(), 0)
            time.sleep(0.3)
            self.assertEqual(lots(), 0)  # kept now: the folder is at rest
            status, _ = server.tell("POST", "/api/journal", {"entries": [
                {"uid": "a-pick", "kind": "picked", "happened_on": TODAY,
                 "way": "chard-bunch", "place": "H2-M1", "quantity": 9,
                 "unit": "bunch"}]})
            self.assertEqual(status, 200)
            began = time.monotonic()
            old = lots(young)
            self.assertTrue(old == 0 or time.monotonic() - began > 1.5)
            # Who does not say so has it as things stand; so has he later.
            self.assertEqual(lots(), 1)
            self.assertEqual(lots({"Cache-Control": "no-cache"}), 1)
            server.tell("POST", "/api/journal", {"entries": [
                {"uid": "one-more", "kind": "picked", "happened_on": TODAY,
                 "way": "chard-bunch", "place": "H2-M2", "quantity": 4,
                 "unit": "bunch"}]})
            time.sleep(2.2)
            self.assertEqual(lots(young), 2)

    def test_a_crowd_that_dribbles_its_headers_keeps_nobody_out(self):
        with Server(LEAT) as server:
            crowd = []
            for _ in range(600):
                link = socket.create_connection(("127.0.0.1", server.port))
                link.sendall(b"GET /api/farm HTTP/1.1\r\nX-Slow: ")
                crowd.append(link)
            began = time.monotonic()
            for _ in range(20):
                server.json("/api/farm", timeout=5)
            self.assertLess(time.monotonic() - began, 5.0)
            for link in crowd:
                link.close()

    def test_a_body_that_never_comes_whole_keeps_nobody_out(self):
        with Server(LEAT) as server:
            crowd = []
            for _ in range(100):
                link = socket.create_connection(("127.0.0.1", server.port))
                link.sendall(b"POST /api/journal HTTP/1.1\r\nHost: localhost:"
                             b"%d\r\nContent-Type: application/json\r\n"
                             b"Content-Length: 50000\r\n\r\n{" % server.port)
                crowd.append(link)
            server.json("/api/farm", timeout=5)
            for link in crowd:
                link.close()

    def test_a_client_that_takes_no_answer_keeps_nobody_out(self):
        with Server(LEAT) as server:
            crowd = []
            for _ in range(50):
                link = socket.socket()
                link.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
                link.connect(("127.0.0.1", server.port))
                link.sendall(b"GET /api/foresee HTTP/1.1\r\nHost: localhost:%d"
                             b"\r\n\r\n" % server.port)
                crowd.append(link)
            began = time.monotonic()
            server.json("/api/farm", timeout=20)
            self.assertLess(time.monotonic() - began, 15.0)
            for link in crowd:
                link.close()

    def test_one_question_of_many_is_worked_out_once_for_all(self):
        with Server(LEAT) as server, ThreadPoolExecutor(16) as pool:
            answers = list(pool.map(
                lambda _: server.get("/api/carry")[2], range(32)))
            self.assertEqual(len(set(answers)), 1)

    def test_noise_is_answered_or_dropped_and_the_server_stays(self):
        with Server(LEAT) as server:
            for noise in (b"\x16\x03\x01\x02\x00\x01\x00", b"\x00" * 4096,
                          b"GET / HTTP/9.9\r\n\r\n", b"A" * 70000,
                          b"GET /api HTTP/1.1\r\n" + b"X: y\r\n" * 5000,
                          b"POST /api HTTP/1.1\r\nTransfer-Encoding: chunked"
                          b"\r\n\r\nffffffffffffffff\r\n",
                          b"POST /api HTTP/1.1\r\nContent-Length: -1\r\n\r\n"):
                with socket.create_connection(("127.0.0.1",
                                               server.port)) as link:
                    link.settimeout(1.0)
                    try:
                        link.sendall(noise)
                        link.recv(65536)
                    except OSError:
                        pass
            server.json("/api/farm", timeout=5)

    def test_an_interrupt_ends_it_and_its_children(self):
        with Server(LEAT) as server:
            server.json("/api/farm")
            children = children_of(server.process.pid)
            self.assertTrue(children)
            self.assertEqual(server.stop(), 0)
            time.sleep(0.2)
            self.assertFalse([c for c in children if is_alive(c)])

    def test_children_die_with_a_server_that_is_killed(self):
        with Server(LEAT) as server:
            server.json("/api/farm")
            children = children_of(server.process.pid)
            server.process.send_signal(signal.SIGKILL)
            server.process.wait()
            time.sleep(0.3)
            self.assertFalse([c for c in children if is_alive(c)])
            server.start()

    def test_a_helper_that_is_killed_is_replaced(self):
        with Server(LEAT) as server:
            server.json("/api/farm")
            for child in children_of(server.process.pid):
                os.kill(child, signal.SIGKILL)
            statuses = [server.get(f"/api/foresee?weeks={n}")[0]
                        for n in range(1, 9)]
            self.assertIn(200, statuses)
            self.assertEqual(statuses[-1], 200)

    def test_changed_tables_are_seen_at_once(self):
        with Server(LEAT) as server:
            before = server.json("/api/farm")["name"]
            path = os.path.join(server.farm, "farm.csv")
            with open(path, encoding="utf-8") as file:
                text = file.read()
            with open(path, "w", encoding="utf-8") as file:
                file.write(text.replace(before, "Otter Bank"))
            self.assertEqual(server.json("/api/farm")["name"], "Otter Bank")

    def test_a_port_that_is_taken_is_said_so(self):
        with Server(LEAT) as server:
            again = server.run("open", server.farm, "--port", str(server.port))
            self.assertEqual(again.returncode, 5)
            self.assertIn("is taken", again.stderr)

    def test_no_folder_no_server(self):
        told = Server(LEAT).run("open", "/nowhere", "--port", str(free_port()))
        self.assertEqual(told.returncode, 1)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
