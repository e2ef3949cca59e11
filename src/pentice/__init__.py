"""Pentice: from a tape measure to the whole job pack for lean-to roofs glazed with multiwall polycarbonate.

    job = pentice.read_job("roof.toml")
    catalogue = pentice.read_catalogue()
    design = pentice.solve(pentice.complete(job, catalogue), catalogue)
    pentice.write_pack(design, "packs/roof")

Names are loaded when they are first asked for, so that `import pentice` costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pentice.advice.complete import complete
    from pentice.advice.stage import advise
    from pentice.catalogue.firm import read_firm
    from pentice.catalogue.reading import read_catalogue
    from pentice.cli.packing import write_pack
    from pentice.job.reading import read_job
    from pentice.pipeline import solve

__all__ = ["advise", "complete", "read_catalogue", "read_firm", "read_job", "solve", "write_pack"]

_HOMES = {
    "advise": "pentice.advice.stage",
    "complete": "pentice.advice.complete",
    "read_catalogue": "pentice.catalogue.reading",
    "read_firm": "pentice.catalogue.firm",
    "read_job": "pentice.job.reading",
    "solve": "pentice.pipeline",
    "write_pack": "pentice.cli.packing",
}


def __getattr__(name: str) -> Any:
    if name in _HOMES:
        return getattr(import_module(_HOMES[name]), name)
    raise AttributeError(f"module 'pentice' has no attribute {name!r}")
