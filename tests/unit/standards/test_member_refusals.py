"""Rules of posts, joints, metal members and pads refuse outside their range, in one sentence with a way out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

import pytest

from pentice.errors import InputError, OutsideScope, PenticeError
from pentice.standards import (
    en1993,
    en1995_dowels,
    en1995_johansen,
    en1995_members,
    en1995_notch,
    en1995_pull,
    en1995_spacing,
    en1999,
    en12056_gutters,
    pads,
)

Refusal = tuple[Callable[[], object], type[PenticeError], str]
C24 = en1995_members.TimberStrengths(
    f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.9, gamma_m=1.3
)
POST = en1995_members.TimberSection(width_mm=50.0, depth_mm=100.0)
PULL = en1995_members.TimberForces(axial_n=1000.0)
PUSH = en1995_members.TimberForces(axial_n=-1000.0)
NOTCH = en1995_notch.Notch(left_mm=100.0, to_force_mm=50.0)
NAIL = en1995_johansen.Fastener(d_mm=5.0, yield_moment_n_mm=11819.4)


def _notch(**changed: Any) -> object:
    depth, side, material = (
        changed.pop("depth", 150.0),
        changed.pop("side", "support"),
        changed.pop("material", "solid"),
    )
    notch = en1995_notch.Notch(**({"left_mm": 100.0, "to_force_mm": 50.0} | changed))
    return en1995_notch.notch_factor(notch, depth, side=side, material=material)


def _nail_pull(**changed: float) -> object:
    sizes = {"d_mm": 4.0, "head_mm": 8.0, "point_mm": 60.0, "head_side_mm": 30.0, "rho_k_kg_m3": 350.0}
    return en1995_pull.smooth_nail_pull(**(sizes | changed))


REFUSALS: dict[str, Refusal] = {
    "thin post": (
        lambda: en1995_members.bowing_post(POST, C24, length_y_mm=3000.0, length_z_mm=3000.0),
        OutsideScope,
        r"slenderness ratio z is 207.* expected 0 to 200.*thicker post",
    ),
    "pushed tie": (
        lambda: en1995_members.pulled_member(POST, PUSH, C24),
        OutsideScope,
        r"axial_n is -1000 N; expected 0",
    ),
    "bored away": (
        lambda: en1995_members.pulled_member(POST, PULL, C24, net_share=0.3),
        OutsideScope,
        r"net_share is 0.3; expected 0.5 to 1",
    ),
    "pulled post": (
        lambda: en1995_members.pushed_member(
            POST, PULL, C24, en1995_members.bowing_post(POST, C24, length_y_mm=500.0, length_z_mm=500.0)
        ),
        OutsideScope,
        r"push is -1000 N",
    ),
    "no k_crit": (
        lambda: en1995_members.slender_beam_share(bending_n_mm2=1.0, strength_n_mm2=1.0, k_crit=0.0),
        OutsideScope,
        r"k_crit is 0; expected",
    ),
    "deep notch": (lambda: _notch(left_mm=70.0), OutsideScope, r"is 0.466667; expected 0.5 to 1.*Cut less"),
    "force beyond the notch": (
        lambda: _notch(to_force_mm=61.0),
        OutsideScope,
        r"is 61 mm; expected 0 to 60 mm",
    ),
    "overhanging slope": (lambda: _notch(slope=-1.0), OutsideScope, r"slope of the notch is -1"),
    "side": (
        lambda: _notch(side="left"),
        InputError,
        r"side of the notch is left; expected support or other",
    ),
    "notched steel": (
        lambda: _notch(material="steel"),
        InputError,
        r"material is steel; expected solid or glulam",
    ),
    "thick nail": (
        lambda: en1995_dowels.nail_embedment_n_mm2(8.5, 350.0, predrilled=True),
        OutsideScope,
        r"d_mm is 8.5 mm; expected 1 to 8 mm.*rule for bolts",
    ),
    "dense timber": (
        lambda: en1995_dowels.nail_embedment_n_mm2(4.0, 550.0, predrilled=False),
        OutsideScope,
        r"rho_k_kg_m3 is 550.*Drill the hole first",
    ),
    "thick bolt": (lambda: en1995_dowels.bolt_embedment_n_mm2(31.0, 350.0), OutsideScope, r"d_mm is 31 mm"),
    "bolt's angle": (
        lambda: en1995_dowels.bolt_embedment_n_mm2(12.0, 350.0, 91.0),
        OutsideScope,
        r"angle_deg is 91 deg",
    ),
    "soft nail": (
        lambda: en1995_dowels.nail_yield_moment_n_mm(4.0, 500.0),
        OutsideScope,
        r"f_u_n_mm2 is 500 N/mm2.*declared yield moment",
    ),
    "soft bolt": (
        lambda: en1995_dowels.bolt_yield_moment_n_mm(12.0, 100.0),
        OutsideScope,
        r"f_u_n_mm2 is 100",
    ),
    "screw without a root": (
        lambda: en1995_dowels.screw_effective_diameter_mm(thread_mm=5.0, root_mm=6.0),
        OutsideScope,
        r"root_mm is 6 mm",
    ),
    "thick screw not drilled": (
        lambda: en1995_dowels.screw_embedment_n_mm2(7.0, 350.0),
        OutsideScope,
        r"effective diameter of 7 mm is not predrilled.*Drill it first",
    ),
    "rope": (
        lambda: en1995_johansen.rope_effect_n(
            1.0, en1995_johansen.Fastener(d_mm=5.0, yield_moment_n_mm=1.0, rope=cast("Any", "staple"))
        ),
        InputError,
        r"rope is staple; expected one of none",
    ),
    "no timber": (
        lambda: en1995_johansen.timber_single_shear(
            NAIL, t_1_mm=0.0, f_h_1_n_mm2=17.0, t_2_mm=50.0, f_h_2_n_mm2=17.0
        ),
        OutsideScope,
        r"t_1 is 0; expected",
    ),
    "nail spacing": (
        lambda: en1995_spacing.nail_distances(9.0, 350.0, predrilled=False),
        OutsideScope,
        r"d_mm is 9 mm; expected 1 to 8 mm",
    ),
    "thin dowel": (
        lambda: en1995_spacing.dowel_distances(5.0),
        OutsideScope,
        r"d_mm is 5 mm; expected 6 to 30",
    ),
    "angle of bolts": (
        lambda: en1995_spacing.bolt_distances(12.0, -1.0),
        OutsideScope,
        r"angle_deg is -1 deg",
    ),
    "crowded nails": (
        lambda: en1995_spacing.nails_in_row(3, 20.0, 4.0, predrilled=False),
        OutsideScope,
        r"spacing over diameter is 5; expected 7.*stagger",
    ),
    "crowded bolts": (
        lambda: en1995_spacing.bolts_in_row(3, 30.0, 12.0),
        OutsideScope,
        r"along_mm is 30 mm; expected 36",
    ),
    "no bolt": (lambda: en1995_spacing.bolts_in_row(0, 60.0, 12.0), OutsideScope, r"count is 0"),
    "bolt beyond the beam": (
        lambda: en1995_spacing.splitting_force_n(width_mm=50.0, depth_mm=200.0, to_far_fastener_mm=200.0),
        OutsideScope,
        r"furthest fastener is 200 mm.*Move the fastener",
    ),
    "short nail": (
        lambda: _nail_pull(point_mm=30.0),
        OutsideScope,
        r"is 30 mm; expected 32 to inf mm.*longer nail",
    ),
    "no washer": (
        lambda: en1995_pull.bolt_pull(
            hole_mm=13.0, washer_mm=12.0, f_c_90_k_n_mm2=2.5, stress_area_mm2=84.3, f_u_n_mm2=400.0
        ),
        OutsideScope,
        r"washer is 12 mm over a hole of 13 mm.*larger washer",
    ),
    "grade": (
        lambda: en1993.steel("S999", 5.0),
        InputError,
        r"steel grade is S999; expected one of S235, S275, S355",
    ),
    "thick steel": (lambda: en1993.steel("S235", 81.0), OutsideScope, r"thickness_mm is 81 mm"),
    "class 4": (
        lambda: en1993.part_class("outstand, pushed", 100.0, 5.0, 235.0),
        OutsideScope,
        r"is 20.0; expected at most 14.0.*thicker section",
    ),
    "part": (
        lambda: en1993.part_class(cast("Any", "lip"), 10.0, 5.0, 235.0),
        InputError,
        r"part is lip; expected one of inside, bent",
    ),
    "factor below one": (
        lambda: en1993.steel_bending_n_mm(1.0, 235.0, 0.9),
        OutsideScope,
        r"gamma_m0 is 0.9",
    ),
    "factor below one in shear": (
        lambda: en1993.steel_shear_n(1.0, 235.0, 0.9),
        OutsideScope,
        r"gamma_m0 is 0.9",
    ),
    "more shear than it carries": (
        lambda: en1993.steel_bending_with_shear_n_mm(1.0, 2.0, 1.0),
        OutsideScope,
        r"shear over its resistance is 2",
    ),
    "curve": (
        lambda: en1993.steel_chi(1.0, cast("Any", "e")),
        InputError,
        r"buckling curve is e; expected one of a0",
    ),
    "slender steel": (
        lambda: en1993.steel_chi(3.1, "c"),
        OutsideScope,
        r"slenderness is 3.1; expected 0 to 3",
    ),
    "alloy": (
        lambda: en1999.aluminium("7075-T6", 3.0),
        InputError,
        r"alloy is 7075-T6; expected one of 6060-T5",
    ),
    "thick aluminium": (
        lambda: en1999.aluminium("6060-T6", 16.0),
        OutsideScope,
        r"thickness of 6060-T6 is 16 mm.*at most 15 mm.*supplier's papers",
    ),
    "aluminium class": (
        lambda: en1999.aluminium_chi(1.0, cast("Any", "C")),
        InputError,
        r"buckling class is C; expected A or B",
    ),
    "slender upstand": (
        lambda: en1999.aluminium_chi_sideways(1.0, 4),
        OutsideScope,
        r"section class is 4; expected 1 to 3.*stockier",
    ),
    "lopsided post": (
        lambda: en1999.aluminium_post(
            area_mm2=1.0,
            second_moment_mm4=1.0,
            length_mm=1.0,
            f_o_n_mm2=1.0,
            buckling_class="A",
            symmetrical=False,
        ),
        OutsideScope,
        r"section is not symmetrical.*Take a tube",
    ),
    "no span": (lambda: en1999.glazing_bar_sag_limit_mm(0.0), OutsideScope, r"span_mm is 0 mm"),
    "light concrete": (
        lambda: pads.pad_weight_kn(1.0, 1.0, 1.0, 12.0),
        OutsideScope,
        r"density_kn_m3 is 12 kN/m3",
    ),
    "negative weight": (
        lambda: pads.uplift_of_pad(wind_up_kn=1.0, roof_kn=-1.0, pad_kn=1.0),
        OutsideScope,
        r"roof_kn is -1 kN",
    ),
    "nothing presses": (
        lambda: pads.bearing_under_pad(vertical_kn=0.0, moment_knm=0.0, length_mm=600.0, width_mm=600.0),
        OutsideScope,
        r"vertical_kn is 0 kN.*Enlarge the pad",
    ),
    "far off the middle": (
        lambda: pads.bearing_under_pad(vertical_kn=10.0, moment_knm=2.1, length_mm=600.0, width_mm=600.0),
        OutsideScope,
        r"eccentricity is 210 mm; expected 0 to 200 mm.*Widen the pad",
    ),
    "far off the middle the other way": (
        lambda: pads.bearing_under_pad(
            vertical_kn=10.0, moment_knm=1.0, length_mm=900.0, width_mm=600.0, moment_along_length_knm=3.1
        ),
        OutsideScope,
        r"eccentricity along is 310 mm; expected 0 to 300 mm.*Widen the pad",
    ),
    "no gutter": (
        lambda: en12056_gutters.gutter_section([(0.0, 0.0)]),
        InputError,
        r"is 1 corners; expected three",
    ),
    "flat gutter": (
        lambda: en12056_gutters.gutter_section([(0.0, 0.0), (50.0, 0.0), (100.0, 0.0)]),
        InputError,
        r"expected a shape that holds water",
    ),
    "no outlet": (lambda: en12056_gutters.gutter_runs(6000.0, []), InputError, r"outlets_mm is empty"),
    "outlet beyond": (
        lambda: en12056_gutters.gutter_runs(6000.0, [7000.0]),
        InputError,
        r"outlet is at 7000 mm; expected 0 to 6000 mm",
    ),
    "no flow": (lambda: en12056_gutters.outlet_head_mm(-1.0, 68.0), OutsideScope, r"flow_l_s is -1 l/s"),
    "flat pipe": (
        lambda: en12056_gutters.rectangular_pipe_diameter_mm(200.0, 50.0),
        OutsideScope,
        r"downpipe is 200 x 50 mm.*squarer pipe",
    ),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_outside_its_range_a_rule_refuses(name: str) -> None:
    """The message says what, its value, what was expected."""
    call, kind, says = REFUSALS[name]
    with pytest.raises(kind, match=says):
        call()


def test_nothing_holds_a_post_without_weight() -> None:
    """A pull against no weight at all has no share; no pull against no weight is held."""
    assert pads.uplift_of_pad(wind_up_kn=1.0, roof_kn=0.0, pad_kn=0.0).utilisation is None
    assert pads.uplift_of_pad(wind_up_kn=-1.0, roof_kn=0.0, pad_kn=0.0).utilisation == 0.0
