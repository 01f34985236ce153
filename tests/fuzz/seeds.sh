#!/usr/bin/env bash
# Lays the seeds of the four targets into tests/fuzz/corpus: every design and ruleset of the repository, and each
# rule and each fragment of the rulesets as a file of its own, for a whole set is longer than what is tried.
set -euo pipefail
cd "$(dirname "$0")/../.."
seeds=tests/fuzz/corpus
mkdir -p "$seeds/design" "$seeds/whole" "$seeds/ruleset" "$seeds/messages"
find examples tests/cases -name '*.stair' | while read -r file; do
    name=$(basename "$(dirname "$file")")-$(basename "$file")
    # The marks of a case are no part of what is typed.
    sed 's/ *#= .*$//' "$file" | tee "$seeds/whole/$name" > "$seeds/design/$name"
done
find rulesets tests/cases -name '*.rules' | while read -r file; do
    name=$(basename "$file" .rules)
    sed 's/ *#= .*$//' "$file" > "$seeds/ruleset/$name"
    awk -v out="$seeds/ruleset/$name" '
        /^ *rule "/ { at++; open = 1; print "ruleset \"s\" { }\nchapter \"c\" {" > (out "-" at) }
        open { print > (out "-" at) }
        open && /^    }$/ { print "}" > (out "-" at); close(out "-" at); open = 0 }
    ' "$file"
    grep -hE '^ *(passes|fails|spares): *' "$file" | sed -E 's/^ *(passes|fails|spares): *//' |
        awk -v out="$name" -v design="$seeds/design" -v whole="$seeds/whole" '{
            text = "stair { " $0 " }"
            print text > (design "/" out "-" NR); print text > (whole "/" out "-" NR)
            close(design "/" out "-" NR); close(whole "/" out "-" NR)
        }' || true
done
# Each design opened in an editor on one line, and something asked of it.
find examples tests/cases -name '*.stair' | while read -r file; do
    name=$(basename "$(dirname "$file")")-$(basename "$file" .stair)
    {
        printf 'o'
        sed 's/ *#= .*$//; s/$/\\n/' "$file" | tr -d '\n'
        printf '\n1\n2a\n3b\ndflight { \n4\n'
    } > "$seeds/messages/$name"
done
for replayed in tests/corpus/*/; do
    [ -d "$replayed" ] && cp "$replayed"* "$seeds/$(basename "$replayed")/"
done
true
