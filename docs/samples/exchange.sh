#!/usr/bin/env bash
# A program that knows only the exchange standard: sends services, calvings and results, reads back checks, gestations and
# statuses. Start the demo first (ReproLink.Api demo --port 5080), then: exchange.sh [http://127.0.0.1:5080]
set -euo pipefail
base=${1:-http://127.0.0.1:5080}
json='Content-Type: application/json'
source=org.example.sample

# 1. Which locations may I use?
location=$(curl -fsS "$base/locations" | python3 -c 'import json,sys
i = json.load(sys.stdin)["member"][0]["identifier"]; print(i["scheme"] + "/" + i["id"])')
here="$base/locations/$location"
echo "location: $location"

day() { date -u -d "$1 days ago" +%Y-%m-%dT00:00:00Z; }
meta() { printf '"meta":{"source":"%s","sourceId":"%s","modified":"%s"},"animal":{"scheme":"us.bovine","id":"%s"}' $source "$1" "$(date -u +%FT%TZ)" "$2"; }
show() { python3 -m json.tool; }

# 2. A calving, then two services in one batch. The second one lacks its type: the first is stored all the same.
curl -fsS -H "$json" "$here/parturitions" -d "{\"resourceType\":\"icarReproParturitionEventResource\",$(meta calving-1 840003000000001),\"eventDateTime\":\"$(day 130)\"}" | show
curl -fsS -H "$json" "$base/batches/locations/$location/inseminations" -d "[
  {\"resourceType\":\"icarReproInseminationEventResource\",$(meta service-1 840003000000001),\"eventDateTime\":\"$(day 40)\",\"inseminationType\":\"Insemination\"},
  {\"resourceType\":\"icarReproInseminationEventResource\",$(meta service-2 840003000000002),\"eventDateTime\":\"$(day 40)\"}]" | show

# 3. A blood result.
curl -fsS -H "$json" "$here/pregnancy-checks" -d "{\"resourceType\":\"icarReproPregnancyCheckEventResource\",$(meta check-1 840003000000001),
  \"eventDateTime\":\"$(day 2)\",\"method\":\"Blood\",\"result\":\"Pregnant\"}" | show

# 4. What is concluded of her.
hers='animal-scheme=us.bovine&animal-id=840003000000001'
curl -fsS "$here/gestations?$hers" | show
curl -fsS "$here/repro-status-observations?$hers" | show

# 5. What a laboratory took back is gone, and is told to whoever synchronises.
curl -fsS -H "$json" "$here/pregnancy-checks" -d "{\"resourceType\":\"icarReproPregnancyCheckEventResource\",
  \"meta\":{\"source\":\"$source\",\"sourceId\":\"check-1\",\"isDeleted\":true,\"modified\":\"$(date -u +%FT%TZ)\"},\"animal\":{\"scheme\":\"us.bovine\",\"id\":\"840003000000001\"}}" >/dev/null
curl -fsS "$here/pregnancy-checks?$hers&meta-modified-from=2000-01-01T00:00:00Z" | show

# 6. A refusal says what is allowed.
curl -sS -H "$json" "$here/pregnancy-checks" -d "{\"resourceType\":\"icarReproPregnancyCheckEventResource\",$(meta check-2 840003000000001),
  \"eventDateTime\":\"$(day 2)\",\"method\":\"Blood\",\"result\":\"Inconclusive\"}" | show
