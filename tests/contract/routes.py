"""Every route of `GET /api` keeps the contract: good, bad, huge and foreign
input, generated from the table, so that a new route cannot be forgotten.

usage: routes.py LEAT
"""
import hashlib
import json
import sys
import unittest
from urllib.parse import quote

from server import Server

LEAT = sys.argv[1]

# What a good question of a route needs beyond the examples of its keys: which
# of them go together. Routes that are not named are asked with no key at all.
GOOD = {
    "/api/bed": "id=H1-S1",
    "/api/compare": "one=accepted",
    "/api/fish": "tank=A",
    "/api/working": "of=tank&id=A&figure=density_kg_m3",
    "/api/table": "name=tanks",
    "/api/sum": "name=unionised-ammonia&temp_degc=24&ph=8.0&tan_mg_l=1",
    "/api/card": "power=all&at=02:10",
    "/print/card": "pump=pump-1",
    "/api/reading": "tank=A&ph=6.4&temp_degc=23&tan_mg_l=1.5",
    "/api/dose": "loop=loop-1&ph=6.2&target_ph=6.8&alkalinity_mg_l=30"
                 "&tan_mg_l=0.5&temp_degc=24",
}
TYPES = ("application/json", "text/html; charset=utf-8")
STRANGE = ["", "x" * 3000, "-1", "1e309", "nan", "2027-02-30", "\u202eA",
           "a\x00b", "\xff", "../../etc/passwd", "%s%n", "'; DROP TABLE entry",
           "<script>alert(1)</script>", "9" * 400]


# Routes that take no JSON, and where a good question finds nothing.
MEDIA = "/api/blob"


STRANGE_EACH = 3  # values for each key, in turn


