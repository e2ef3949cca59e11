"""Section properties of bars and posts of any straight-sided shape: tubes, angles, tees, channels, I-shapes.

A section is an outline of corners (y to the right, z up, in mm) and may have holes. Corner radii are left out, which is
a little on the safe side for a rolled tube's outside and a little off it for an angle's root. i_y belongs to bending
about the level axis (a load from above), i_z to bending about the upright one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, pi

from pentice.errors import InputError, require_within

Corner = tuple[float, float]
Outline = tuple[Corner, ...]

_SOURCE = "a section has a size"


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Properties of a section about the axes through its centroid [mm, mm2, mm3, mm4].

    The axis of i_1 (the greater second moment) stands at angle_deg to the level axis, counter-clockwise. w_top and so
    on are elastic moduli to the outermost corner on that side; w_pl are plastic ones.
    """

    area_mm2: float
    centroid_y_mm: float
    centroid_z_mm: float
    i_y_mm4: float
    i_z_mm4: float
    i_yz_mm4: float
    i_1_mm4: float
    i_2_mm4: float
    angle_deg: float
    w_top_mm3: float
    w_bottom_mm3: float
    w_left_mm3: float
    w_right_mm3: float
    w_pl_y_mm3: float
    w_pl_z_mm3: float

    @property
    def w_y_mm3(self) -> float:
        """Lesser elastic modulus about the level axis [mm3]."""
        return min(self.w_top_mm3, self.w_bottom_mm3)

    @property
    def w_z_mm3(self) -> float:
        """Lesser elastic modulus about the upright axis [mm3]."""
        return min(self.w_left_mm3, self.w_right_mm3)


def profile(outline: Outline, holes: Sequence[Outline] = ()) -> Profile:
    """Area, centroid, second moments, elastic and plastic moduli of a section with straight sides.

    Parameters
    ----------
    outline
        Corners (y, z) of the outside, in either order of going round [mm].
    holes
        Corners of each hole, wholly inside the outline [mm].

    Returns
    -------
    Profile
        Properties about the centroid [mm, mm2, mm3, mm4].

    Raises
    ------
    InputError
        An outline has fewer than three corners, or no area is left.

    Source
    ------
    Sums over the sides of a polygon (Green's theorem); plastic moduli about the axis that halves the area.

    Examples
    --------
    >>> round(profile(tee_outline(60.0, 60.0, 2.0, 2.0)).i_y_mm4, 1)
    85643.4
    """
    parts = [_turned(outline, 1.0), *(_turned(hole, -1.0) for hole in holes)]
    area, s_y, s_z, i_y, i_z, i_yz = (
        sum(values) for values in zip(*(_moments(p) for p in parts), strict=True)
    )
    if area <= 1e-9:
        raise InputError.of("section", f"{area:g} mm2", "expected an outline larger than its holes")
    y, z = s_y / area, s_z / area
    i_y, i_z, i_yz = i_y - area * z**2, i_z - area * y**2, i_yz - area * y * z
    mean, half, lean = (i_y + i_z) / 2.0, (i_y - i_z) / 2.0, hypot((i_y - i_z) / 2.0, i_yz)
    angle = 0.0 if lean < 1e-9 * mean else degrees(atan2(-i_yz, half)) / 2.0
    return Profile(
        area_mm2=area,
        centroid_y_mm=y,
        centroid_z_mm=z,
        i_y_mm4=i_y,
        i_z_mm4=i_z,
        i_yz_mm4=i_yz,
        i_1_mm4=mean + lean,
        i_2_mm4=mean - lean,
        angle_deg=angle,
        w_top_mm3=i_y / (max(c[1] for c in outline) - z),
        w_bottom_mm3=i_y / (z - min(c[1] for c in outline)),
        w_left_mm3=i_z / (y - min(c[0] for c in outline)),
        w_right_mm3=i_z / (max(c[0] for c in outline) - y),
        w_pl_y_mm3=_plastic_mm3(parts, area),
        w_pl_z_mm3=_plastic_mm3([tuple((b, -a) for a, b in p) for p in parts], area),
    )


def rectangle_outline(width_mm: float, depth_mm: float, wall_mm: float = 0.0) -> Outline:
    """Corners of a rectangle standing on its lower left corner, or of the hole of a tube with that wall.

    Parameters
    ----------
    width_mm, depth_mm
        Outside size [mm].
    wall_mm
        Thickness taken off all round: 0 gives the outside, a tube's wall gives its hole [mm].

    Returns
    -------
    Outline
        Four corners (y, z) [mm].

    Raises
    ------
    OutsideScope
        The wall is as thick as half the section.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> tube = profile(rectangle_outline(60.0, 60.0), [rectangle_outline(60.0, 60.0, 3.0)])
    >>> round(tube.area_mm2, 6)
    684.0
    """
    _require_sizes({"width_mm": width_mm, "depth_mm": depth_mm})
    thickest = min(width_mm, depth_mm) / 2.0 * 0.999
    require_within("wall_mm", wall_mm, 0.0, thickest, unit="mm", source=_SOURCE)
    right, top = width_mm - wall_mm, depth_mm - wall_mm
    return ((wall_mm, wall_mm), (right, wall_mm), (right, top), (wall_mm, top))


