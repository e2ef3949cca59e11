"""The shipped catalogue: every engineering value has its mark and source, and none is out of this world."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from importlib import resources
from itertools import pairwise
from pathlib import Path

import pytest

from pentice.catalogue import read_catalogue
from pentice.catalogue.model import KINDS
from pentice.catalogue.sheets import LoadRow, Sheet
from pentice.errors import InputError

CATALOGUE = read_catalogue()


def engineering_values() -> Iterator[str]:
    """Key path of each number of each product that has a unit in its name."""
    for kind in KINDS:
        for id, product in CATALOGUE.table(kind).items():
            for key in sorted(product.model_fields_set):
                value = getattr(product, key)
                has_unit = re.search(
                    r"_(mm2?|mm3|mm4|n_m|n|kg_m2?|kg_m3|per_k|n_mm2|deg|w_m2k|share|nm_m)$", key
                )
                creep = key.startswith("creep_")
                if (has_unit or creep or key in {"walls", "one_face", "film_days"}) and value not in (
                    None,
                    (),
                ):
                    yield f"{kind}.{id}.{key}"
            for tint in getattr(product, "optics", {}):
                yield from (
                    f"{kind}.{id}.optics.{tint}.{key}" for key in ("light", "absorptance", "sheet_most_c")
                )


def test_every_engineering_value_has_a_mark_and_a_source() -> None:
    """A value whose ground nobody can name must not look like a product's."""
    paths = list(engineering_values())
    assert len(paths) > 300
    without = [path for path in paths if (mark := CATALOGUE.mark_of(path)) is None or not mark.source]
    assert without == []


def test_nothing_shipped_claims_to_be_declared() -> None:
    """No supplier stands behind this catalogue, so no value may say that one does."""
    assert {given.mark for given in CATALOGUE.marks.values()} <= {"typical", "from memory"}
    assert {s.load_table.mark for s in CATALOGUE.sheets.values() if s.load_table} == {"typical"}


def test_every_price_says_that_it_is_invented_and_has_a_day() -> None:
    """Nobody may take a demo price for an offer."""
    for kind, model in KINDS.items():
        for id, product in CATALOGUE.table(kind).items():
            assert product.price_on is not None
            priced = [key for key in model.price_keys if getattr(product, key)]
            marks = [CATALOGUE.mark_of(f"{kind}.{id}.{key}") for key in priced]
            assert priced and all(m is not None and "invented for the demo" in m.source for m in marks)


def test_just_two_sheets_carry_an_invented_load_table_and_say_so() -> None:
    """The tables are for the demo; the file says so in capitals beside each."""
    tables = [s.load_table for s in CATALOGUE.sheets.values() if s.load_table]
    assert [t.source for t in tables] == ["invented for the demo, not a product"] * 2
    text = resources.files("pentice.catalogue").joinpath("data/catalogue.toml").read_text(encoding="utf-8")
    assert text.count("# INVENTED FOR THE DEMO. NOT A PRODUCT") == 2


@pytest.mark.parametrize("id", list(CATALOGUE.sheets))
def test_a_sheet_is_physically_possible(id: str) -> None:
    """Solid polycarbonate weighs 1200 kg/m3; B1 = nu By with nu 0.37, rounded to three figures."""
    sheet = CATALOGUE.sheets[id]
    assert sheet.bx_n_m is not None and sheet.by_n_m is not None
    assert 0.05 < sheet.mass_kg_m2 / (1200 * sheet.depth_mm / 1000) < 0.35
    assert sheet.by_n_m < sheet.bx_n_m
    assert sheet.b1_n_m == pytest.approx(0.37 * sheet.by_n_m, rel=0.003)
    assert 1.0 < sheet.creep_wind < sheet.creep_snow < sheet.creep_snow_high < sheet.creep_dead < 2.0
    assert all(s.width_mm <= 2100 and s.length_mm <= 7000 for s in sheet.stock)
    assert len({(s.width_mm, s.length_mm) for s in sheet.stock}) == len(sheet.stock)
    assert list(sheet.optics) == list(sheet.tints) == ["clear", "opal", "bronze"]
    clear, opal, bronze = sheet.optics.values()
    assert clear.light > opal.light > bronze.light
    assert clear.absorptance < opal.absorptance < bronze.absorptance
    assert all(o.light + o.absorptance < 1.05 for o in sheet.optics.values())


@pytest.mark.parametrize("id", ["sheet-10-twin", "sheet-16-triple", "sheet-25-multi"])
def test_the_declared_section_of_a_generic_sheet_gives_its_stiffness(id: str) -> None:
    """Across the flutes only the walls bend: By = E/(1 - nu2) x sum(t3/12 + t z2), worked here by hand.

    The walls stand evenly between the middles of the outer ones. Tolerance 1.5 %: the figures are rounded.
    """
    sheet = CATALOGUE.sheets[id]
    assert sheet.e_n_mm2 is not None
    top = sheet.depth_mm / 2 - sheet.skins_mm[0] / 2
    step = 2 * top / (sheet.walls - 1)
    inertia = sum(t**3 / 12 + t * (top - i * step) ** 2 for i, t in enumerate(sheet.skins_mm))
    assert sheet.by_n_m == pytest.approx(sheet.e_n_mm2 / (1 - 0.37**2) * inertia / 1000, rel=0.015)


