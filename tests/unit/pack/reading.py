"""Helpers for tests of papers: a design with every check passed, and a paper made by another process."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace

from pentice.catalogue.firm import firm_from_text, shipped_firm_text
from pentice.checks.values import Told
from pentice.design import Design
from tests.processes import ROOT

_MAKE = """
import importlib, sys
from tests.designs import design_of
module, name, job = sys.argv[1:]
sys.stdout.buffer.write(getattr(importlib.import_module(module), name)(design_of(job)))
"""


def proved_copy(design: Design) -> Design:
    """The design with only its passing checks, resting on nothing typical: nothing is open any more."""
    return replace(
        design,
        checks=tuple(
            replace(c, told=Told(replace(c.told.shown, rests_on=())))
            for c in design.checks
            if c.verdict == "passes"
        ),
    )


def own_firm(design: Design) -> Design:
    """The design of a firm whose rates are its own."""
    text = shipped_firm_text().replace("invented for the demo", "our books").replace("demo: ", "")
    return replace(design, firm=firm_from_text(text))


def own_goods(design: Design) -> Design:
    """The design with the same products and prices, all given by the user: no mark says that they are invented."""
    sheets = {
        id: s.model_copy(
            update={
                "load_table": s.load_table and s.load_table.model_copy(update={"source": "supplier, 2027"})
            }
        )
        for id, s in design.catalogue.sheets.items()
    }
    return replace(design, catalogue=design.catalogue.model_copy(update={"marks": {}, "sheets": sheets}))


def made_elsewhere(module: str, name: str, job: str = "potting-bay", *, hash_seed: int = 7) -> bytes:
    """What a function of the pack gives for an example in a process of its own with another hash seed."""
    path = os.pathsep.join((str(ROOT / "src"), str(ROOT)))
    done = subprocess.run(
        [sys.executable, "-c", _MAKE, module, name, job],
        env={**os.environ, "PYTHONPATH": path, "PYTHONHASHSEED": str(hash_seed)},
        capture_output=True,
        check=True,
        timeout=120,
    )
    return done.stdout
