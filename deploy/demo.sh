#!/usr/bin/env bash
# Shows what Bedstamp does: sets it up in this folder, asks one question, and says what to try next.
#   bash deploy/demo.sh
# Needs Python 3.11 or newer (Debian 12 and 13 bring it) and, the first time, a network.
set -uo pipefail

# shellcheck source=deploy/environment.sh
. "$(dirname "${BASH_SOURCE[0]}")/environment.sh"

question="My gran's machine says K 0 204 117, how old is it?"
picture=build/demo.png

say "Bedstamp: how old is my sewing machine?"
prepare_environment "$root/deploy/lock.txt"

cd "$root" || exit 1
say
say "\$ bedstamp ask --picture $picture \"$question\""
say
"$venv/bin/bedstamp" ask --picture "$picture" "$question" ||
    give_up "Bedstamp could not answer its own demo question." \
        "Remove the folder $venv and run this again. If that does not help, report it with the lines above."

printf -v here '%q' "$root"
cat <<NEXT

The picture of that register, with the number marked in it, is $picture.
The makers in this demo are invented, to show how it works. Try next:

    cd $here
    .venv/bin/bedstamp chat                      the same as a conversation, with questions back
    .venv/bin/bedstamp ask "204117, and there is a K in front"
    .venv/bin/bedstamp ask "Where do I find the number?"
    .venv/bin/bedstamp pack check FOLDER         looks over a list of your own; README.md says how to make one
NEXT
