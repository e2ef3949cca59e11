"""Heads of mullions: the ticket of their length and the method say how they are cut and what room they leave."""

from __future__ import annotations

from dataclasses import replace

from pentice.design import Design
from pentice.pack.cutting import cutting_pdf
from pentice.pack.drawings.mullion_heads import head_room_mm, heads_words, room_words
from pentice.pack.method import order_of_work
from tests.designs import design_of
from tests.unit.pack.test_method import text_of

NAME = "plant-lobby"


def sagging(*sags_mm: float) -> Design:
    """The lobby with other sags of its rafters from the left."""
    design = design_of(NAME)
    checks = tuple(
        replace(c, demand=sags_mm[(c.place.rafter or 0) - 1]) if c.id == "rafter-sag-final" else c
        for c in design.checks
    )
    return replace(design, checks=checks)


def test_the_room_is_the_end_rafters_sag_rounded_up_and_two() -> None:
    """Of the ends alone: 1.2 and 2.4 of them give 3 + 2; a whole 3 stays 3."""
    assert head_room_mm(sagging(1.2, 9.0, 9.0, 9.0, 2.4)) == 5.0
    assert head_room_mm(sagging(3.0, 9.0, 9.0, 9.0, 0.1)) == 5.0


def test_ticket_and_method_say_it() -> None:
    """15 deg of pitch leave 75.0 between slope and edge; the piece keeps the length of the opening."""
    design = sagging(0.5, 9.0, 9.0, 9.0, 4.1)
    text = " ".join(text_of(cutting_pdf(design)).split())
    assert (
        "cut square here, its head on site on the slope, 75.0 deg to its edges; longer edge nearer the wall"
        in text
    )
    assert "Left there between head and rafter: 7 mm (its sag in the end, rounded up, and 2)." in text
    assert any("leave between them and the rafter 7 mm" in step for step in order_of_work(design))
    assert {p.length_mm for p in design.pieces if p.id.startswith("MU")} == {2265.0}


def test_a_sag_that_nobody_calculated_is_no_number() -> None:
    """Without the check, and where jobs share the plan, the words point to the calculations."""
    bare = replace(design_of(NAME), checks=())
    assert head_room_mm(bare) is None
    for words in (room_words(bare), room_words(design_of(NAME), one_job=False)):
        assert words == "what the end rafter sags in the end by the calculations, and 2 mm"
    assert heads_words(bare, ("SI1", "RF1")) == ""
