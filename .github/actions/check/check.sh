#!/usr/bin/env bash
# Proves rulesets and checks designs, as the inputs of the action beside this file ask: PATHS, RULES and PROVE hold a
# path or a name a line, STRICT is `true` or `false`. They reach the tool as arguments and are never read as commands.
set -euo pipefail

# Lines of a variable that hold anything, without the blanks round them.
lines() {
    sed -e 's/^[[:space:]]*//' -e 's/[[:space:]]*$//' -e '/^$/d' <<<"$1"
}

case "${STRICT:-false}" in
true) strict=(--strict) ;;
false) strict=() ;;
*)
    echo "strict is \`true\` or \`false\`, not \`$STRICT\`" >&2
    exit 2
    ;;
esac

outcome=0
while IFS= read -r set; do
    pitchboard rules --prove ${strict[@]+"${strict[@]}"} -- "$set" || outcome=$(($? > outcome ? $? : outcome))
done < <(lines "${PROVE:-}")

rules=()
while IFS= read -r set; do rules+=("--rules=$set"); done < <(lines "${RULES:-}")
paths=()
while IFS= read -r path; do paths+=("$path"); done < <(lines "${PATHS:-.}")
pitchboard check ${strict[@]+"${strict[@]}"} ${rules[@]+"${rules[@]}"} -- "${paths[@]}" ||
    outcome=$(($? > outcome ? $? : outcome))
exit "$outcome"
