#!/usr/bin/env python3
"""A program that knows this service's own words: reads whom to bleed and the dated work, and follows what changes.

    python3 docs/samples/schedules.py LOCATION [CURSOR]

LOCATION is the address of a location, for the demo http://127.0.0.1:5080/locations/demo/larch-hollow. CURSOR is what it printed
last time: then only the changes since are read. Python 3.8 and nothing else. REPROLINK_KEY in the environment is the key to
call the service with; the demo needs none.
"""
import csv
import io
import json
import os
import sys
import urllib.error
import urllib.parse
import urllib.request


def read(address, accept="application/json", body=None):
    request = urllib.request.Request(address, data=None if body is None else json.dumps(body).encode())
    request.add_header("Accept", accept)
    request.add_header("Content-Type", "application/json")
    if os.environ.get("REPROLINK_KEY"):
        request.add_header("Authorization", "Bearer " + os.environ["REPROLINK_KEY"])
    with urllib.request.urlopen(request) as answer:
        text = answer.read().decode()
    return json.loads(text) if accept == "application/json" else text


def bleed_list(location):
    asked = read(location + "/bleed-list")
    print(f"bleed list of {asked['herd']}, {asked['from']} to {asked['to']}")
    for day in asked["days"]:
        print(f"  {day['date']} {day['weekday']}: {day['totals']['animals']} animals, {day['totals']['tubes']} tubes")
        for animal in day["animals"][:3]:
            print(f"    {animal['animal']} {animal['need']}: {animal['reasons'][0]['text']}")
    for rest in asked["notListed"]:
        print(f"  not listed, {rest['answer']} {rest['reason']}: {rest['count']}")


def work_calendar(location):
    calendar = read(location + "/work-calendar")
    # Whatever shows prostaglandin shows these: first, and whole.
    for caution in calendar["cautions"]:
        print("caution:", caution)
    for total in calendar["totals"]:
        doses = ", ".join(f"{count} {agent}" for agent, count in sorted(total["doses"].items())) or "none"
        print(f"  {total['date']}: {total['animals']} animals, doses: {doses}")
    steps = [item for item in calendar["items"] if item["kind"] == "step"]
    for step in steps[:5]:
        print(f"  {step['date']} {step['time']} {step['animal']} {step['step']} {step['state']}", step.get("clause", ""))
    print(len(calendar["items"]), "items,", len(steps), "of them steps")

    # The same for a spreadsheet.
    lines = list(csv.DictReader(io.StringIO(read(location + "/work-calendar", "text/csv"))))
    print(len(lines), "lines of CSV with", len(lines[0]) if lines else 0, "columns")


def calendar_feed(location):
    """The address is the secret: whoever has it may read, and it is told only once. Give each person one of their own."""
    link = read(location + "/calendar-links", body={"name": "sample", "style": "day"})
    feed = read(link["address"], "text/calendar")
    days = [line[len("SUMMARY:"):] for line in feed.splitlines() if line.startswith("SUMMARY:")]
    print("calendar feed:", len(days), "entries, the first:", days[0] if days else "-")
    # Only tried here: ended again.
    read(f"{location}/calendar-links/{link['link']}/revoke", body={})


def follow(location, cursor):
    """Reads every change after a cursor; the cursor to go on from next time."""
    count, quiet = 0, not cursor  # The first time everything is news.
    while True:
        page = read(location + "/changes?limit=1000" + ("&after=" + urllib.parse.quote(cursor) if cursor else ""))
        for change in [] if quiet else page["changes"]:
            print("change:", change["kind"], change.get("animal", "-"))
        for animal in [] if quiet else page["animals"]:
            print("now:", animal["animal"], animal["status"])
        if not page["changes"]:
            print(count, "changes read")
            return cursor
        count += len(page["changes"])
        cursor = page["next"]


def main(location, cursor):
    if not cursor:
        bleed_list(location)
        work_calendar(location)
        calendar_feed(location)
    print("go on with:", follow(location, cursor))


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    try:
        main(sys.argv[1].rstrip("/"), sys.argv[2] if len(sys.argv) > 2 else "")
    except urllib.error.HTTPError as refused:
        sys.exit(refused.read().decode())
