"""DXF is read again by its library and audited: layers, true dimensions, the same bytes with two hash seeds."""

from __future__ import annotations

import hashlib
import io
from collections import Counter

import pytest
from ezdxf.document import Drawing
from ezdxf.entities.dimension import Dimension as Size
from ezdxf.filemanagement import read as read_dxf

from pentice.drawing.dxf import render_dxf
from pentice.drawing.scene import (
    Arc,
    Area,
    Circle,
    Dimension,
    Group,
    Line,
    Pinned,
    Polyline,
    Running,
    Scene,
    Text,
)
from pentice.drawing.symbols import bay_number, disc
from tests.unit.drawing.seeds import printed

SQUARE = ((0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (0.0, 500.0))


def scene() -> Scene:
    """One of each primitive."""
    return Scene(
        primitives=(
            Line(a=(0.0, 0.0), b=(4000.0, 0.0), style="chain"),
            Polyline(points=((0.0, 0.0), (100.0, 50.0)), style="hair"),
            Arc(centre=(0.0, 0.0), radius=100.0, start_deg=0.0, end_deg=90.0),
            Circle(centre=(0.0, 0.0), radius=34.0),
            Text(at=(10.0, 20.0), text="WALL", h_mm=3.5),
            Area(points=SQUARE, fill="brick", style="extra wide"),
            Area(points=SQUARE, fill="timber end"),
            Dimension(a=(0.0, 0.0), b=(4000.0, 300.0), text="4000 wide", axis="x", kind="overall"),
            Dimension(a=(0.0, 0.0), b=(300.0, 400.0), text="500"),
            Running(origin=(0.0, 0.0), stops=((35.0, "35"), (883.0, "883"))),
            Group(content=(bay_number((300.0, 300.0), "3"), disc((600.0, 600.0), "2"))),
            Pinned(at=(100.0, 100.0), content=(Line(a=(0.0, 0.0), b=(2.0, 0.0)),)),
        ),
        title="All",
        desc="One of each.",
        scale=25.0,
    )


def read(data: bytes) -> Drawing:
    """The document that comes back."""
    return read_dxf(io.StringIO(data.decode("utf-8")))


def test_audit_finds_nothing_to_mend() -> None:
    """Zero errors and zero fixes: any program may open it."""
    audit = read(render_dxf(scene())).audit()
    assert (len(audit.errors), len(audit.fixes)) == (0, 0)


def test_each_primitive_becomes_its_entity() -> None:
    """Counted by hand from the scene: 2 dimensions and 2 running stops are 4 true DIMENSIONs."""
    found = Counter(e.dxftype() for e in read(render_dxf(scene())).modelspace())
    assert found["DIMENSION"] == 4
    assert found["ARC"] == 1
    assert found["TEXT"] == 3
    assert found["HATCH"] == 2  # brick, and the black disc
    assert found["LINE"] == 4  # chain, two diagonals of the timber end, the pinned one


def test_dimensions_measure_the_geometry_in_mm() -> None:
    """To 1e-6: coordinates are written with more digits than that."""
    doc = read(render_dxf(scene()))
    found = [e for e in doc.modelspace() if isinstance(e, Size) and e.dimtype < 2]
    linear = {e.dxf.text: e.get_measurement() for e in found}
    assert linear["4000 wide"] == pytest.approx(4000.0, abs=1e-6)
    assert linear["500"] == pytest.approx(500.0, abs=1e-6)


def test_y_is_turned_up_and_symbols_grow_by_the_scale() -> None:
    """A stroke of 2 mm of paper is 50 mm at 1:25, at the point it is pinned to. To 1e-6 as above."""
    doc = read(render_dxf(scene()))
    stroke = next(
        e for e in doc.modelspace().query("LINE") if e.dxf.start.x == pytest.approx(100.0, abs=1e-6)
    )
    assert stroke.dxf.start.y == pytest.approx(-100.0, abs=1e-6)
    assert (stroke.dxf.end - stroke.dxf.start).x == pytest.approx(50.0, abs=1e-6)


def test_layers_carry_the_line_weights_and_units_are_mm() -> None:
    """Hundredths of a mm, all allowed by the format."""
    doc = read(render_dxf(scene()))
    assert doc.dxfversion == "AC1032"
    assert doc.units == 4
    weights = {layer.dxf.name: layer.dxf.lineweight for layer in doc.layers}
    assert weights["PENTICE-EXTRA-WIDE"] == 100
    assert weights["PENTICE-HAIR"] == 13
    assert doc.layers.get("PENTICE-CHAIN").dxf.linetype == "PENTICE-CHAIN"


def test_two_hash_seeds_give_the_same_bytes() -> None:
    """The library orders its class table by a set; the file must not show it."""
    code = (
        "import hashlib; from tests.unit.drawing.test_dxf import scene; "
        "from pentice.drawing.dxf import render_dxf; print(hashlib.sha256(render_dxf(scene())).hexdigest())"
    )
    digests = {printed(code, seed=seed) for seed in (1, 2)}
    assert digests == {hashlib.sha256(render_dxf(scene())).hexdigest()}
