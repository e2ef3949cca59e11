"""The command line: read, call the engine, show, exit code. The only place that prints."""

from __future__ import annotations

import sys


def main() -> None:
    """Entry of the `pentice` command."""
    from pentice.cli.app import run

    sys.exit(run(sys.argv[1:]))