@pytest.mark.parametrize("id", list(CATALOGUE.sheets))
def test_ribs_lie_alike_at_both_edges_of_some_stock(id: str) -> None:
    """A stock width that is a whole number of pitches has its last rib as far in as its first."""
    sheet = CATALOGUE.sheets[id]
    rests = {s.width_mm: (s.width_mm - sheet.first_rib_mm) % sheet.rib_pitch_mm for s in sheet.stock}
    assert any(rest == pytest.approx(sheet.first_rib_mm, abs=1e-6) for rest in rests.values())


def test_price_of_a_sheet_grows_with_its_area_and_its_depth() -> None:
    """An invented list may be invented, not absurd: no larger or deeper sheet is cheaper."""
    sheets = list(CATALOGUE.sheets.values())
    for sheet in sheets:
        by_area = sorted(sheet.stock, key=lambda s: (s.width_mm, s.length_mm))
        for a, b in pairwise(by_area):
            assert a.width_mm != b.width_mm or a.price < b.price
    at = [next(s.price for s in sheet.stock if (s.width_mm, s.length_mm) == (980, 3000)) for sheet in sheets]
    assert at == sorted(at)


def _strip_sag_mm(sheet: Sheet, row: LoadRow) -> float:
    """5 q b4/(384 By) + q b2/(8 Sy) with creep, and a quarter more at the end with nothing under it."""
    assert sheet.by_n_m is not None and sheet.sy_n_m is not None
    b, q = row.span_mm / 1000, row.load_kn_m2 * 1000
    creep = sheet.creep_snow_high if row.sign == "down" else sheet.creep_wind
    return 1.25 * creep * 1000 * (5 * q * b**4 / (384 * sheet.by_n_m) + q * b**2 / (8 * sheet.sy_n_m))


