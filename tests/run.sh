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
tests() { "$venv/bin/python" -m pytest "$@" </dev/null; }

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
