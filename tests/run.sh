#!/usr/bin/env bash
# The everyday run: sets up all it needs, then linter, types, layers and tests. Under ten minutes.
#   bash tests/run.sh                          everything
#   bash tests/run.sh --only tests -k zero     one part (lint, types, layers or tests); the rest goes to pytest
#   bash tests/run.sh -m long                  the long tests
set -uo pipefail

usage() { sed -n '2,5s/^# \{0,1\}//p' "${BASH_SOURCE[0]}"; }

parts=(lint types layers tests)
case ${1:-} in
-h | --help)
    usage
    exit
    ;;
--only)
    case ${2:-} in
    lint | types | layers | tests) parts=("$2") ;;
    *)
        usage >&2
        exit 2
        ;;
    esac
    shift 2
    ;;
esac

# shellcheck source=deploy/environment.sh
. "$(dirname "${BASH_SOURCE[0]}")/../deploy/environment.sh"
cd "$root" || exit 1

mapfile -t packages < <(sed 's|#.*||; s|[[:space:]]||g' tests/debian-packages.txt | grep .)
need_debian_packages "${packages[@]}"
prepare_environment "$root/deploy/lock-tests.txt"

lint() { "$venv/bin/ruff" check .; }
types() { "$venv/bin/mypy"; }
layers() { "$venv/bin/lint-imports" --no-logo; }
pytest() { "$venv/bin/python" -m pytest "$@" </dev/null; }

# Tests that start servers and programs mostly wait, so without further words they run beside the others, in two shares.
chat=(tests/bot/channels/telegram)
programs=(tests/bot/channels tests/bot/test_running.py tests/bot/expert_desk/test_processes.py tests/deploy)
tests() {
    [ $# -eq 0 ] || { pytest "$@"; return; }
    local failed=0
    logs=$(mktemp -d) && trap 'jobs -p | xargs -r kill 2>/dev/null; rm -rf "$logs"' EXIT
    pytest "${chat[@]}" >"$logs/chat" 2>&1 &
    local first=$!
    pytest "${programs[@]}" "${chat[@]/#/--ignore=}" >"$logs/programs" 2>&1 &
    local second=$!
    pytest "${chat[@]/#/--ignore=}" "${programs[@]/#/--ignore=}" || failed=1
    wait "$first" || failed=1
    wait "$second" || failed=1
    cat "$logs/chat" "$logs/programs"
    return "$failed"
}

failed=()
for part in "${parts[@]}"; do
    say "== $part"
    if [ "$part" = tests ]; then
        tests "$@" || failed+=("$part")
    else
        "$part" || failed+=("$part")
    fi
done

# On success the last line is pytest's own.
[ ${#failed[@]} -eq 0 ] || give_up "Failed: ${failed[*]}" "What is wrong stands above, under '== ${failed[0]}'."
