#!/usr/bin/env bash
# Puts a copy that deploy/backup.sh made in the place of a bot's store. Stop the bot first; it refuses otherwise.
#   bash deploy/restore.sh COPY FILE
# The store of before is kept beside it, as FILE.before-20310504T030000Z. deploy/runbook.md, "Put a copy back", says
# what to do before the bot is started again, and what becomes of the time since the copy was made.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
venv=${BEDSTAMP_VENV:-.venv}
[[ $venv = /* ]] || venv=$root/$venv
[ -x "$venv/bin/python" ] || {
    echo "There is no Python environment in $venv. Make it with:  bash $root/deploy/demo.sh" >&2
    exit 2
}
umask 077
PYTHONPATH=$root exec "$venv/bin/python" -P -m deploy.restoring "$@"
