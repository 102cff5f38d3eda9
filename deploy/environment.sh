# shellcheck shell=bash
# Sets up what Bedstamp runs in; sourced by deploy/demo.sh and tests/run.sh, not run by itself.
#
#   need_debian_packages NAME...   installs what is missing, or says what to type
#   prepare_environment LOCK...    .venv with the packages of deploy/lock*.txt and Bedstamp itself
#
# Nothing is fetched when nothing is missing. PYTHON chooses the Python that makes the environment,
# BEDSTAMP_VENV the folder it lives in. Details of what went wrong are in build/setup.log.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
venv=${BEDSTAMP_VENV:-.venv}
[[ $venv = /* ]] || venv=$root/$venv
log=$root/build/setup.log
unfinished=$venv/unfinished # there while an installation is under way

# Settings of the person's own shell that would lead Python or pip astray.
unset PYTHONPATH PYTHONHOME PIP_TARGET PIP_PREFIX PIP_NO_BINARY
export PYTHONNOUSERSITE=1 PIP_USER=0 PIP_NO_INPUT=1 PIP_DISABLE_PIP_VERSION_CHECK=1

say() { printf '%s\n' "$@"; }

give_up() { # WHAT, WHAT TO DO...
    printf '\n%s\n' "$1" >&2
    shift
    say "$@" | sed 's/^/  /' >&2
    exit 1
}

logged() { # COMMAND...: its output goes to the log
    printf '\n$ %s\n' "$*" >>"$log"
    "$@" >>"$log" 2>&1 </dev/null
}

give_up_with_log() { # WHAT, WHAT TO DO...
    printf '\nThe last lines of %s (repeated attempts left out):\n' "$log" >&2
    grep -v '^WARNING: Retrying' "$log" | tail -n 8 | cut -c 1-200 | sed 's/^/  | /' >&2
    give_up "$@"
}

{ mkdir -p "$root/build" && : >"$log"; } 2>/dev/null || # a fresh log each time
    give_up "Bedstamp cannot write in its own folder, $root." "Copy it to a folder that is yours and run this again there."

# --- Debian packages -------------------------------------------------------------------------------------------------

is_installed() { [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]; }

as_root() {
    if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo -n "$@"; fi
}

may_be_root() { [ "$(id -u)" -eq 0 ] || sudo -n true 2>/dev/null; }

# Installing a server package must neither ask questions nor start the server.
apt_install() ( # NAME...
    local policy=/usr/sbin/policy-rc.d
    if [ ! -e "$policy" ]; then
        trap 'as_root rm -f "$policy"' EXIT
        printf '#!/bin/sh\nexit 101\n' | as_root tee "$policy" >/dev/null
        as_root chmod 755 "$policy"
    fi
    logged as_root env DEBIAN_FRONTEND=noninteractive apt-get update
    logged as_root env DEBIAN_FRONTEND=noninteractive apt-get install --yes --no-install-recommends "$@"
)

need_debian_packages() { # NAME...
    local name missing=()
    for name in "$@"; do
        is_installed "$name" || missing+=("$name")
    done
    [ ${#missing[@]} -gt 0 ] || return 0
    local command="apt-get install ${missing[*]}"
    command -v apt-get >/dev/null ||
        give_up "These Debian packages are missing, and this system has no apt-get: ${missing[*]}" \
            "Install what corresponds to them here, then run this again."
    may_be_root ||
        give_up "These Debian packages are missing: ${missing[*]}" "Install them, then run this again:" \
            "    sudo $command"
    say "Installing from Debian: ${missing[*]}"
    apt_install "${missing[@]}" ||
        give_up_with_log "Installing ${missing[*]} did not work." "See what stands above, then try:" "    $command"
}

# --- Python ----------------------------------------------------------------------------------------------------------

need_python() { # sets $python
    python=${PYTHON:-python3}
    command -v "$python" >/dev/null ||
        give_up "There is no $python here." "Install Python 3.11 or newer; on Debian:" "    sudo apt-get install python3"
    "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' ||
        give_up "Bedstamp needs Python 3.11 or newer; this is $("$python" -V)." \
            "Debian 12 and newer bring it. With another Python beside it:" "    PYTHON=python3.11 bash $0"
    "$python" -c 'import ensurepip, venv' 2>/dev/null || need_debian_packages python3-venv
    "$python" -c 'import ensurepip, venv' 2>/dev/null ||
        give_up "$python cannot make virtual environments: its modules venv and ensurepip are missing." \
            "Install them for that Python, or use Debian's own:" "    PYTHON=/usr/bin/python3 bash $0"
}

# Whole, new enough, with pip, and still where it was made (a moved one has its old folder in every command).
environment_is_sound() {
    [ ! -e "$unfinished" ] && [ -x "$venv/bin/python" ] && [ -e "$venv/bin/pip" ] || return 1
    "$venv/bin/python" - "$venv" <<'PYTHON' 2>/dev/null
import sys
from pathlib import Path

import pip

pip_command = Path(sys.argv[1], "bin", "pip").read_text(encoding="utf-8")
sys.exit(sys.version_info < (3, 11) or f"{Path(sys.prefix)}/bin/python" not in pip_command)
PYTHON
}

make_environment() {
    need_python
    rm -rf "$venv"
    mkdir -p "$venv" && touch "$unfinished"
    logged "$python" -m venv "$venv" ||
        give_up_with_log "Making the environment in $venv did not work." "See what stands above, then run this again."
}

fingerprint() { # LOCK: changes with all that the installation depends on
    cat "$1" "$root/pyproject.toml" | sha256sum
    "$venv/bin/python" -c 'import sys; print(sys.version, sys.prefix)'
    say "$root"
}

install_lock() { # LOCK
    touch "$unfinished"
    logged "$venv/bin/python" -m pip install --require-hashes --only-binary=:all: -r "$1" &&
        logged "$venv/bin/python" -m pip install --no-index --no-deps --no-build-isolation --editable "$root"
    local result=$?
    rm -f "$unfinished" # pip came to an orderly end, and what it did not finish it took back
    return $result
}

what_to_do_about_pip() { # reads the log, prints the advice
    if grep -qi 'do not match the hashes' "$log"; then
        say "A download is not what it should be. Do not go on: ask whoever runs the package mirror you use."
    elif grep -qiE 'no space left|disk quota' "$log"; then
        say "The disk is full. Make room (about 500 MB) and run this again."
    elif grep -qiE 'NewConnectionError|NameResolutionError|ConnectTimeout|ReadTimeout|network is unreachable' "$log"; then
        say "The network could not be reached. Connect, and run this again; what is there already is kept."
    elif grep -qi 'no matching distribution' "$log"; then
        say "There is no ready-made package for this machine or this Python ($("$venv/bin/python" -V))." \
            "Python 3.11 to 3.13 on a 64-bit system has them all."
    else
        say "See what stands above, then run this again."
    fi
}

prepare_environment() { # LOCK...
    environment_is_sound || {
        say "Making a Python environment (in ${venv/#"$root/"/})"
        make_environment
    }
    local lock stamp
    for lock in "$@"; do
        stamp=$venv/$(basename "$lock").installed
        [ "$(fingerprint "$lock")" = "$(cat "$stamp" 2>/dev/null)" ] && continue
        say "Installing the packages of ${lock/#"$root/"/} (a minute or two the first time)"
        install_lock "$lock" || give_up_with_log "Installing the packages did not work." "$(what_to_do_about_pip)"
        fingerprint "$lock" >"$stamp"
    done
}
