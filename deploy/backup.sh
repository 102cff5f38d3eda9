#!/usr/bin/env bash
# Copies a bot's store while the bot runs, looks the copy over, and removes copies that are too old.
#   bash deploy/backup.sh FILE DIR [DAYS]
# FILE is the store, DIR where the copies are kept (for 30 days, and never fewer than three; with DAYS 0 the new copy
# stays alone). A copy is one file, FILE-20310504T030000Z.sqlite, that only its owner may read; the time is UTC.
# It holds what people wrote and the secret of the experts' mail addresses: keep it as well as the store itself.
# Run it as the user of the bot. deploy/restore.sh puts a copy back, deploy/runbook.md says when.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
venv=${BEDSTAMP_VENV:-.venv}
[[ $venv = /* ]] || venv=$root/$venv
[ -x "$venv/bin/python" ] || {
    echo "There is no Python environment in $venv. Make it with:  bash $root/deploy/demo.sh" >&2
    exit 2
}
umask 077
PYTHONPATH=$root exec "$venv/bin/python" -P -m deploy.copies "$@"
