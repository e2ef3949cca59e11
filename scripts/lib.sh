# Shared by the scripts beside it; read with ". scripts/lib.sh" from the top folder.
# Finds a Python that is new enough, makes .venv with it and fills it from the hash-pinned lists.

say() { printf '%s\n' "$*"; }

fail() {
    printf '%s\n' "$*" >&2
    exit 1
}

is_new_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1
}

find_python() {  # sets PYTHON
    if [ -n "${PYTHON:-}" ]; then
        is_new_enough "$PYTHON" && return
        fail "PYTHON is set to '$PYTHON', but that is no Python 3.11 or newer. Give the path of one, or unset PYTHON."
    fi
    for candidate in python3 python3.14 python3.13 python3.12 python3.11 python; do
        if is_new_enough "$candidate"; then
            PYTHON=$candidate
            return
        fi
    done
    found=$(python3 --version 2>/dev/null || echo "no python3 at all")
    fail "Pentice needs Python 3.11 or newer; this machine has $found. Install a newer one beside it, then say
    make run PYTHON=/path/to/python3.12"
}

find_venv_python() {  # sets VENV_PYTHON; Windows lays it in another folder
    VENV_PYTHON=.venv/bin/python
    if [ -f .venv/Scripts/python.exe ]; then VENV_PYTHON=.venv/Scripts/python.exe; fi
}

setup_venv() {  # makes .venv unless a sound one is there
    find_venv_python
    if is_new_enough "$VENV_PYTHON" && "$VENV_PYTHON" -m pip --version >/dev/null 2>&1; then return; fi
    find_python
    say "Making .venv with $("$PYTHON" --version) ..."
    if ! "$PYTHON" -m venv --clear .venv; then
        rm -rf .venv
        fail "Python could not make .venv. On Debian and Ubuntu the part it needs is a package of its own:
    sudo apt install python3-venv
then say the same command again."
    fi
    find_venv_python
}

stamp_of() {  # what the installed packages depend on; a moved folder must be set up anew
    {
        pwd
        "$VENV_PYTHON" --version
        cat "requirements/$1.txt" pyproject.toml
    } | cksum
}

install_locked() {  # install_locked run|test|oracle
    stamp=".venv/.installed-$1"
    want=$(stamp_of "$1")
    if [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$want" ]; then return; fi
    say "Installing from requirements/$1.txt (only the first time) ..."
    rm -f .venv/.installed-*
    PIP_DISABLE_PIP_VERSION_CHECK=1
    export PIP_DISABLE_PIP_VERSION_CHECK
    "$VENV_PYTHON" -m pip install --quiet --require-hashes -r "requirements/$1.txt" ||
        fail "The packages of requirements/$1.txt could not be installed; pip's own words stand above. Without a network
connection this cannot work the first time; afterwards it is not needed any more."
    "$VENV_PYTHON" -m pip install --quiet --no-deps --no-build-isolation --no-index -e . ||
        fail "Pentice itself could not be installed into .venv; pip's own words stand above."
    printf '%s\n' "$want" >"$stamp"
    # Whoever can test can also run: test.txt holds all of run.txt, and oracle.txt all of test.txt.
    if [ "$1" != run ]; then stamp_of run >.venv/.installed-run; fi
    if [ "$1" = oracle ]; then stamp_of test >.venv/.installed-test; fi
}

install_oracles() {  # what our own results are compared with
    install_locked oracle
    "$VENV_PYTHON" -m pip install --quiet --require-hashes --no-deps --ignore-requires-python \
        -r requirements/oracle-alone.txt ||
        fail "The packages of requirements/oracle-alone.txt could not be installed; pip's own words stand above."
}