def angle_outline(width_mm: float, depth_mm: float, thickness_mm: float) -> Outline:
    """Corners of an angle: one leg level along the bottom, one upright at the left.

    Parameters
    ----------
    width_mm, depth_mm
        Length of the level and of the upright leg, over all [mm].
    thickness_mm
        Thickness of both legs [mm].

    Returns
    -------
    Outline
        Six corners (y, z) [mm].

    Raises
    ------
    OutsideScope
        The leg is thicker than it is long.

    Source
    ------
    Geometry, without root and toe radii.

    Examples
    --------
    >>> round(profile(angle_outline(50.0, 50.0, 5.0)).area_mm2, 6)
    475.0
    """
    _require_sizes({"width_mm": width_mm, "depth_mm": depth_mm})
    thickest = min(width_mm, depth_mm) * 0.999
    require_within("thickness_mm", thickness_mm, 1e-6, thickest, unit="mm", source=_SOURCE)
    t = thickness_mm
    return ((0.0, 0.0), (width_mm, 0.0), (width_mm, t), (t, t), (t, depth_mm), (0.0, depth_mm))


def tee_outline(width_mm: float, depth_mm: float, flange_mm: float, stem_mm: float) -> Outline:
    """Corners of a tee standing on its flange, as a glazing bar does: the stem points up.

    Parameters
    ----------
    width_mm, depth_mm
        Width of the flange and depth over all [mm].
    flange_mm, stem_mm
        Thickness of flange and stem [mm].

    Returns
    -------
    Outline
        Eight corners (y, z), the flange centred about the stem [mm].

    Raises
    ------
    OutsideScope
        Flange or stem is thicker than the section.

    Source
    ------
    Geometry, without radii.

    Examples
    --------
    >>> round(profile(tee_outline(60.0, 60.0, 2.0, 2.0)).area_mm2, 6)
    236.0
    """
    _require_sizes({"width_mm": width_mm, "depth_mm": depth_mm})
    require_within("flange_mm", flange_mm, 1e-6, depth_mm * 0.999, unit="mm", source=_SOURCE)
    require_within("stem_mm", stem_mm, 1e-6, width_mm * 0.999, unit="mm", source=_SOURCE)
    left, right = (width_mm - stem_mm) / 2.0, (width_mm + stem_mm) / 2.0
    stem = ((right, flange_mm), (right, depth_mm), (left, depth_mm), (left, flange_mm))
    return ((0.0, 0.0), (width_mm, 0.0), (width_mm, flange_mm), *stem, (0.0, flange_mm))


def channel_outline(width_mm: float, depth_mm: float, flange_mm: float, web_mm: float) -> Outline:
    """Corners of a channel with its web upright at the left and its flanges pointing right.

    Parameters
    ----------
    width_mm, depth_mm
        Width of the flanges and depth, over all [mm].
    flange_mm, web_mm
        Thickness of each flange and of the web [mm].

    Returns
    -------
    Outline
        Eight corners (y, z) [mm].

    Raises
    ------
    OutsideScope
        The flanges meet, or the web is thicker than the section.

    Source
    ------
    Geometry, without radii.

    Examples
    --------
    >>> round(profile(channel_outline(50.0, 100.0, 6.0, 5.0)).area_mm2, 6)
    1040.0
    """
    _require_sizes({"width_mm": width_mm, "depth_mm": depth_mm})
    require_within("flange_mm", flange_mm, 1e-6, depth_mm / 2.0 * 0.999, unit="mm", source=_SOURCE)
    require_within("web_mm", web_mm, 1e-6, width_mm * 0.999, unit="mm", source=_SOURCE)
    inside = ((web_mm, flange_mm), (web_mm, depth_mm - flange_mm), (width_mm, depth_mm - flange_mm))
    outside = ((width_mm, depth_mm), (0.0, depth_mm))
    return ((0.0, 0.0), (width_mm, 0.0), (width_mm, flange_mm), *inside, *outside)


def round_tube_outline(diameter_mm: float, sides: int = 180) -> Outline:
    """Corners of a polygon of the same area as a circle, for a round tube or its hole.

    Parameters
    ----------
    diameter_mm
        Diameter of the circle [mm].
    sides
        Number of sides, at least 24 [-].

    Returns
    -------
    Outline
        Corners (y, z) about the middle [mm]; with 180 sides the second moment is out by less than 0.01 %.

    Raises
    ------
    OutsideScope
        The diameter is not positive, or there are fewer than 24 sides.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> round(profile(round_tube_outline(60.0)).area_mm2, 4)
    2827.4334
    """
    from math import cos, sin, sqrt

    _require_sizes({"diameter_mm": diameter_mm})
    require_within("sides", sides, 24, 1e5, source="a circle by straight sides")
    step = 2.0 * pi / sides
    radius = diameter_mm / 2.0 * sqrt(step / sin(step))
    return tuple((radius * cos(i * step), radius * sin(i * step)) for i in range(sides))


