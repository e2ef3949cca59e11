"""Inputs of the checks in words and with their units: a key path names a line of a file, not a thing on a roof."""

from __future__ import annotations

import re

_KNOWN = {
    "site.altitude_m": "Height above the sea",
    "site.ground_snow_kn_m2": "Snow on the ground",
    "site.snow_zone": "Zone of the snow map",
    "site.vb0_m_s": "Wind velocity of the map",
    "site.imposed_point_kn": "Weight of a person with tools",
    "site.inwards": "Wind on closed sides, inwards, of the peak",
    "site.outwards": "Wind on closed sides, outwards, of the peak",
    "site.left": "Wind on the left end, in and out, of the peak",
    "site.right": "Wind on the right end, in and out, of the peak",
    "site.front": "Wind on the front, in and out, of the peak",
    "site.back": "Wind on the back, in and out, of the peak",
    "site.peak_pressure_kn_m2": "Peak wind pressure",
    "site.air_min_c": "Coldest air",
    "site.rain_l_s_m2": "Rain to reckon with",
    "roof.pitch_deg": "Pitch of the roof",
    "roof.width_mm": "Roof, width along the eaves",
    "roof.projection_mm": "Roof, level from head to eaves",
    "roof.head_height_mm": "Roof, height at its head",
    "roof.eaves_height_mm": "Roof, height at its eaves",
    "roof.overhang_on_slope_mm": "Roof, from its beam down the slope to its edge",
    "frame.rafter_mm": "Rafter, width and depth",
    "frame.rafter_notch_mm": "Rafter, depth of its birdsmouth over the beam",
    "frame.head_notch_mm": "Rafter, depth of its birdsmouth at the head",
    "frame.service_class": "Service class of the timber",
    "frame.beam_mm": "Beam, width and depth",
    "frame.post_mm": "Post, along its beam and square to it",
    "frame.beam_section": "Beam, metal section",
    "frame.post_section": "Post, metal section",
    "sections.metal": "Section, grade or alloy",
    "sections.web_mm": "Section, thickness of its web or wall",
    "frame.posts_at_mm": "Posts, centres from the left",
    "frame.head_posts_at_mm": "Posts at the head, centres from the left",
    "frame.barge_board_mm": "Barge board, thickness and depth",
    "frame.wall_plate_mm": "Wall plate, out from the wall and upright",
    "frame.wall_fixings_at_mm": "Wall fixings, places from the left",
    "frame.wall_fixing_spacing_mm": "Wall fixings, widest spacing",
    "frame.wall_fixing_shear_kn": "Wall fixing, along the wall, design value",
    "frame.wall_fixing_pull_kn": "Wall fixing, out of the wall, design value",
    "frame.hanger_down_kn": "Seat or hanger at the plate, down, design value",
    "frame.hanger_up_kn": "Hanger or tie at the plate, up, design value",
    "frame.hanger_level_kn": "Hanger at the plate, level, design value",
    "frame.rafter_tie_kn": "Tie from rafter to beam, design value",
    "frame.rafter_tie_level_kn": "Tie from rafter to beam, level, design value",
    "frame.post_tie_kn": "Tie from beam to post, design value",
    "frame.post_tie_level_kn": "Tie from beam to post, level, design value",
    "frame.post_base_kn": "Post base, up, design value",
    "frame.post_base_level_kn": "Post base, level, design value",
    "frame.fasteners": "Nails, screws or bolts of the joint",
    "frame.pad_mm": "Pad: length, width, depth",
    "frame.bracing": "What braces the row of posts",
    "frame.bracing_kn": "Bracing of the row, design value",
    "frame.noggin_mm": "Noggin and purlin, width and depth",
    "frame.noggins_at_mm": "Noggins, from the head along the slope",
    "frame.mullion_mm": "Mullion and transom, width and depth",
    "frame.mullion_end_kn": "End of a mullion or transom, level, design value",
    "frame.sill_mm": "Sill, in the wall's thickness and upright",
    "frame.sill_fixing_spacing_mm": "Sill fixings, widest spacing",
    "frame.sill_fixing_kn": "Sill fixing, level, design value",
    "frame.purlins_at_mm": "Purlins, from the head along the slope",
    "frame.purlin_end_kn": "End of a purlin on the rafter, design value",
    "frame.beam_web_kn": "Web of the metal beam over a post, design value",
    "frame.bracing_across": "What braces the roof across",
    "frame.bracing_across_kn": "Bracing across, design value",
    "frame.head_beam_mm": "Head beam, width and depth",
    "frame.knee_mm": "Knee brace, from faces: down the post, along the beam",
    "frame.brace_kn": "One brace with its ends, design value",
    "frame.knee_bolts": "Knee braces, bolts at each end",
    "frame.knee_bolt_mm": "Knee braces, diameter of a bolt",
    "frame.knee_bolt_planes": "Knee braces, shear planes of a bolt",
    "frame.knee_brace_mm": "Knee braces, thickness",
    "frame.knee_hole_mm": "Knee braces, holes wider than their bolts by",
    "frame.sway_limit": "Height of posts over their sway, limit",
    "frame.knee_across_mm": "Knee brace across: down the post, along the rafter level",
    "frame.brace_across_kn": "One knee brace across with its ends, design value",
    "frame.brace_across_n_mm": "One knee brace across with its ends, stiffness",
    "frame.knee_tie_kn": "Tie from a braced rafter to its beam, design value",
    "frame.knee_head_kn": "Joint of post, beam and rafter across, design value",
    "frame.knee_head_knm": "Joint of post, beam and rafter against rolling, design value",
    "frame.post_foot_knm": "Foot of a post against turning, design value",
    "frame.post_foot_knm_rad": "Foot of a post against turning, stiffness",
    "site.ground_friction": "Friction under the pads, design value",
    "site.ground_bearing_kn_m2": "Ground under the pads, design value",
    "glazing.sheet_fit_c": "Sheet temperature when fitted",
    "glazing.sheet_temperature_c": "Sheet temperature when cut",
    "measured.sheet_temperature_c": "Sheet temperature when cut",
    "glazing.sheet_most_c": "Hottest sheet",
    "glazing.sheet_absorptivity": "Sheet, share of the sun it keeps",
    "site.air_max_c": "Hottest air in the shade",
    "prying factor": "Prying of a screw",
    "EN 12056-3 factors": "Factors of EN 12056-3",
    "sheets.alpha_per_k": "Sheet, expansion",
    "sheets.load_table": "Sheet, its load table",
    "sheets.mass_kg_m2": "Sheet, mass",
    "sheets.fall_least_deg": "Sheet, least fall",
    "sheets.by_n_m": "Sheet, bending stiffness across the flutes",
    "sheets.sy_n_m": "Sheet, shear stiffness across the flutes",
    "sheets.skins_mm": "Sheet, thickness of its skins",
    "sheets.rib_mm": "Sheet, thickness of a rib",
    "sheets.e_n_mm2": "Sheet, modulus of elasticity",
    "sheets.creep_snow": "Sheet, creep under snow",
    "sheets.creep_snow_high": "Sheet, creep under snow in the mountains",
    "sheets.creep_dead": "Sheet, creep under its weight",
    "sheets.creep_wind": "Sheet, creep under wind",
    "bars.i_mm4": "Bar, second moment of its section",
    "bars.w_mm3": "Bar, section modulus",
    "bars.shear_area_mm2": "Bar, webs along the load",
    "bars.alloy": "Bar, alloy and temper",
    "bars.bending_down_knm": "Bar, declared bending resistance under load",
    "bars.bending_up_knm": "Bar, declared bending resistance in uplift",
    "bars.web_kn": "Bar, its webs over a bearing, design value",
    "bars.rebate_mm": "Bar, rebate",
    "bars.cap_hold_n_m": "Bar, cap hold",
    "bars.hole_gauge_mm": "Bar, gauge of holes",
    "bars.pull_through_n": "Bar, pull-through of its seat",
    "profiles.arm_mm": "Profile at that edge, arm",
    "profiles.hold_n_m": "Edge profile, its hold",
    "gutters.width_mm": "Gutter, width inside",
    "gutters.area_mm2": "Gutter, section of the water",
    "gutters.outline_mm": "Gutter, corners of its inside",
    "gutters.depth_mm": "Gutter, sole to lip",
    "gutters.depth_factor": "Gutter, depth factor read from its figure",
    "gutters.shape_factor": "Gutter, shape factor read from its figure",
    "gutters.flow_l_s": "Gutter, flow as declared",
    "screws.d_mm": "Bar screw, diameter",
    "screws.spacing_mm": "Bar screws, spacing",
    "screws.thread_mm": "Bar screw, thread length",
    "screws.root_mm": "Bar screw, root",
    "screws.f_tens_n": "Bar screw, tension",
    "screws.f_ax_n_mm2": "Bar screw, withdrawal",
    "timbers.class": "Timber, strength class",
}
_UNITS = (
    ("_kn_m2", "kN/m2"), ("_kg_m2", "kg/m2"), ("_l_s_m2", "l/s m2"), ("_n_mm2", "N/mm2"), ("_n_m", "N/m"),
    ("_n_mm", "N/mm"), ("_knm_rad", "kNm/rad"), ("_knm", "kNm"), ("_kn", "kN"), ("_mm3", "mm3"), ("_mm4", "mm4"),
    ("_mm2", "mm2"), ("_l_s", "l/s"), ("_m_s", "m/s"), ("_per_k", "1/K"), ("_deg", "deg"), ("_mm", "mm"), ("_n", "N"),
    ("_c", "°C"), ("_m", "m"),
)  # fmt: skip
_OPENING = {
    "width_mm": "width",
    "left_mm": "height at its left end",
    "right_mm": "height at its right end",
}
_OWN_UNITS = {"sheets.by_n_m": "N m", "sheets.skins_mm": "mm"}


