"""Requests that nobody should send to the page in the browser, sent over a socket of our own.

What is expected: RFC 9110 (status codes), RFC 6265bis (SameSite, HttpOnly), the Fetch standard (Origin,
Sec-Fetch-Site) and Content Security Policy level 3.
"""
import http.client
import json
import os
import pathlib
import re
import shutil
import signal
import socket
import subprocess
import tempfile
import threading
import time
import unittest

PROGRAM = os.environ["OUTSIDE_PROGRAM"]
SAMPLE = pathlib.Path(__file__).resolve().parents[2] / "samples" / "five-minute" / "project.xml"


class LocalPage:
    """The program serving one folder, and the browser that was let in."""

    def __init__(self, folder):
        self.process = subprocess.Popen([PROGRAM, "open", str(folder), "--no-browser"], stdin=subprocess.DEVNULL,
                                        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        address = self.process.stdout.readline().strip()
        found = re.fullmatch(r"http://127\.0\.0\.1:(\d+)/\?token=([0-9a-f]{40})", address)
        assert found, address
        self.port, self.token = int(found[1]), found[2]
        self.host = f"127.0.0.1:{self.port}"
        opened = self.ask("GET", f"/?token={self.token}")
        assert opened.status == 303, opened.status
        self.set_cookie = opened.headers["Set-Cookie"]
        self.cookie = self.set_cookie.split(";")[0]

    def ask(self, method, path, body=None, headers=None):
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
        headers = {"Host": self.host, **(headers or {})}
        if body is not None:
            headers.setdefault("Content-Length", str(len(body)))
        for name, value in headers.items():
            connection.putheader(name, value)
        connection.endheaders(body)
        answer = connection.getresponse()
        answer.bytes = answer.read()
        connection.close()
        return answer

    def get(self, path, **headers):
        return self.ask("GET", path, None, {"Cookie": self.cookie, "Sec-Fetch-Site": "same-origin",
                                            **{k.replace("_", "-"): v for k, v in headers.items()}})

    def post(self, path, value, **headers):
        return self.ask("POST", path, json.dumps(value).encode(),
                        {"Cookie": self.cookie, "Origin": "http://" + self.host, "Content-Type": "application/json",
                         **{k.replace("_", "-"): v for k, v in headers.items()}})

    def project(self):
        return json.loads(self.get("/api/project").bytes)

    def card(self):
        return next(one for one in self.project()["elements"]["children"] if one["tag"] == "card")

    def end(self, by=signal.SIGTERM):
        self.process.send_signal(by)
        self.process.wait(10)
        self.process.stdout.close()


class LocalPageTest(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)
        self.file = self.folder / "project.xml"
        shutil.copy(SAMPLE, self.file)
        self.page = LocalPage(self.folder)
        self.addCleanup(lambda: self.page.end() if self.page.process.poll() is None else None)

    def change(self, title="Changed"):
        return self.page.post("/api/edit", {"edits": [{"op": "set", "key": self.page.card()["key"],
                                                       "attribute": "title", "value": title}]})

    def test_a_project_is_open_on_one_page_at_a_time(self):
        second = subprocess.run([PROGRAM, "open", str(self.file), "--no-browser"], stdin=subprocess.DEVNULL,
                                capture_output=True, text=True, timeout=30)
        self.assertEqual(second.returncode, 3)
        self.assertIn("open on another page already", second.stderr)

    def test_cookie_is_out_of_reach_of_scripts_and_other_sites(self):
        self.assertRegex(self.page.set_cookie, r"HttpOnly; SameSite=Strict; Path=/$")

    def test_token_opens_once(self):
        self.assertEqual(self.page.ask("GET", f"/?token={self.page.token}").status, 403)
        self.assertEqual(self.page.ask("GET", "/?token=" + "0" * 40).status, 403)

    def test_nothing_without_the_session(self):
        for path in ("/", "/page/main.js", "/api/project", "/api/events", "/api/file/1"):
            with self.subTest(path):
                self.assertIn(self.page.ask("GET", path).status, (401, 403))
                self.assertIn(self.page.ask("GET", path, None, {"Cookie": "leafwright=1"}).status, (401, 403))

    def test_other_hosts(self):
        for host in ("evil.example", f"evil.example:{self.page.port}", "127.0.0.1", "127.0.0.1:1",
                     f"127.0.0.1.evil.example:{self.page.port}", ""):
            with self.subTest(host):
                self.assertEqual(self.page.get("/api/project", Host=host).status, 403)

    def test_changes_from_elsewhere(self):
        before = self.file.read_bytes()
        for origin in ("http://evil.example", "null", f"http://127.0.0.1:{self.page.port + 1}", ""):
            with self.subTest(origin):
                self.assertEqual(self.page.post("/api/save", {}, Origin=origin).status, 403)
        self.assertEqual(self.page.post("/api/save", {}, Content_Type="text/plain").status, 415)
        self.assertEqual(self.page.get("/api/project", Sec_Fetch_Site="cross-site").status, 403)
        self.assertEqual(self.file.read_bytes(), before)

    def test_no_answer_lets_another_site_read_or_frame_it(self):
        for answer in (self.page.get("/api/project"), self.page.get("/nothing"), self.page.ask("GET", "/"),
                       self.page.ask("OPTIONS", "/api/edit", None, {"Cookie": self.page.cookie})):
            names = {name.lower() for name in answer.headers}
            self.assertFalse([name for name in names if name.startswith("access-control")])
            policy = answer.headers["Content-Security-Policy"]
            self.assertIn("default-src 'none'", policy)
            self.assertIn("frame-ancestors 'none'", policy)
            self.assertNotIn("unsafe", policy)
            self.assertEqual(answer.headers["X-Content-Type-Options"], "nosniff")
            self.assertEqual(answer.headers["Referrer-Policy"], "no-referrer")

    def test_no_way_out_of_the_folders(self):
        secret = self.folder.parent / (self.folder.name + "test")
        secret.mkdir()
        self.addCleanup(shutil.rmtree, secret)
        (secret / "secret.js").write_text("secret")
        (self.folder / "link.csv").symlink_to("/etc/passwd")
        for path in ("/page/../booklet.xml", "/page/..%2fbooklet.xml", "/page/%2e%2e/booklet.xml", "/page//etc/passwd",
                     "/page/fonts/../../templates/booklet.xml", "/page/fonts/OFL-Lato.txt", "/../etc/passwd", "/etc/passwd",
                     "/api/file/../../etc/passwd", "/api/file/project.xml", "/api/picture/../../x/front.svg",
                     f"/page/../../{secret.name}/secret.js", "/page/main.js%00.css", "/page/main.js?x=../../y/../z"):
            with self.subTest(path):
                answer = self.page.get(path)
                self.assertTrue(answer.status in (400, 404) or path.startswith("/page/main.js?"), answer.status)
                self.assertNotIn(b"root:x:", answer.bytes)
        project = self.page.project()
        self.page.post("/api/edit", {"edits": [{"op": "add", "parent": project["elements"]["key"], "tag": "run",
                                                "attributes": {"roster": "link.csv"}}]})
        answer = self.page.get("/api/orders")
        self.assertNotIn(b"root:x:", answer.bytes)
        self.assertEqual(json.loads(answer.bytes)["rows"], [])

    def test_huge_bodies(self):
        self.assertEqual(self.page.ask("POST", "/api/edit", b"{", {
            "Cookie": self.page.cookie, "Origin": "http://" + self.page.host, "Content-Type": "application/json",
            "Content-Length": str(10**12)}).status, 413)
        deep = "[" * 200_000
        self.assertEqual(self.page.ask("POST", "/api/edit", deep.encode(), {
            "Cookie": self.page.cookie, "Origin": "http://" + self.page.host,
            "Content-Type": "application/json"}).status, 400)
        self.assertEqual(self.page.get("/api/project", X_Long="x" * 100_000).status // 100, 4)
        self.assertEqual(self.page.get("/api/project").status, 200)

    def test_slow_bodies_do_not_keep_others_waiting(self):
        slow = []
        head = (f"POST /api/edit HTTP/1.1\r\nHost: {self.page.host}\r\nCookie: {self.page.cookie}\r\n"
                f"Origin: http://{self.page.host}\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{{")
        for _ in range(40):
            one = socket.create_connection(("127.0.0.1", self.page.port))
            one.sendall(head.encode())
            slow.append(one)
        begun = time.monotonic()
        self.assertEqual(self.page.get("/api/project").status, 200)
        self.assertLess(time.monotonic() - begun, 3)
        for one in slow:
            one.close()

    def test_ten_thousand_requests(self):
        counts = {}

        def send():
            connection = http.client.HTTPConnection("127.0.0.1", self.page.port, timeout=30)
            for _ in range(2500):
                connection.request("GET", "/api/nothing", headers={"Cookie": self.page.cookie})
                answer = connection.getresponse()
                answer.read()
                counts[answer.status] = counts.get(answer.status, 0) + 1
            connection.close()

        threads = [threading.Thread(target=send) for _ in range(4)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        self.assertEqual(set(counts) - {404, 429}, set())
        time.sleep(1.5)
        self.assertEqual(self.page.get("/api/project").status, 200)

    def test_what_is_no_request_is_refused(self):
        for text in (b"\x00\xff\r\n\r\n", b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"A" * 20_000 + b"\r\n\r\n",
                     b"GET / HTTP/1.1\r\nHost: a\r\nHost: " + self.page.host.encode() + b"\r\n\r\n"):
            with self.subTest(text[:30]), socket.create_connection(("127.0.0.1", self.page.port), timeout=10) as one:
                one.sendall(text)
                self.assertNotIn(b" 200 ", one.recv(100) or b"")
        self.assertEqual(self.page.get("/api/project").status, 200)

    def test_names_are_told_as_words_not_as_markup(self):
        self.assertEqual(self.change("<script>alert(1)</script> & \"'").status, 200)
        self.assertEqual(self.page.get("/api/project").headers["Content-Type"], "application/json; charset=utf-8")
        card = self.page.card()
        picture = self.page.get(f"/api/picture/{card['id']}/front.svg").bytes
        self.assertNotIn(b"<script>", picture)

    def test_kill_loses_nothing(self):
        before = self.file.read_bytes()
        self.assertEqual(self.change("Kept").status, 200)
        self.page.end(signal.SIGKILL)
        self.assertEqual(self.file.read_bytes(), before)
        self.page = LocalPage(self.folder)
        self.assertIn(["title", "Kept"], self.page.card()["attributes"])
        self.assertTrue(self.page.project()["unsaved"])
        self.assertEqual(self.page.post("/api/save", {}).status, 200)
        self.assertIn(b'title="Kept"', self.file.read_bytes())
        self.assertFalse(list(self.folder.glob(".*.unsaved*")))

    def test_kill_in_mid_save_leaves_one_of_both_files(self):
        whole = {self.file.read_bytes()}
        for number in range(12):
            self.assertEqual(self.change(f"Number {number}").status, 200)
            connection = http.client.HTTPConnection("127.0.0.1", self.page.port, timeout=10)
            connection.request("POST", "/api/save", b"{}", {"Cookie": self.page.cookie, "Content-Type": "application/json",
                                                            "Origin": "http://" + self.page.host})
            time.sleep(number * 0.001)
            self.page.end(signal.SIGKILL)
            connection.close()
            whole.add(re.sub(rb'(<card [^>]*title=")[^"]*', rb"\g<1>Number %d" % number, min(whole)))
            self.assertIn(self.file.read_bytes(), whole)
            self.page = LocalPage(self.folder)
            self.assertIn(["title", f"Number {number}"], self.page.card()["attributes"])

    def test_change_outside_is_told_within_a_second(self):
        connection = http.client.HTTPConnection("127.0.0.1", self.page.port, timeout=5)
        connection.request("GET", "/api/events", headers={"Cookie": self.page.cookie, "Sec-Fetch-Site": "same-origin"})
        stream = connection.getresponse()
        self.assertEqual(stream.headers["Content-Type"], "text/event-stream")
        self.assertTrue(stream.fp.readline())
        status = self.file.stat()
        self.file.write_bytes(self.file.read_bytes().replace(b"A small hello", b"A large hello"))
        os.utime(self.file, ns=(status.st_atime_ns, status.st_mtime_ns))  # by content, not by time
        begun = time.monotonic()
        while b"outside" not in stream.fp.readline():
            self.assertLess(time.monotonic() - begun, 2)
        self.assertLess(time.monotonic() - begun, 1)
        self.assertIn(["title", "A large hello"], self.page.card()["attributes"])
        connection.close()


if __name__ == "__main__":
    unittest.main()
