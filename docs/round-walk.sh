#!/usr/bin/env bash
# A whole sampling round over HTTP: list, round, labels, draws, dispatch, a results file with six kinds of dirt, held results
# resolved, next week. Needs bash, curl and jq, and the demo running:
#
#   reprolink demo --port 5080 --clock 2026-10-05T06:00:00Z
#   docs/round-walk.sh [http://127.0.0.1:5080]
#
# It moves the demo's clock on. Run it against a fresh demo.
set -euo pipefail

service=${1:-http://127.0.0.1:5080}
herd="$service/locations/demo/larch-hollow"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

say() { printf '\n== %s\n' "$*"; }
get() { curl -sS --fail-with-body "$herd$1"; }
send() { curl -sS --fail-with-body -X "$1" -H 'Content-Type: application/json' "$herd$2" -d "$3"; }
file() { curl -sS --fail-with-body -H 'Content-Type: text/csv' "$herd$1" --data-binary @"$work/results.csv"; }
clock() { curl -sS --fail-with-body -X PUT -H 'Content-Type: application/json' "$service/testing/clock" -d "{\"now\":\"$1\"}" > "$work/clock"; }
expect() { [ "$1" = "$2" ] || { echo "expected $2, got $1" >&2; exit 1; }; }

say "1. Which cows do we bleed this week?"
get /bleed-list > "$work/list.json"
jq -r '.days[] | "\(.weekday) \(.date): \(.totals.animals) animals, \(.totals.needles) needles"' "$work/list.json"
day=$(jq -r '.days[0].date' "$work/list.json")
today=$(jq -r .asOf "$work/list.json")

say "2. Freeze the list of $day into a round"
send POST /sampling-rounds "{\"date\":\"$day\",\"name\":\"Walk\"}" > "$work/round.json"
round=$(jq -r .round "$work/round.json")
jq -r '"\(.round): \(.counts.tubes) tubes; take \(.supplies.needles) needles, \(.supplies.tubes) tubes, \(.supplies.sharpsContainers) sharps container"' "$work/round.json"
mapfile -t tubes < <(jq -r '.tubes[].tube' "$work/round.json")
mapfile -t cows < <(jq -r '.tubes[].animal' "$work/round.json")
[ "${#tubes[@]}" -ge 6 ] || { echo "the list is too short for this walk" >&2; exit 1; }

say "3. Labels"
get "/sampling-rounds/$round/labels?layout=a4-3x8" > "$work/labels.html"
echo "$(grep -o 'class="label"' "$work/labels.html" | wc -l) labels on $(grep -o '<section' "$work/labels.html" | wc -l) sheets"
expect "$(grep -o 'class="label"' "$work/labels.html" | wc -l)" "${#tubes[@]}"

say "4. At the chute, on $day"
[ "$day" = "$today" ] || clock "${day}T07:00:00Z"
last=$((${#tubes[@]} - 1))
for i in "${!tubes[@]}"; do
  case $i in
    0) body='{"state":"short","time":"06:40","by":"Ana"}' ;;
    "$last") body='{"state":"not-drawn","reason":"refused","by":"Ana"}' ;;
    *) body='{"state":"drawn","time":"06:45","by":"Ana"}' ;;
  esac
  send PUT "/sampling-rounds/$round/tubes/${tubes[$i]}" "$body" > "$work/tube.json"
done
echo "${tubes[0]} of ${cows[0]} is short: draw her again"
send POST "/sampling-rounds/$round/tubes" "{\"redraws\":\"${tubes[0]}\"}" > "$work/tube.json"
second=$(jq -r .tube.tube "$work/tube.json")
send PUT "/sampling-rounds/$round/tubes/$second" '{"state":"drawn","time":"07:10","by":"Ana"}' > "$work/tube.json"
jq -r '.counts | "\(.drawn) drawn, \(.notDrawn) not drawn, \(.broken) given up"' "$work/tube.json"

say "5. Into the box"
send POST "/sampling-rounds/$round/dispatch" '{"by":"Ana"}' > "$work/dispatch.json"
jq -r '"\(.tubes | length) tubes left; report expected \(.expectedReport.date) \(.expectedReport.time)"' "$work/dispatch.json"
get "/sampling-rounds/$round/manifest?dispatch=1" | head -3
report=$(jq -r .expectedReport.date "$work/dispatch.json")

say "6. The laboratory's file, with six kinds of dirt"
clock "${report}T18:00:00Z"
send PUT /result-mappings/valley '{"columns":{"sourceId":"Lab no","animal":"Cow","tube":"Tube","sampled":"Drawn","outcome":"Result"},
  "fixed":{"method":"blood","specimen":"serum"},"outcomes":{"PREG":"pregnant","NOT PREG":"open","DOUBTFUL":"recheck"},
  "dates":["dd/MM/yyyy"],"delimiter":";"}' > "$work/mapping.json"
