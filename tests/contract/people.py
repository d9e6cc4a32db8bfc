"""On other devices: who may come, what each may do, TLS by the farm's own
authority.

usage: people.py LEAT
"""
import http.client
import json
import os
import shutil
import ssl
import stat
import sys
import unittest

from server import Server, free_port

LEAT = sys.argv[1]
WORDS = {"Ana": ("owner", "reed rain copper moss"),
         "Ivo": ("grower", "seven lambs in June"),
         "Bea": ("hand", "boots by the door"),
         "Noe": ("reader", "only looking around")}


class LanServer(Server):
    def __init__(self, leat):
        super().__init__(leat, "--lan")
        self.cookies = {}

    def start(self):
        for name, (role, words) in WORDS.items():
            told = self.run("people", self.farm, "add", f"name={name}",
                            f"role={role}", input=words + "\n")
            assert told.returncode == 0, told.stderr
        super().start()
        self.trust = ssl.create_default_context(
            cafile=os.path.join(self.farm, ".leat-tls", "authority.crt"))

    def ask(self, method, path, body=None, headers=None, timeout=60):
        link = http.client.HTTPSConnection("localhost", self.port,
                                           context=self.trust,
                                           timeout=timeout)
        try:
            sent = dict(headers or {})
            if body is not None:
                sent.setdefault("Content-Type", "application/json")
            link.request(method, path, body, sent)
            answer = link.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            link.close()

    def login(self, name, words=None):
        """(status, headers of the session)"""
        status, headers, _ = self.ask("POST", "/api/login", json.dumps(
            {"name": name, "passphrase": words or WORDS[name][1]}).encode())
        cookie = headers.get("Set-Cookie", "").split(";")[0]
        return status, {"Cookie": cookie}, headers


