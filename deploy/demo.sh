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

started_in=$PWD
cd "$root" || exit 1
say "" "\$ bedstamp ask \"$question\""
say ""
"$venv/bin/bedstamp" ask --picture "$picture" "$question" ||
    give_up "Bedstamp could not answer its own demo question." \
        "Please remove the folder $venv and run this again. If that does not help, report it with the lines above."

# What is shown below can be typed as it stands, from where the person is.
printf -v bedstamp '%q' "$venv/bin/bedstamp"
printf -v picture '%q' "$root/$picture"
[ "$started_in" != "$root" ] || { bedstamp=.venv/bin/bedstamp picture=build/demo.png; }
cat <<NEXT

The picture of that register, with the number marked in it:
    $picture

The makers here are invented, to show how it works. Try next:
    $bedstamp ask "There is 204117 on the bed, with a K in front"
    $bedstamp chat                        asks back, and takes 'seven digits' for an answer
    $bedstamp ask --json "K 204117"       the same for programs
    $bedstamp pack check FOLDER           looks over a list of your own, in the format of README.md
NEXT