drawn="${day:8:2}/${day:5:2}/${day:0:4}"
{
  echo 'Lab no;Cow;Tube;Drawn;Result'
  echo "1;${cows[0]};$second;$drawn;Not Preg"
  for ((i = 1; i < last - 1; i++)); do
    echo "$((i + 1));${cows[$i]};${tubes[$i]};$drawn;$([ $((i % 3)) -eq 0 ] && echo 'NOT PREG' || echo PREG)"
  done
  echo "901;${cows[1]};${tubes[$((last - 1))]};$drawn;NOT PREG"  # the label is another cow's
  echo "902;999999;;$drawn;PREG"                                 # no such cow
  echo "903;;$round-999;$drawn;PREG"                             # no such tube
  echo "904;;${tubes[$last]};$drawn;NOT PREG"                    # never drawn
  echo "905;${cows[2]};;$drawn;CLOTTED"                          # a word nobody explained
  echo "906;${cows[2]};${tubes[2]}"                              # a torn line
  echo "1;${cows[0]};$second;$drawn;Not Preg"                    # sent twice
} > "$work/results.csv"
echo "What it would do:"
file "/test-results/preview?sender=valley" | jq -c .counts
file "/test-results?sender=valley&file=walk.csv" > "$work/answers.json"
jq -r '.results | group_by(.status)[] | "\(length) \(.[0].status)"' "$work/answers.json"
expect "$(jq '[.results[] | select(.status == "held")] | length' "$work/answers.json")" 4
expect "$(jq '[.results[] | select(.status == "rejected")] | length' "$work/answers.json")" 2
expect "$(jq '[.results[] | select(.status == "duplicate")] | length' "$work/answers.json")" 1

say "7. What waits for a person"
get /held-results > "$work/held.json"
jq -r '.held[] | select(.source == "valley") | "\(.sourceId): \(.reason); candidates \([.candidates[].animal] | join(", "))"' "$work/held.json"
held() { jq -r --arg id "$1" '.held[] | select(.source == "valley" and .sourceId == $id) | .heldId' "$work/held.json"; }
send POST "/held-results/$(held 901)/assign" "{\"animal\":\"${cows[$((last - 1))]}\"}" | jq -c .
for id in 902 903 904; do
  send POST "/held-results/$(held $id)/dismiss" '{"reason":"asked the laboratory: not ours"}' | jq -c .
done
expect "$(get /held-results | jq '[.held[] | select(.source == "valley")] | length')" 0
fact=$(jq -r '.results[0].factId' "$work/answers.json")
echo "The result of ${cows[0]} came from:"
get "/received?fact=$fact" | jq -r '.lines[] | "  \(.file), line \(.line): \(.text) -> \(.decision)"'

say "8. The round, and what comes next"
get "/sampling-rounds/$round" | jq -r '"\(.round) is \(.state): \(.counts.answered) of \(.counts.drawn) answered"'
expect "$(get "/sampling-rounds/$round" | jq -r .state)" answered
get /bleed-list | jq -r '.days[] | "bleed \(.weekday) \(.date): \(.totals.animals) animals"'
get /work-calendar | jq -r '.items | group_by(.kind)[] | "\(length) \(.[0].kind)"'
echo "The plan of ${cows[$((last - 1))]}, found open:"
get "/animals/${cows[$((last - 1))]}/test-window" | jq -r '.plan[] | "  \(.date) \(.time) \(.step): \(.state)"'