def _short(path: str) -> str:
    """The key without the id of a product.

    Examples
    --------
    >>> _short("bars.bar-60-35.rebate_mm"), _short("site.vb0_m_s")
    ('bars.rebate_mm', 'site.vb0_m_s')
    """
    table, _, rest = path.partition(".")
    _, dot, key = rest.rpartition(".")
    return f"{table}.{key}" if dot else path


def unit_of(path: str) -> str:
    """The unit that a key ends in; empty where it has none.

    Examples
    --------
    >>> unit_of("site.ground_snow_kn_m2"), unit_of("frame.service_class")
    ('kN/m2', '')
    """
    short = _short(path)
    return _OWN_UNITS.get(short) or next((unit for end, unit in _UNITS if short.endswith(end)), "")


_OF_TWO_ROWS = {"frame.posts_at_mm": "Posts at the eaves, centres from the left"}
"""Names where a roof stands on two rows of posts, that of the head named apart."""


def input_words(path: str, *, two_rows: bool = False) -> str:
    """An input in words; a key that is not known by words is read out without its unit.

    Parameters
    ----------
    path
        Key of the job or of the catalogue.
    two_rows
        Whether the roof stands on two rows of posts.

    Returns
    -------
    str
        With a capital.

    Examples
    --------
    >>> input_words("bars.bar-60-35.cap_hold_n_m"), input_words("site.vb0_m_s")
    ('Bar, cap hold', 'Wind velocity of the map')
    >>> input_words("frame.barge_board_mm")
    'Barge board, thickness and depth'
    >>> input_words("side_sheets[0].left_mm")
    'Opening of side sheet 1, height at its left end'
    """
    opening = re.fullmatch(r"side_sheets\[(\d+)\]\.(\w+)", path)
    if opening is not None:
        return f"Opening of side sheet {int(opening[1]) + 1}, {_OPENING.get(opening[2], opening[2])}"
    short = _short(path)
    if two_rows and short in _OF_TWO_ROWS:
        return _OF_TWO_ROWS[short]
    if short in _KNOWN:
        return _KNOWN[short]
    table, _, key = short.partition(".")
    for end, _ in _UNITS:
        if key.endswith(end):
            key = key.removesuffix(end)
            break
    words = re.sub(r"[_.]+", " ", key).strip()
    said = f"{table}, {words}" if words else table
    return said[:1].upper() + said[1:]
