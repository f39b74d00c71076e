#!/usr/bin/env python3
"""Receives webhooks, and reads on from the change feed whenever it is told that something changed.

    python3 docs/samples/webhook_receiver.py LOCATION [PORT]

LOCATION is the address of a location, for the demo http://127.0.0.1:5080/locations/demo/larch-hollow. Python 3.8 and nothing
else. Environment: REPROLINK_KEY, the key to call the service with (the demo needs none); CLOCK_TOLERANCE, the most seconds a
message may be old or early (usually 300; more for a demo whose clock is set). Ctrl-C, or
being told to end, deletes the webhook and ends it.
"""
import base64
import hashlib
import hmac
import json
import os
import queue
import signal
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

TOLERANCE = int(os.environ.get("CLOCK_TOLERANCE", "300"))
told = queue.Queue()
seen = set()  # A real receiver keeps these, and its cursor, in its database.


def call(method, address, body=None):
    """Calls the service; the answer as JSON."""
    request = urllib.request.Request(address, method=method, data=None if body is None else json.dumps(body).encode())
    request.add_header("Content-Type", "application/json")
    if os.environ.get("REPROLINK_KEY"):
        request.add_header("Authorization", "Bearer " + os.environ["REPROLINK_KEY"])
    with urllib.request.urlopen(request) as answer:
        text = answer.read()
    return json.loads(text) if text else None


def is_genuine(headers, body, secret):
    """Whether a message was signed with the secret, lately. The signature is over the body as it came: verify before parsing."""
    message, at = headers.get("webhook-id", ""), headers.get("webhook-timestamp", "")
    if not at.isdigit() or abs(time.time() - int(at)) > TOLERANCE:
        return False
    key = base64.b64decode(secret[len("whsec_"):])
    wanted = "v1," + base64.b64encode(hmac.new(key, f"{message}.{at}.".encode() + body, hashlib.sha256).digest()).decode()
    # While a secret is replaced there are several: one that fits is enough.
    return any(hmac.compare_digest(wanted, signature) for signature in headers.get("webhook-signature", "").split(" "))


def handler(secret):
    class Handler(BaseHTTPRequestHandler):
        def do_POST(self):
            body = self.rfile.read(int(self.headers.get("Content-Length", "0")))
            genuine = is_genuine(self.headers, body, secret())
            if genuine and self.headers["webhook-id"] not in seen:
                seen.add(self.headers["webhook-id"])
                told.put(json.loads(body))
            # Answered at once; the work is done by the other thread.
            self.send_response(204 if genuine else 401)
            self.end_headers()

        def log_message(self, *_):
            pass

    return Handler


def read_on(location, cursor, quiet=False):
    """Reads every change after a cursor; the cursor to read on from next time."""
    while True:
        page = call("GET", location + "/changes?limit=1000" + ("&after=" + urllib.parse.quote(cursor) if cursor else ""))
        for change in page["changes"] if not quiet else []:
            subject = change.get("fact", {}).get("factId") or change.get("factId") or change.get("heldId") or change.get("number", "")
            print("change", change["kind"], change.get("animal", "-"), subject, flush=True)
        if not page["changes"]:
            return cursor
        cursor = page["next"]


def main():
    location, port = sys.argv[1].rstrip("/"), int(sys.argv[2]) if len(sys.argv) > 2 else 0
    made = {}
    # Also where whoever started it lets Ctrl-C pass, as a script does for what it starts in the background.
    for wish in (signal.SIGINT, signal.SIGTERM):
        signal.signal(wish, signal.default_int_handler)
    server = ThreadingHTTPServer(("127.0.0.1", port), handler(lambda: made["secret"]))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    cursor = read_on(location, "", quiet=True)  # A real receiver keeps what it reads.
    made.update(call("POST", location + "/webhooks", {"url": f"http://127.0.0.1:{server.server_port}/", "name": "sample receiver"}))
    # What changed between the two is told by neither: read once more.
    cursor = read_on(location, cursor)
    address = f"{location}/webhooks/{made['webhook']}"
    try:
        call("POST", address + "/ping", {})
        print("told at port", server.server_port, flush=True)
        while True:
            message = told.get()
            print("message", message["type"], json.dumps(message["data"].get("counts", {})), flush=True)
            cursor = read_on(location, cursor)
    except KeyboardInterrupt:
        call("DELETE", address)


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    try:
        main()
    except urllib.error.HTTPError as refused:
        sys.exit(refused.read().decode())