class Routes(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = Server(LEAT, plan=True).__enter__()
        cls.routes = cls.server.json("/api")["routes"]

    @classmethod
    def tearDownClass(cls):
        cls.server.__exit__()

    def each(self, method="GET"):
        for route in self.routes:
            if route["method"] == method:
                with self.subTest(f"{method} {route['path']}"):
                    yield route

    def check_error(self, status, headers, body, among):
        self.assertIn(status, among, body[:300])
        self.assertEqual(headers["Content-Type"], "application/json")
        error = json.loads(body)["error"]
        self.assertTrue(error["kind"] and error["text"])

    def good(self, route):
        keys = GOOD.get(route["path"])
        return route["path"] + (f"?{keys}" if keys else "")

    def test_the_table_lists_itself_and_names_each_route_once(self):
        names = [(r["method"], r["path"]) for r in self.routes]
        self.assertIn(("GET", "/api"), names)
        self.assertEqual(len(names), len(set(names)))
        for route in self.routes:
            self.assertTrue(route["purpose"])
            self.assertIn(route["role"],
                          ("anyone", "reader", "hand", "grower", "owner"))

    def test_good_questions_are_answered(self):
        for route in self.each():
            if route["path"] == MEDIA:
                continue
            status, headers, body = self.server.get(self.good(route))
            self.assertEqual(status, 200, body[:300])
            self.assertIn(headers["Content-Type"], TYPES)
            self.assertEqual(headers["X-Content-Type-Options"], "nosniff")
            self.assertIn("default-src", headers["Content-Security-Policy"])
            self.assertEqual(headers["Referrer-Policy"], "no-referrer")
            if headers["Content-Type"] == "application/json":
                self.assertIsInstance(json.loads(body), dict)

    def test_an_answer_is_kept_in_the_language_it_was_asked_in(self):
        def said(path, wanted=None):
            status, headers, body = self.server.ask(
                "GET", path, headers={"Accept-Language": wanted})
            self.assertEqual(status, 200, body[:300])
            self.assertEqual(headers["Vary"], "Accept-Language")
            return json.loads(body)["stops"][0]["name"]

        for _ in range(2):
            self.assertEqual(said("/api/round"), "Tanks A, C")
            self.assertEqual(said("/api/round", "pt-BR,en;q=0.5"),
                             "Tanques A, C")
            self.assertEqual(said("/api/round", "de,fr;q=0.3"), "Cuves A, C")
            self.assertEqual(said("/api/round", "de"), "Tanks A, C")
            self.assertEqual(said("/api/round?language=pt", "fr"),
                             "Tanques A, C")
        answer = self.server.get("/api/round?language=xx")
        self.check_error(*answer, (400,))
        status, _, page = self.server.get("/print/round?language=ar")
        self.assertIn(b'<html lang="ar" dir="rtl">', page)

    def test_a_picture_comes_back_as_it_went(self):
        picture = bytes(range(256)) * 40
        status, headers, body = self.server.ask(
            "POST", MEDIA, picture, {"Content-Type": "image/jpeg"})
        self.assertEqual(status, 201, body)
        sha256 = json.loads(body)["sha256"]
        self.assertEqual(sha256, hashlib.sha256(picture).hexdigest())
        status, headers, body = self.server.get(f"{MEDIA}?sha256={sha256}")
        self.assertEqual((status, headers["Content-Type"], body),
                         (200, "image/jpeg", picture))
        self.assertEqual(headers["X-Content-Type-Options"], "nosniff")
        for kind in ("text/html", "image/svg+xml", "application/json", ""):
            answer = self.server.ask("POST", MEDIA, picture,
                                     {"Content-Type": kind})
            self.check_error(*answer, (415,))

    def test_an_unchanged_answer_is_not_sent_twice(self):
        for route in self.each():
            _, headers, _ = self.server.get(self.good(route))
            if "ETag" not in headers:
                continue
            status, _, body = self.server.get(
                self.good(route), headers={"If-None-Match": headers["ETag"]})
            self.assertIn(status, (304, 200))
            self.assertEqual(body == b"", status == 304)

    def test_unknown_keys_are_refused_by_name(self):
        for route in self.each():
            if route["any_key"]:
                continue
            answer = self.server.get(route["path"] + "?no-such-key=1")
            self.check_error(*answer, (400,))
            self.assertIn(b"no-such-key", answer[2])

    def test_a_key_asked_twice_is_refused(self):
        for route in self.each():
            for key in route["keys"]:
                pair = f"{key['name']}={quote(key['example'])}"
                self.check_error(*self.server.get(
                    f"{route['path']}?{pair}&{pair}"), (400,))

    def test_needed_keys_are_asked_for(self):
        for route in self.each():
            for key in route["keys"]:
                if key["needed"]:
                    answer = self.server.get(route["path"])
                    self.check_error(*answer, (400,))
                    self.assertIn(key["name"].encode(), answer[2])

    def test_strange_values_harm_nothing(self):
        turn = 0
        for route in self.each():
            for key in route["keys"]:
                for _ in range(STRANGE_EACH):
                    value = STRANGE[turn % len(STRANGE)]
                    turn += 1
                    status, headers, body = self.server.get(
                        f"{route['path']}?{key['name']}="
                        f"{quote(value, encoding='latin-1', errors='replace')}")
                    self.assertIn(status, (200, 400, 404, 431), body[:300])
                    if status != 431:
                        self.assertIn(headers["Content-Type"], TYPES)

    def test_foreign_methods_are_refused(self):
        for route in self.each():
            taken = {r["method"] for r in self.routes
                     if r["path"] == route["path"]}
            for method in {"POST", "PUT", "DELETE", "PATCH"} - taken:
                answer = self.server.ask(method, route["path"], b"{}")
                self.check_error(*answer, (400,))

    def test_bodies_that_are_no_json_are_refused(self):
        for method in ("POST", "PUT"):
            for route in self.each(method):
                if route["path"] == MEDIA:
                    continue
                for body in (b"", b"{", b"[]", b"null", b"\xff\xfe", b"[" * 9000,
                             b'{"a":1e999}', b'{"entries":[{"kind":7}]}'):
                    answer = self.server.ask(method, self.good(route), body)
                    self.check_error(*answer, (400, 404, 409, 413))

    def test_bodies_beyond_the_limit_are_refused(self):
        for method in ("POST", "PUT"):
            for route in self.each(method):
                most = route["body_max_bytes"]
                answer = self.server.ask(
                    method, route["path"], None,
                    {"Content-Type": "application/json",
                     "Content-Length": str(most + 1)})
                self.check_error(*answer, (413,))

    def test_a_body_that_is_no_json_by_its_type_is_refused(self):
        for method in ("POST", "PUT"):
            for route in self.each(method):
                answer = self.server.ask(method, route["path"], b"a=1", {
                    "Content-Type": "application/x-www-form-urlencoded"})
                self.check_error(*answer, (415,))

    def test_a_foreign_host_or_page_is_refused(self):
        for host in ("example.org", "localhost", "localhost:1", "127.0.0.1",
                     f"127.0.0.1.example.org:{self.server.port}",
                     f"localhost:{self.server.port}.example.org", None):
            status, _, _ = self.server.get("/api/farm", headers={"Host": host})
            self.assertEqual(status, 400, host)
        for origin in ("http://example.org", "null", "https://localhost",
                       f"https://localhost:{self.server.port}"):
            status, _, _ = self.server.get("/api/farm",
                                           headers={"Origin": origin})
            self.assertEqual(status, 403, origin)
        own = f"http://localhost:{self.server.port}"
        status, _, _ = self.server.get("/api/farm", headers={"Origin": own})
        self.assertEqual(status, 200)

    def test_no_path_leads_out_of_the_pages(self):
        for path in ("/../../etc/passwd", "/..%2f..%2fetc%2fpasswd",
                     "/%2e%2e/farm.csv", "/farm.csv", "/leat.db", "//etc/passwd",
                     "/index.html.gz", "/api/../farm.csv", "/api/%00"):
            status, _, body = self.server.get(path)
            self.assertIn(status, (400, 404), path)
            self.assertNotIn(b"root:", body)

    def test_the_first_page_is_there(self):
        status, headers, body = self.server.get("/")
        self.assertEqual(status, 200)
        self.assertEqual(headers["Content-Type"], "text/html; charset=utf-8")
        self.assertIn("default-src 'self'", headers["Content-Security-Policy"])
        self.assertIn(b"<title>", body)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
