#!/usr/bin/env bash
# Renews the lock files from pyproject.toml: exact versions with hashes, for Python 3.11 and every newer one.
#   bash deploy/lock.sh              keeps what is locked and adds what is missing
#   bash deploy/lock.sh --upgrade    takes the newest versions (or --upgrade-package NAME for one)
# Needs uv (`pip install uv`). The files name no index and no host, so any mirror serves.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

uv=.venv/bin/uv
[ -x "$uv" ] || uv=$(command -v uv) || {
    echo "deploy/lock.sh needs uv. Install it with:  .venv/bin/pip install uv" >&2
    exit 2
}

lock() { # FILE, then what goes into it
    local file=$1
    shift
    "$uv" pip compile pyproject.toml --universal --python-version 3.11 --generate-hashes --quiet \
        --no-header --no-emit-index-url --no-emit-find-links --custom-compile-command "bash deploy/lock.sh" \
        --output-file "$file" "$@" >/dev/null
}

lock deploy/lock.txt --group build "$@"
# The tests run against the very versions that are installed for people.
lock deploy/lock-tests.txt --group build --group tests --constraint deploy/lock.txt "$@"

if grep -nE '://|--index|--find-links| @ ' deploy/lock.txt deploy/lock-tests.txt; then
    echo "The lock names an index, a host or a path (above). Look at your uv settings and try again." >&2
    exit 1
fi
wc -l deploy/lock.txt deploy/lock-tests.txt
