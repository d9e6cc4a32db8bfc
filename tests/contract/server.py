"""A `leat open` for a test, on a port of its own, with a farm of its own."""
import atexit
import http.client
import json
import os
import shutil
import signal
import socket
import subprocess
import tempfile

TODAY = "2027-03-03"


planned = {}  # the demo farm with a plan, made once a run


def planned_farm(leat):
    """A folder to copy: planning is what takes time."""
    if leat not in planned:
        folder = tempfile.mkdtemp(prefix="leat-planned-")
        atexit.register(shutil.rmtree, folder)
        farm = os.path.join(folder, "farm")
        for words in (["new", farm],
                      ["plan", farm, "--accept", "--no-ceiling", "--moves",
                       "10000", "--weeks", "16"]):
            made = subprocess.run([leat, *words], capture_output=True,
                                  text=True, timeout=300, check=False)
            assert made.returncode == 0, made.stderr
        planned[leat] = farm
    return planned[leat]


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Server:
    """with Server(leat) as server: server.get("/api")"""

    def __init__(self, leat, *options, plan=False):
        self.leat = os.path.abspath(leat)
        self.options = options
        self.folder = tempfile.mkdtemp(prefix="leat-serve-")
        self.farm = os.path.join(self.folder, "farm")
        self.port = free_port()
        self.with_plan = plan
        self.process = None

    def run(self, *words, **more):
        return subprocess.run([self.leat, *words], capture_output=True,
                              text=True, timeout=300, **more)

    def start(self):
        """On another port where somebody took this one in the meantime."""
        for _ in range(5):
            self.process = subprocess.Popen(
                [self.leat, "open", self.farm, "--port", str(self.port),
                 "--today", TODAY, *self.options],
                stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
            self.address = self.process.stdout.readline().strip()
            if self.address:
                return
            told = self.process.communicate()[1]
            if "taken" not in told:
                break
            self.port = free_port()
        raise RuntimeError(told)

    def stop(self):
        """Ctrl-C; gives the exit code."""
        self.process.send_signal(signal.SIGINT)
        code = self.process.wait(timeout=20)
        self.process.stdout.close()
        self.process.stderr.close()
        return code

    def __enter__(self):
        if self.with_plan:
            shutil.copytree(planned_farm(self.leat), self.farm)
        else:
            made = self.run("new", self.farm)
            assert made.returncode == 0, made.stderr
        self.start()
        return self

    def __exit__(self, *error):
        if self.process.poll() is None:
            self.stop()
        self.process.stdout.close()
        self.process.stderr.close()
        shutil.rmtree(self.folder)

    def ask(self, method, path, body=None, headers=None, timeout=60):
        """(status, headers, bytes)"""
        link = http.client.HTTPConnection("127.0.0.1", self.port,
                                          timeout=timeout)
        try:
            link.putrequest(method, path, skip_host=True,
                            skip_accept_encoding=True)
            sent = {"Host": f"localhost:{self.port}"}
            if body is not None:
                sent["Content-Type"] = "application/json"
                sent["Content-Length"] = str(len(body))
            sent.update(headers or {})
            for name, value in sent.items():
                if value is not None:
                    link.putheader(name, value)
            link.endheaders(body)
            answer = link.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            link.close()

    def get(self, path, **more):
        return self.ask("GET", path, **more)

    def json(self, path, **more):
        status, _, body = self.get(path, **more)
        assert status == 200, (path, status, body[:300])
        return json.loads(body)

    def tell(self, method, path, value):
        """(status, answer) of a write."""
        status, _, body = self.ask(method, path, json.dumps(value).encode())
        return status, json.loads(body)

    def memory_kb(self):
        with open(f"/proc/{self.process.pid}/status", encoding="ascii") as file:
            for line in file:
                if line.startswith("VmRSS"):
                    return int(line.split()[1])
        return 0
