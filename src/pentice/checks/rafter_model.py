"""Rafters as beams: the strip of roof that comes to each, its bearings, its stiffness and its own weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.ground import Ground
from pentice.frame.stage import head_support_mm
from pentice.loads.lines import Strip
from pentice.mechanics.beam import Beam, rectangle_stiffness
from pentice.setting_out.values import Rafter
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1999 import E_N_MM2 as ALUMINIUM_N_MM2


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterModel:
    """A rafter as a beam on two bearings with its foot running past the second."""

    rafter: Rafter
    timber: StrengthClass
    strip: Strip
    start_mm: float
    """Head bearing from the wall face along the slope [mm]."""
    span_mm: float
    overhang_mm: float
    longest_free_mm: float
    """Between places that hold the rafter upright: bearings, noggins, purlins [mm]."""
    beam: Beam

    @property
    def length_mm(self) -> float:
        """From the head bearing to the foot of the roof along the slope [mm]."""
        return self.span_mm + self.overhang_mm


def strip_of(ground: Ground, rafter: Rafter) -> Strip:
    """The strip of roof that comes to a rafter: half of each bay beside it, or half a bay and the barge board.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafter
        The rafter.

    Returns
    -------
    Strip
        [mm]. Of uneven centres the widest counts.

    Source
    ------
    Statics: half a bay from each side.
    """
    plane = ground.setting_out.plane
    rafters, i = plane.rafters, rafter.number - 1
    job = ground.job
    barge = job.frame.barge_board_mm[0] if job.frame.barge_board_mm is not None else 0.0
    here = (rafter.centre_head_mm, rafter.centre_foot_mm)
    if i == 0:
        left = min(here) - rafter.width_mm / 2.0 - barge
    else:
        before = (rafters[i - 1].centre_head_mm, rafters[i - 1].centre_foot_mm)
        left = min((a + b) / 2.0 for a, b in zip(before, here, strict=True))
    if i == len(rafters) - 1:
        right = max(here) + rafter.width_mm / 2.0 + barge
    else:
        after = (rafters[i + 1].centre_head_mm, rafters[i + 1].centre_foot_mm)
        right = max((a + b) / 2.0 for a, b in zip(here, after, strict=True))
    length = (
        ground.shape.projection_between(left, right)[1] / ground.shape.cos_pitch + ground.shape.overhang_mm
    )
    return Strip(x_mm=(left, right), length_mm=length, cos_pitch=ground.shape.cos_pitch)


def rafter_model(ground: Ground, rafter: Rafter) -> RafterModel:
    """The rafter between the middles of its bearings.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafter
        The rafter.

    Returns
    -------
    RafterModel
        Span: between the middles of wall plate (or head beam) and beam where the job names them, else projection /
        cos(pitch).

    Source
    ------
    Statics; the choice of bearings is judgement, no source.
    """
    frame, cos = ground.job.frame, ground.shape.cos_pitch
    strip = strip_of(ground, rafter)
    head = head_support_mm(ground.job)
    start = head[0] / 2.0 / cos if head is not None else 0.0
    half_beam = frame.beam_mm[0] / 2.0 / cos if frame.beam_mm is not None else 0.0
    end = strip.length_mm - ground.shape.overhang_mm - half_beam
    span, overhang = end - start, strip.length_mm - end
    timber = strength_class(ground.parts.timber.strength_class)
    bar = ground.parts.bar
    if bar.carries:
        ei, shear = ALUMINIUM_N_MM2 * (bar.i_mm4 or 1.0), math.inf
    else:
        ei, shear = rectangle_stiffness(
            rafter.width_mm, rafter.depth_mm, timber.e_0_mean_n_mm2, timber.g_mean_n_mm2
        )
    held = sorted({start, end, *(p for p in (*frame.noggins_at_mm, *frame.purlins_at_mm) if start < p < end)})
    return RafterModel(
        rafter=rafter,
        timber=timber,
        strip=strip,
        start_mm=start,
        span_mm=span,
        overhang_mm=overhang,
        longest_free_mm=max(b - a for a, b in pairwise(held)),
        beam=Beam(span_mm=span, overhang_mm=overhang, ei_n_mm2=ei, shear_n=shear),
    )


def rafter_models(ground: Ground) -> tuple[RafterModel, ...]:
    """Every rafter as a beam, from the left.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RafterModel
        As `rafter_model`.

    Source
    ------
    As `rafter_model`.
    """
    return tuple(rafter_model(ground, rafter) for rafter in ground.setting_out.plane.rafters)


def dead_line_n_mm(ground: Ground, model: RafterModel) -> float:
    """Self-weight along a rafter, square to it [N/mm]: sheet, bar, rafter, and the barge board at an end.

    Parameters
    ----------
    ground
        The inputs of every check.
    model
        The rafter.

    Returns
    -------
    float
        [N/mm].

    Source
    ------
    Mass times 9.81, times cos(pitch).
    """
    dead = ground.loads.dead
    barge = dead.barge_kn_m if model.rafter.end else 0.0
    line = dead.sheet_kn_m2 * model.strip.width_mm * 1e-3 + dead.bar_kn_m + dead.rafter_kn_m + barge
    return line * ground.shape.cos_pitch