def _plate_sag_mm(sheet: Sheet, row: LoadRow) -> float:
    """Navier's series for a plate on four edges with shear across the flutes, by its own plain sum, 5 % more for the
    loose bearing, creep in. Along the flutes the ribs make it stiff in shear: x turns with the slope."""
    assert sheet.bx_n_m and sheet.by_n_m and sheet.b1_n_m and sheet.dt_n_m and sheet.sy_n_m
    assert row.length_between_supports_mm is not None
    a, b, q = row.length_between_supports_mm / 1000, row.span_mm / 1000, row.load_kn_m2 * 1000
    twist, total = sheet.dt_n_m, 0.0
    for m in range(1, 40, 2):
        for n in range(1, 40, 2):
            x, y = m * math.pi / a, n * math.pi / b
            # Slopes psi_x = x w, psi_y = r w; the moment across the flutes and the shear there balance.
            r = (
                y
                * (sheet.sy_n_m - (sheet.b1_n_m + twist) * x * x)
                / (sheet.by_n_m * y * y + twist * x * x + sheet.sy_n_m)
            )
            stiff = (
                sheet.bx_n_m * x**4
                + twist * x * x * y * y
                + (sheet.b1_n_m + twist) * x * x * y * r
                + sheet.sy_n_m * y * (y - r)
            )
            sign = (-1) ** ((m - 1) // 2 + (n - 1) // 2)
            total += sign * 16 * q / (m * n * math.pi**2) / stiff
    return 1.05 * sheet.creep_snow_high * 1000 * total


TABLED = ["sheet-16-triple", "sheet-35-multi"]


@pytest.mark.parametrize("id", TABLED)
def test_no_row_of_an_invented_table_is_bolder_than_the_mechanics(id: str) -> None:
    """At each row's load the sheet would sag less than span/24, by a strip or a plate worked here; a printed sag is
    never less than that. Tolerance: 0.5 % of the series.
    """
    sheet = CATALOGUE.sheets[id]
    assert sheet.load_table is not None
    assert sheet.load_table.mark == "typical" and "invented" in sheet.load_table.source
    for row in sheet.load_table.rows:
        free = row.length_between_supports_mm is None
        sag = _strip_sag_mm(sheet, row) if free else _plate_sag_mm(sheet, row)
        span = min(row.span_mm, row.length_between_supports_mm or row.span_mm)
        assert sag <= 1.005 * span / 24
        assert row.sag_mm is None or row.sag_mm >= 0.995 * sag


@pytest.mark.parametrize("id", TABLED)
def test_the_purlin_table_carries_more_the_closer_the_purlins(id: str) -> None:
    """At one span, a shorter length between supports never carries less."""
    table = CATALOGUE.sheets[id].load_table
    assert table is not None
    rows = [r for r in table.rows if r.supports == "four edges"]
    for span in {r.span_mm for r in rows}:
        at = sorted(
            (r for r in rows if r.span_mm == span), key=lambda r: r.length_between_supports_mm or math.inf
        )
        assert [r.load_kn_m2 for r in at] == sorted((r.load_kn_m2 for r in at), reverse=True)
        assert len(at) == 3


def test_every_sheet_has_a_bar_profiles_tapes_and_a_button() -> None:
    """Without one of them no roof in that sheet could be made from the shipped catalogue."""
    c = CATALOGUE
    for sheet in c.sheets.values():
        d = sheet.depth_mm
        assert any(d in bar.sheet_depths_mm for bar in c.bars.values())
        assert any(button.depth_mm == d for button in c.buttons.values())
        for use in ("head", "foot", "edge"):
            assert any(p.use == use and p.inside_mm == d + 1.5 for p in c.profiles.values())
        for use in ("solid", "breather"):
            assert any(t.use == use and d in t.sheet_depths_mm and t.width_mm > d for t in c.tapes.values())


def test_there_is_a_seal_for_base_cap_and_edge_profile() -> None:
    """The sheet lies on a strip in an edge profile: without one the order would forget it."""
    assert {seal.use for seal in CATALOGUE.seals.values()} == {"base", "cap", "profile"}


def test_there_is_a_screw_for_bars_profiles_and_frame() -> None:
    """A button comes with its own screw; every other screw that the order counts is sold."""
    assert {screw.use for screw in CATALOGUE.screws.values()} == {"bar", "profile", "frame"}


def test_a_six_mm_screw_row_fits_a_seventy_mm_rafter() -> None:
    """Gauge + 8 d (4 d to each edge, EN 1995-1-1, Table 8.6, from memory): 22 + 48 = 70."""
    for bar in CATALOGUE.bars.values():
        assert bar.hole_gauge_mm + 8 * CATALOGUE.screws["screw-6x60"].d_mm <= 70


def test_bar_screws_of_six_mm_lie_in_the_range_of_the_withdrawal_formula() -> None:
    """EN 1995-1-1, 8.7.2: 6 to 12 mm, root 0.6 to 0.75 of the thread; the 5 mm screw must not pass for one."""
    for id, screw in CATALOGUE.screws.items():
        inside = 6 <= screw.d_mm <= 12 and 0.6 <= screw.root_mm / screw.d_mm <= 0.75
        assert inside == id.startswith("screw-6")
        assert screw.f_ax_n_mm2 is None


def test_a_half_round_gutter_holds_the_half_circle() -> None:
    """pi d2 / 8 rounded down, depth half the width."""
    for gutter in CATALOGUE.gutters.values():
        assert gutter.area_mm2 == pytest.approx(3.14159265 * gutter.width_mm**2 / 8, abs=1.0)
        assert gutter.depth_mm == gutter.width_mm / 2
        assert gutter.downpipe_mm < gutter.outlet_mm < gutter.width_mm
        assert set(gutter.parts) == set(
            ("bracket", "union", "stop end", "outlet", "downpipe", "downpipe clip", "shoe", "leaf guard")
        )


PARTS = [
    ("damp-proof strip", "stand-off", "plate fixing", "plate fixing resin", "rafter hanger"),
    ("post base", "strap", "bracing", "bolt", "foot closure", "pad concrete"),
    ("foot end cap", "cap stop", "flashing primer", "snow guard", "not-a-walkway sign"),
    (
        "gutter bracket",
        "gutter union",
        "gutter end",
        "gutter outlet",
        "downpipe",
        "downpipe clip",
        "shoe",
        "leaf guard",
    ),
    ("lubricant", "blades", "bits", "cloths"),
]


@pytest.mark.parametrize("part", [part for group in PARTS for part in group])
def test_a_sundry_stands_for_each_part_of_a_finished_roof(part: str) -> None:
    """The parts of a finished roof that are no sheet, bar, profile, timber or tape: common practice, no source."""
    assert any(sundry.part == part for sundry in CATALOGUE.sundries.values())


def test_an_invented_table_cannot_be_passed_off_as_declared(tmp_path: Path) -> None:
    """Even by a file that replaces the whole table."""
    path = tmp_path / "own.toml"
    path.write_text(
        '[sheets.sheet-16-triple.load_table]\nspan_is = "clear"\nbasis = "design"\nduration = "wind only"\n'
        'mark = "declared"\nsource = "invented for the demo"\n'
        'rows = [{ span_mm = 600, supports = "two edges", sign = "up", load_kn_m2 = 1 }]\n',
        encoding="utf-8",
    )
    with pytest.raises(InputError, match="an invented table is never declared"):
        read_catalogue([path])