class People(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = LanServer(LEAT).__enter__()
        cls.sessions = {name: cls.server.login(name)[1] for name in WORDS}
        cls.routes = json.loads(cls.server.ask("GET", "/api")[2])["routes"]

    @classmethod
    def tearDownClass(cls):
        cls.server.__exit__()

    def test_each_role_may_what_the_table_says_and_no_more(self):
        order = ["anyone", "reader", "hand", "grower", "owner"]
        for route in self.routes:
            for name, (role, _) in [*WORDS.items(), (None, ("anyone", ""))]:
                if route["path"] in ("/api/login", "/api/logout"):
                    continue
                may = order.index(role) >= order.index(route["role"])
                body = None if route["method"] in ("GET", "DELETE") else b"["
                status, _, _ = self.server.ask(
                    route["method"], route["path"] + "?no-such-key=1", body,
                    self.sessions.get(name, {}) |
                    {"Content-Type": "application/json"})
                with self.subTest(f"{route['method']} {route['path']} {role}"):
                    if may:
                        self.assertNotIn(status, (401, 403))
                    else:
                        self.assertEqual(status, 401 if name is None else 403)

    def test_the_card_and_the_pages_need_no_login(self):
        for path in ("/", "/api/card?power=all", "/api/emergency",
                     "/print/card?power=all", "/api/me"):
            self.assertEqual(self.server.ask("GET", path)[0], 200, path)
        self.assertTrue(json.loads(
            self.server.ask("GET", "/api/me")[2])["needs_login"])

    def test_a_session_knows_its_person(self):
        for name, (role, _) in WORDS.items():
            me = json.loads(self.server.ask("GET", "/api/me", None,
                                            self.sessions[name])[2])
            self.assertEqual((me["name"], me["role"], me["needs_login"]),
                             (name, role, False))

    def test_the_cookie_is_out_of_reach_of_scripts_and_other_places(self):
        _, _, headers = self.server.login("Bea")
        for word in ("__Host-leat=", "Secure", "HttpOnly", "SameSite=Strict",
                     "Path=/"):
            self.assertIn(word, headers["Set-Cookie"])

    def test_a_logout_ends_the_session_for_good(self):
        _, session, _ = self.server.login("Bea")
        self.assertEqual(self.server.ask("GET", "/api/farm", None,
                                         session)[0], 200)
        status, headers, _ = self.server.ask("POST", "/api/logout", b"{}",
                                             session)
        self.assertEqual(status, 200)
        self.assertIn("Max-Age=0", headers["Set-Cookie"])
        self.assertEqual(self.server.ask("GET", "/api/farm", None,
                                         session)[0], 401)

    def test_language_and_units_stay_with_the_person(self):
        status, _, _ = self.server.ask(
            "POST", "/api/me", b'{"language":"pt","units":"us"}',
            self.sessions["Ivo"])
        self.assertEqual(status, 200)
        _, session, _ = self.server.login("Ivo")
        me = json.loads(self.server.ask("GET", "/api/me", None, session)[2])
        self.assertEqual((me["language"], me["units"]), ("pt", "us"))

    def test_one_who_left_is_out(self):
        told = self.server.run("people", self.server.farm, "add", "name=Gil",
                               "role=hand", input="a summer's help\n")
        self.assertEqual(told.returncode, 0, told.stderr)
        status, session, _ = self.server.login("Gil", "a summer's help")
        self.assertEqual(status, 200)
        self.server.run("people", self.server.farm, "leave", "name=Gil")
        self.assertEqual(self.server.login("Gil", "a summer's help")[0], 401)
        del session

    def test_tokens_that_are_made_up_are_nobodys(self):
        for token in ("", "x", "0" * 64, "' OR 1=1", "0" * 4000):
            status, _, _ = self.server.ask(
                "GET", "/api/farm", None, {"Cookie": f"__Host-leat={token}"})
            self.assertIn(status, (401, 429))

    def test_another_authority_is_not_believed(self):
        with self.assertRaises(ssl.SSLError):
            link = http.client.HTTPSConnection(
                "localhost", self.server.port,
                context=ssl.create_default_context())
            link.request("GET", "/")

    def test_plain_http_gets_the_certificate_and_nothing_else(self):
        link = http.client.HTTPConnection("127.0.0.1", self.server.port + 1)
        link.request("GET", "/leat-authority.crt")
        answer = link.getresponse()
        self.assertEqual(answer.status, 200)
        self.assertIn(b"BEGIN CERTIFICATE", answer.read())
        for path in ("/api/farm", "/authority.key", "/../.leat-tls/x"):
            link.request("GET", path)
            answer = link.getresponse()
            self.assertEqual(answer.status, 404, path)
            answer.read()
        link.close()

    def test_the_authoritys_key_is_its_owners_alone(self):
        path = os.path.join(self.server.farm, ".leat-tls", "authority.key")
        self.assertEqual(stat.S_IMODE(os.stat(path).st_mode), 0o600)

    def test_passphrases_are_not_in_the_store(self):
        with open(os.path.join(self.server.farm, "leat.db"), "rb") as file:
            stored = file.read()
        for _, words in WORDS.values():
            self.assertNotIn(words.encode(), stored)
        for session in self.sessions.values():
            self.assertNotIn(session["Cookie"].split("=")[1].encode(), stored)


class Limits(unittest.TestCase):
    def closed_server(self):
        server = Server(LEAT)
        self.addCleanup(shutil.rmtree, server.folder)
        self.assertEqual(server.run("new", server.farm).returncode, 0)
        return server

    def test_guessing_is_slowed_down(self):
        with LanServer(LEAT) as server:
            statuses = [server.login("Ana", f"a guess number {n}")[0]
                        for n in range(14)]
            self.assertEqual(statuses[:9], [401] * 9)
            self.assertIn(429, statuses)

    def test_without_people_it_does_not_open_for_others(self):
        server = self.closed_server()
        told = server.run("open", server.farm, "--lan", "--port",
                          str(free_port()))
        self.assertEqual(told.returncode, 1)
        self.assertIn("leat people", told.stderr)

    def test_a_given_certificate_must_be_one(self):
        server = self.closed_server()
        server.run("people", server.farm, "add", "name=Ana", "role=owner",
                   input=WORDS["Ana"][1] + "\n")
        path = os.path.join(server.folder, "no.pem")
        with open(path, "w", encoding="ascii") as file:
            file.write("nothing\n")
        told = server.run("open", server.farm, "--lan", "--cert", path,
                          "--key", path, "--port", str(free_port()))
        self.assertEqual(told.returncode, 1)
        self.assertIn("certificate", told.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
