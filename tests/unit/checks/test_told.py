"""What a check shows is written out when it is first read, and once."""

from __future__ import annotations

import pickle

from pentice.checks.ground import Rule, compared
from pentice.checks.values import Check, Place, Shown, Told
from pentice.working import Step

RULE = Rule(id="rafter-shear", name="Rafter, shear", member="rafter", clause="6.1.7", unit="N/mm2")
LINE = Step(says="Shear stress", formula="tau = 1.5 V / A", numbers="1.5 x 1000 / 3000", result=0.5)


class Writer:
    """Counts how often it is asked."""

    def __init__(self) -> None:
        self.asked = 0

    def __call__(self) -> Shown:
        """One line of working."""
        self.asked += 1
        return Shown(says="Seen.", working=(LINE,), cure="A deeper rafter.")


def check(writer: Writer) -> Check:
    """One that passes."""
    return compared(RULE, Place(rafter=1), demand=0.5, capacity=1.0, shown=writer)


def test_the_verdict_asks_for_no_working() -> None:
    """Nothing is written for demand, capacity and verdict; then all of it, once."""
    writer = Writer()
    made = check(writer)
    assert (made.verdict, made.utilisation, writer.asked) == ("passes", 0.5, 0)
    assert (made.says, made.working, made.cure, writer.asked) == ("Seen.", (LINE,), "A deeper rafter.", 1)


def test_checks_are_equal_by_what_they_show() -> None:
    """Written before, written later, or handed over written."""
    assert check(Writer()) == check(Writer())
    assert Told(Writer()) == Told(Writer()()) and hash(Told(Writer())) == hash(Told(Writer()()))
    assert Told(Writer()) != Told(Shown(says="Something else."))
    assert repr(Told(Writer())) == repr(Writer()())


def test_a_check_goes_to_another_process_with_its_working() -> None:
    """How it would be written cannot go there: so it is written first."""
    made = check(Writer())
    there = pickle.loads(pickle.dumps(made))
    assert there == made and there.working == (LINE,)
