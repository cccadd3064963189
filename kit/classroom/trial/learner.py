"""A learner without a browser: signs in by ticket, opens lesson 00, runs its code and moves an edge, over HTTP and the kernel's websocket."""

import asyncio
import json
import time
import urllib.parse
import urllib.request
from http.cookiejar import CookieJar
from uuid import uuid4

LESSON, WAIT_S = "00-your-first-run.ipynb", 180.0


class HttpLearner:
    """One learner of the class at `origin`, such as 'http://127.0.0.1:8000'. Each step gives back what it found; a failed one raises."""

    def __init__(self, origin, number, ticket):
        self.origin, self.number, self.ticket = origin, number, ticket
        self.jar, self.pages_waited, self.kernel, self.line, self.marker = CookieJar(), 0, None, None, None
        self.opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPCookieProcessor(self.jar))

    @property
    def base(self):
        """Where this learner's server is."""
        return f"{self.origin}/user/{self.number}"

    def sign_in(self):
        """Go in by the form, wait in line as the page does, and read the lesson's page."""
        self.get("/hub/ticket")
        form = {"username": "ticket", "password": self.ticket, "_xsrf": self.cookie("_xsrf", "/hub/")}
        where, page = self.get("/hub/login", urllib.parse.urlencode(form).encode())
        until = time.monotonic() + WAIT_S
        while f"/user/{self.number}/lab" not in where:
            assert "No such ticket" not in page and time.monotonic() < until, f"{where}: {page[-400:]}"
            self.pages_waited += "/hub/spawn-pending/" in where
            time.sleep(0.2)
            where, page = self.get("/hub/spawn" if "/hub/spawn" not in where else urllib.parse.urlsplit(where).path)
        return page

    def get(self, path, data=None):
        """(where it led, the page)."""
        with self.opener.open(self.origin + path, data, timeout=WAIT_S) as reply:
            return reply.url, reply.read().decode()

    def ask(self, way, what, **content):
        """An answer of the learner's server: JSON."""
        data = json.dumps(content).encode() if content else None
        headers = {"X-XSRFToken": self.cookie("_xsrf", f"/user/{self.number}/"), "Content-Type": "application/json"}
        with self.opener.open(urllib.request.Request(f"{self.base}/{what}", data, headers, method=way), timeout=WAIT_S) as reply:
            said = reply.read()
        return json.loads(said) if said else None

    def cookie(self, name, path):
        return next((each.value for each in self.jar if each.name == name and each.path == path), "")

    def begin(self):
        """Start the lesson's Python, as its page does; the kernel's id."""
        session = self.ask("POST", "api/sessions", path=LESSON, name=LESSON, type="notebook", kernel={"name": "python3"})
        self.kernel = session["kernel"]["id"]
        return self.kernel

    async def connect(self):
        """Open the kernel's websocket."""
        from tornado.httpclient import HTTPRequest
        from tornado.websocket import websocket_connect

        address = f"{self.base.replace('http', 'ws', 1)}/api/kernels/{self.kernel}/channels?session_id={uuid4().hex}"
        cookies = "; ".join(f"{each.name}={each.value}" for each in self.jar if f"/user/{self.number}/api/".startswith(each.path))
        request = HTTPRequest(address, headers={"Cookie": cookies, "Origin": self.origin}, request_timeout=WAIT_S)
        self.line = await websocket_connect(request, max_message_size=1 << 26)

    async def send(self, kind, **content):
        """Send one message to the kernel; its id."""
        header = {"msg_id": uuid4().hex, "msg_type": kind, "username": "", "session": "learner", "version": "5.3", "date": ""}
        await self.line.write_message(json.dumps({"channel": "shell", "header": header, "parent_header": {}, "metadata": {}, "content": content}))
        return header["msg_id"]

    async def hear(self):
        """The next message of the kernel."""
        said = await asyncio.wait_for(self.line.read_message(), WAIT_S)
        assert said is not None, "the kernel's line was closed"
        # Before a message with binary parts stand their count and places, all 4 bytes long; its JSON is the first of them.
        if isinstance(said, bytes):
            count = int.from_bytes(said[:4], "big")
            places = [int.from_bytes(said[4 * each : 4 * each + 4], "big") for each in range(1, count + 1)] + [len(said)]
            said = said[places[0] : places[1]].decode()
        return json.loads(said)

    async def run(self, cells):
        """Run code cells one after the other; the lesson's marker is known from then on. AssertionError with the kernel's words if one fails."""
        for cell in cells:
            asked = await self.send("execute_request", code=cell, silent=False, store_history=True, allow_stdin=False, stop_on_error=True)
            while (message := await self.hear())["header"]["msg_type"] != "execute_reply" or message["parent_header"].get("msg_id") != asked:
                state = message["content"].get("data", {}).get("state", {}) if message["header"]["msg_type"] == "comm_open" else {}
                if "edges" in state:
                    self.marker = message["content"]["comm_id"]
            assert message["content"]["status"] == "ok", message["content"]

    async def move(self, number, edges, kind="move"):
        """Move the marker's edges (in seconds), as a hand does; (the answer, seconds until it came)."""
        asked = {"kind": kind, "number": number, "gesture": f"gesture {number}", "edges": edges}
        began = time.perf_counter()
        await self.send("comm_msg", comm_id=self.marker, data={"method": "custom", "content": asked})
        while True:
            message = await self.hear()
            answer = message["content"].get("data", {}).get("state", {}).get("answer") if message["header"]["msg_type"] == "comm_msg" else None
            if answer and answer.get("to") == number:
                return answer, time.perf_counter() - began


def code_of(lesson):
    """The lesson's code cells in order."""
    book = json.loads(lesson.read_text(encoding="utf-8"))
    return ["".join(cell["source"]) for cell in book["cells"] if cell["cell_type"] == "code"]