def open_torsion_mm4(plates_mm: Sequence[tuple[float, float]]) -> float:
    """Torsion constant of an open section made of thin plates.

    Parameters
    ----------
    plates_mm
        Length and thickness of each plate, along its middle line [mm].

    Returns
    -------
    float
        I_t = sum of b t3 / 3 less 0.63 t4 / 3 for the ends of each plate [mm4]; the gain at roots is left out.

    Raises
    ------
    OutsideScope
        A plate is thicker than a third of its length: the rule holds for thin plates.

    Source
    ------
    Saint-Venant torsion of narrow rectangles, any textbook of strength of materials.

    Examples
    --------
    >>> round(open_torsion_mm4([(60.0, 2.0), (59.0, 2.0)]), 3)
    310.613
    """
    for length, thickness in plates_mm:
        require_within("plate thickness", thickness, 1e-6, length / 3.0, unit="mm", source="thin plates")
    return sum((b - 0.63 * t) * t**3 / 3.0 for b, t in plates_mm)


def tube_torsion_mm4(middle_area_mm2: float, middle_round_mm: float, wall_mm: float) -> float:
    """Torsion constant of a thin tube of even wall, round or square.

    Parameters
    ----------
    middle_area_mm2
        Area inside the middle line of the wall [mm2].
    middle_round_mm
        Length of the middle line [mm].
    wall_mm
        Thickness of the wall [mm].

    Returns
    -------
    float
        I_t = 4 A2 t / s [mm4].

    Raises
    ------
    OutsideScope
        A size is not positive.

    Source
    ------
    Bredt's second formula.

    Examples
    --------
    >>> round(tube_torsion_mm4(57.0**2, 4 * 57.0, 3.0))
    555579
    """
    sizes = {
        "middle_area_mm2": middle_area_mm2,
        "middle_round_mm": middle_round_mm,
        "wall_mm": wall_mm,
    }
    _require_sizes(sizes)
    return 4.0 * middle_area_mm2**2 * wall_mm / middle_round_mm


def _require_sizes(sizes: dict[str, float]) -> None:
    for name, size in sizes.items():
        require_within(name, size, 1e-6, 1e7, unit="mm", source=_SOURCE)


def _turned(corners: Outline, sign: float) -> Outline:
    """The corners in the order that gives the area this sign."""
    if len(corners) < 3:
        raise InputError.of("outline", f"{len(corners)} corners", "expected three or more")
    return corners if _moments(corners)[0] * sign > 0.0 else tuple(reversed(corners))


def _moments(corners: Outline) -> tuple[float, float, float, float, float, float]:
    """Area, first moments (y, z), second moments about the origin, with the sign of the way round."""
    area = s_y = s_z = i_y = i_z = i_yz = 0.0
    for (y0, z0), (y1, z1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        cross = y0 * z1 - y1 * z0
        area += cross / 2.0
        s_y += (y0 + y1) * cross / 6.0
        s_z += (z0 + z1) * cross / 6.0
        i_y += (z0**2 + z0 * z1 + z1**2) * cross / 12.0
        i_z += (y0**2 + y0 * y1 + y1**2) * cross / 12.0
        i_yz += (y0 * z1 + 2.0 * y0 * z0 + 2.0 * y1 * z1 + y1 * z0) * cross / 24.0
    return area, s_y, s_z, i_y, i_z, i_yz


def _below(corners: Outline, level: float) -> tuple[float, float]:
    """Area below a level line, and its first moment about the line of height 0."""
    kept: list[Corner] = []
    for (y0, z0), (y1, z1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if z0 <= level:
            kept.append((y0, z0))
        if (z0 <= level) != (z1 <= level):
            kept.append((y0 + (y1 - y0) * (level - z0) / (z1 - z0), level))
    if len(kept) < 3:
        return 0.0, 0.0
    area, _, s_z, *_ = _moments(tuple(kept))
    return area, s_z


def _plastic_mm3(parts: Sequence[Outline], area: float) -> float:
    low, high = min(c[1] for c in parts[0]), max(c[1] for c in parts[0])
    for _ in range(80):
        level = (low + high) / 2.0
        if sum(_below(part, level)[0] for part in parts) < area / 2.0:
            low = level
        else:
            high = level
    level = (low + high) / 2.0
    below = sum(_below(part, level)[1] for part in parts)
    whole = sum(_moments(part)[2] for part in parts)
    # Half the area stands on either side, so the level itself cancels out.
    return whole - 2.0 * below
