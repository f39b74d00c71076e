#!/usr/bin/env python3
"""A program that knows only the exchange standard: sends an animal, a calving, services and a blood result, reads what is concluded.

    python3 docs/samples/exchange.py [SERVICE]

SERVICE is where the service is, usually the demo at http://127.0.0.1:5080. Python 3.8 and nothing else. REPROLINK_KEY in the
environment is the key to call it with; the demo needs none. It writes into the first location it may use: try it on the demo.
"""
import json
import os
import sys
import urllib.error
import urllib.parse
import urllib.request
from datetime import datetime, timedelta, timezone

SOURCE = "org.example.sample"
COW, OTHER = ({"scheme": "us.bovine", "id": number} for number in ("840003000000001", "840003000000002"))


def call(address, body=None):
    """The answer, also that of a refusal: there it says what is wrong."""
    request = urllib.request.Request(address, data=None if body is None else json.dumps(body).encode())
    request.add_header("Accept", "application/json")
    request.add_header("Content-Type", "application/json")
    if os.environ.get("REPROLINK_KEY"):
        request.add_header("Authorization", "Bearer " + os.environ["REPROLINK_KEY"])
    try:
        with urllib.request.urlopen(request) as answer:
            return json.load(answer)
    except urllib.error.HTTPError as refused:
        return json.load(refused)


def members(address):
    """Every message of a collection, page by page."""
    while address:
        page = call(address)
        if "errors" in page:
            sys.exit(f"{address}: {told(page['errors'])}")
        yield from page["member"]
        address = page["view"].get("next")


def instant(days_ago):
    """Midnight UTC: how a day without a time is written."""
    return (datetime.now(timezone.utc) - timedelta(days=days_ago)).strftime("%Y-%m-%dT00:00:00Z")


def message(kind, source_id, animal, **own):
    return {"resourceType": kind, "meta": {"source": SOURCE, "sourceId": source_id, "modified": instant(0)}, "animal": animal, **own}


def told(messages):
    return "; ".join(m.get("instance", "") + " " + m.get("detail", m.get("title", "")) for m in messages)


def sent(noun, answer):
    """What became of a message, sent alone or in a batch."""
    if "errors" in answer:
        return f"{noun}: refused, {told(answer['errors'])}"
    if "messages" in answer and "id" not in answer:
        return f"{noun} {answer['meta']['sourceId']}: refused, {told(answer['messages'])}"
    return f"{noun} {answer['meta']['sourceId']}: stored" + (f", {told(answer['messages'])}" if "messages" in answer else "")


def conclusions(here):
    """What is concluded of the cow; other programs act on this, not on single checks."""
    hers = "?" + urllib.parse.urlencode({"animal-scheme": COW["scheme"], "animal-id": COW["id"]})
    for status in members(here + "/repro-status-observations" + hers):
        print("status:", status["observedStatus"])
    due = [gestation["expectedCalvingDate"][:10] for gestation in members(here + "/gestations" + hers)]
    print("gestation:", "due " + due[0] if due else "none")


def main(service):
    # 1. Which locations may I use?
    location = next(members(service + "/locations"))["identifier"]
    path = "/locations/" + "/".join(urllib.parse.quote(location[part], safe="") for part in ("scheme", "id"))
    here, batch = service + path, service + "/batches" + path
    print("location:", location["scheme"], location["id"])

    # 2. Her card, and a calving.
    card = message("icarAnimalCoreResource", "animal-1", None, identifier=COW, specie="Cattle", gender="Female", birthDate=instant(1500))
    del card["animal"]
    print(sent("animals", call(here + "/animals", card)))
    print(sent("parturitions", call(here + "/parturitions", message("icarReproParturitionEventResource", "calving-1", COW, eventDateTime=instant(130)))))

    # 3. Two services at once. The second lacks its type; the first is stored all the same.
    service_1 = message("icarReproInseminationEventResource", "service-1", COW, eventDateTime=instant(40), inseminationType="Insemination")
    service_2 = message("icarReproInseminationEventResource", "service-2", OTHER, eventDateTime=instant(40))
    for item in call(batch + "/inseminations", [service_1, service_2]):
        print(sent("inseminations", item))
    conclusions(here)

    # 4. A blood result, and what is concluded of her now.
    check = message("icarReproPregnancyCheckEventResource", "check-1", COW, eventDateTime=instant(2), method="Blood", result="Pregnant")
    print(sent("pregnancy-checks", call(here + "/pregnancy-checks", check)))
    conclusions(here)

    # 5. The laboratory takes it back. Whoever synchronises is told, and the conclusion goes with it.
    check["meta"]["isDeleted"] = True
    call(here + "/pregnancy-checks", check)
    for event in members(here + "/pregnancy-checks?" + urllib.parse.urlencode({"meta-modified-from": instant(1)})):
        if event["meta"]["source"] == SOURCE:
            print("check", event["meta"]["sourceId"], "is deleted" if event["meta"].get("isDeleted") else event["result"])
    conclusions(here)

    # 6. A refusal says what is allowed.
    wrong = message("icarReproPregnancyCheckEventResource", "check-2", COW, eventDateTime=instant(2), method="Blood", result="Inconclusive")
    print(sent("pregnancy-checks", call(here + "/pregnancy-checks", wrong)))


if __name__ == "__main__":
    main((sys.argv[1] if len(sys.argv) > 1 else "http://127.0.0.1:5080").rstrip("/"))
