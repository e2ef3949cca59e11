"""The calculations as one document: which sections it has and what stands over each."""

from __future__ import annotations

from pentice.design import Design, worst_of_each
from pentice.pack.calculations.asked import ENGINEER, ENQUIRY, engineer, enquiry
from pentice.pack.calculations.front import counts_sentence, front
from pentice.pack.calculations.loads import loads_blocks
from pentice.pack.calculations.snow_picture import snow_pictures
from pentice.pack.calculations.verdicts import inputs, table_sentence, verdict_table
from pentice.pack.calculations.working import load_pictures, working_blocks
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.setting_out import heading_of

STRIP = "strip.svg"


def calculations_pdf(design: Design) -> bytes:
    """The calculations.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    bays = design.setting_out.plane.bays
    strip = strip_of(STRIP, f"The roof from above, {len(bays)} bays, the wall at the top.")
    rules = sorted(worst_of_each(design.checks), key=lambda check: check.verdict == "not checked")
    parts = (
        ("Calculations", counts_sentence(design), front(design, rules)),
        ("Checks", table_sentence(design), (verdict_table(rules),)),
        ("What goes in", "Each value with its mark. ~Typical~: no product yet.", inputs(design)),
        ("Loads", f"{design.loads.edition}.", loads_blocks(design)),
        ("Working", "Each rule at its worst place, then elsewhere.", working_blocks(design, rules)),
        (ENGINEER, "To send with the rest, where anything is open.", engineer(design, rules)),
        (ENQUIRY, "Before you order: whom to ask what.", enquiry(design)),
    )
    data = {
        "meta": meta("Calculations", **heading_of(design), warning=not_proved(design)),
        "sections": [
            section(title, list(blocks), result=result, strip=strip) for title, result, blocks in parts
        ],
    }
    images = {
        STRIP: strip_svg([bay.centres_mm for bay in bays]),
        **snow_pictures(design),
        **load_pictures(rules),
    }
    return make_pdf(DOCUMENT, data, images)
