"""Purlins between the rafters to EN 1995-1-1: bending, shear, sag, and what their ends bring into the rafters.

A purlin lies under the sheet and is not fixed to it: it carries what presses down, square to the slope, and nothing
that lifts or slides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pentice.checks.bare_roof import without_the_snow
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check, snow_refusal
from pentice.checks.rafter_shown import EDITION
from pentice.checks.timber_shown import (
    Sideways,
    bending_steps,
    figures,
    limit_step,
    service_class,
    shear_steps,
    sideways_steps,
    strength_in,
)
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.loads.on_sheet import SheetArea, SheetLoad, sheet_loads
from pentice.loads.weight import GRAVITY
from pentice.setting_out.values import Bay
from pentice.standards.annex import snow_psi
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1995 import (
    bending_slenderness,
    bending_stress_n_mm2,
    critical_stress_n_mm2,
    gravity_buckling_length_mm,
    k_crit,
    k_def,
    shear_stress_n_mm2,
    size_factor,
)
from pentice.standards.en1995_deflection import final_limit_mm, instant_limit_mm
from pentice.working import Step

OVER = 1.25
"""Reaction of a sheet that runs over a support between two equal spans, over its share of the length: statics."""
BENDING = Rule(
    id="purlin-bending", name="Purlin, bending", member="purlin", clause="EN 1995-1-1, 6.1.6, 6.3.3", unit="N/mm2",
    edition=EDITION,
)  # fmt: skip
SHEAR = Rule(
    id="purlin-shear", name="Purlin, shear", member="purlin", clause="EN 1995-1-1, 6.1.7", unit="N/mm2",
    edition=EDITION,
)  # fmt: skip
_SAG = "EN 1995-1-1, 2.2.3, 7.2; limit chosen in its range"
SAG = Rule(
    id="purlin-sag", name="Purlin, sag at once", member="purlin", clause=_SAG, unit="mm", edition=EDITION
)
FINAL = Rule(
    id="purlin-sag-final",
    name="Purlin, sag in the end",
    member="purlin",
    clause=_SAG,
    unit="mm",
    edition=EDITION,
)
ENDS = Rule(
    id="purlin-ends", name="Purlin, its end on the rafter", member="purlin", clause="EN 1990, 6.10", unit="kN"
)
RULES = (BENDING, SHEAR, SAG, FINAL, ENDS)
_CURE = "A deeper purlin, or closer rafters."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Purlin:
    """One purlin: where it is, what it spans and the strip that comes to it [mm]."""

    bay: Bay
    span_mm: float
    from_mm: float
    to_mm: float
    at_mm: float

    @property
    def share_mm(self) -> float:
        """Strip of sheet along the slope that comes to it."""
        return self.to_mm - self.from_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class _Loaded:
    """A purlin in one combination [N/mm], factored; and its parts, characteristic."""

    purlin: _Purlin
    load: SheetLoad
    line: float
    dead: float
    snow: float


def purlin_checks(ground: Ground) -> Iterator[Check]:
    """Every check of the purlins, each at the purlin that uses most.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        None where the job has no purlins; refused where their timber is not named, or snow or wind is not known. Their
        ends where the job declares what holds them; else the shear check says what they bring.

    Source
    ------
    EN 1995-1-1:2004+A1:2008; simply borne between the rafters. Of the sheet's strip 1.25 times its load: a sheet that
    runs over a support between two spans, judgement, on the safe side.
    """
    job = ground.job
    if not job.frame.purlins_at_mm:
        return
    why = ground.loads.wind.refused
    if job.frame.noggin_mm is None:
        why = "The purlins' section is not named: give frame.noggin_mm."
    if why:
        for rule in RULES if job.frame.purlin_end_kn is not None else RULES[:-1]:
            yield open_check(rule, Place(), "refused", Shown(says=why))
        return
    snow = snow_refusal(ground.loads.snow, (0.0, ground.shape.width_mm))
    if not snow:
        yield from _checks(ground)
        return
    yield from (without_the_snow(c, snow, lifts=False) for c in _checks(ground.without_snow()))


def _checks(ground: Ground) -> Iterator[Check]:
    """All of them, wind and snow known."""
    job = ground.job
    timber = strength_class(ground.parts.timber_for("noggin").strength_class)
    b, h = job.frame.noggin_mm or (0.0, 0.0)
    own = b * h * 1e-6 * timber.rho_mean_kg_m3 * GRAVITY * ground.shape.cos_pitch
    loaded = [found for purlin in _purlins(ground) for found in _in_combinations(ground, purlin, own)]
    strength = [f for f in loaded if f.load.combination.kind in ("strength", "accidental")]
    yield _bending(ground, timber, strength, own)
    yield _shear(ground, timber, strength, own)
    service = [f for f in loaded if f.load.combination.kind == "characteristic"]
    yield from _sags(ground, timber, service, own)
    if job.frame.purlin_end_kn is not None:
        yield _ends(ground, strength, own, job.frame.purlin_end_kn)


def _purlins(ground: Ground) -> Iterator[_Purlin]:
    rafters = ground.setting_out.plane.rafters
    for bay in ground.setting_out.plane.bays:
        left, right = rafters[bay.number - 1], rafters[bay.number]
        apart = max(right.centre_head_mm - left.centre_head_mm, right.centre_foot_mm - left.centre_foot_mm)
        span = apart - (left.width_mm + right.width_mm) / 2.0
        foot = bay.projection_mm[1] / ground.shape.cos_pitch
        places = [0.0, *(p for p in ground.job.frame.purlins_at_mm if p < foot), foot]
        for before, at, after in zip(places, places[1:], places[2:], strict=False):
            yield _Purlin(
                bay=bay, span_mm=span, at_mm=at, from_mm=(before + at) / 2.0, to_mm=(at + after) / 2.0
            )


def _in_combinations(ground: Ground, purlin: _Purlin, own: float) -> Iterator[_Loaded]:
    cos, share = ground.shape.cos_pitch, purlin.share_mm
    xs = [x for x, _ in purlin.bay.outline_mm]
    area = SheetArea(
        x_mm=(min(xs), max(xs)),
        y_mm=(purlin.from_mm * cos, purlin.to_mm * cos),
        cos_pitch=cos,
        area_m2=purlin.span_mm * share * 1e-6,
    )
    for load in sheet_loads(ground.loads, area):
        if load.at == "middle" and load.combination.wind_sense != "up":
            yield _Loaded(
                purlin=purlin,
                load=load,
                line=OVER * share * load.total * 1e-3 + load.combination.dead * own,
                dead=OVER * share * load.dead * 1e-3 + own,
                snow=OVER * share * load.snow * 1e-3,
            )


def _place(found: _Loaded) -> Place:
    return Place(bay=found.purlin.bay.number, at="middle")


def _line_step(found: _Loaded, own: float) -> Step:
    c, load = found.load.combination, found.load
    parts = [f"{c.dead:g} x {load.dead:.4f}"]
    parts += [f"{c.snow:g} x {load.snow:.4f}"] if c.snow else []
    parts += [f"{c.wind:g} x {load.wind:.4f}"] if c.wind else []
    return Step(
        says=f"On the purlin at {found.purlin.at_mm:.0f} from the head, square to it",
        formula="w = 1.25 a q + gamma g",
        numbers=f"1.25 x {found.purlin.share_mm:.1f} / 1000 x ({' + '.join(parts)}) + {c.dead:g} x {figures(own)}",
        result=found.line,
        unit="N/mm",
        clause=f"{c.clause}; the sheet runs over it, {JUDGEMENT}",
    )


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    timber = ground.parts.timber_for("noggin")
    frame = ground.job.frame
    return (
        ground.of_job("frame.noggin_mm", frame.noggin_mm),
        ground.of_job("frame.purlins_at_mm", frame.purlins_at_mm),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_snow(),
        ground.of_wind(),
    )


def _bending(ground: Ground, timber: StrengthClass, cases: list[_Loaded], own: float) -> Check:
    b, h = ground.job.frame.noggin_mm or (0.0, 0.0)
    k_h = size_factor(h)

    def moment(found: _Loaded) -> float:
        return found.line * found.purlin.span_mm**2 / 8.0

    def limit(found: _Loaded) -> float:
        return strength_in(timber.f_m_k_n_mm2 * k_h, found.load.combination, service_class(ground)).value

    worst = max(cases, key=lambda found: moment(found) / limit(found))
    span, amount = worst.purlin.span_mm, moment(worst)
    l_ef = gravity_buckling_length_mm(span, h)
    slender = bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, timber.e_0_05_n_mm2))
    factor, stress = k_crit(slender), bending_stress_n_mm2(amount, b, h)
    strength = strength_in(timber.f_m_k_n_mm2 * k_h, worst.load.combination, service_class(ground))

    def shown() -> Shown:
        sideways = Sideways(
            free_mm=span,
            upward=False,
            length_mm=l_ef,
            slenderness=slender,
            k_crit=factor,
            held="held at the rafters",
            why="the sheet not counted as holding it",
        )
        working = (
            _line_step(worst, own),
            Step(
                says="Moment between the rafters",
                formula="M = w l^2 / 8",
                numbers=f"{worst.line:.5f} x {span:.1f}^2 / 8 / 10^6",
                result=amount / 1e6,
                unit="kNm",
                clause="statics",
            ),
            *bending_steps(amount, (b, h), stress, k_h, timber.f_m_k_n_mm2, strength),
            *sideways_steps(sideways, (b, h), timber, strength.value),
        )
        return Shown(rests_on=_inputs(ground), working=working, cure=_CURE)

    return compared(
        BENDING,
        _place(worst),
        demand=stress,
        capacity=factor * strength.value,
        case=worst.load.words,
        shown=shown,
    )


def _shear(ground: Ground, timber: StrengthClass, cases: list[_Loaded], own: float) -> Check:
    b, h = ground.job.frame.noggin_mm or (0.0, 0.0)

    def limit(found: _Loaded) -> float:
        return strength_in(timber.f_v_k_n_mm2, found.load.combination, service_class(ground)).value

    worst = max(cases, key=lambda found: found.line * found.purlin.span_mm / limit(found))
    force = worst.line * worst.purlin.span_mm / 2.0
    stress = shear_stress_n_mm2(force, b, h)
    strength = strength_in(timber.f_v_k_n_mm2, worst.load.combination, service_class(ground))

    def shown() -> Shown:
        working = (
            _line_step(worst, own),
            _end_step(worst, force),
            *shear_steps(force, (b, h), stress, timber.f_v_k_n_mm2, strength),
        )
        ends = max(found.line * found.purlin.span_mm for found in cases) / 2000.0
        says = f"Each end brings up to {ends:.2f} kN into its rafter: hang it, or screw it for that."
        return Shown(says=says, rests_on=_inputs(ground), working=working, cure=_CURE)

    return compared(
        SHEAR, _place(worst), demand=stress, capacity=strength.value, case=worst.load.words, shown=shown
    )


def _end_step(found: _Loaded, force_n: float) -> Step:
    return Step(
        says="At each end",
        formula="R = w l / 2",
        numbers=f"{found.line:.5f} x {found.purlin.span_mm:.1f} / 2 / 1000",
        result=force_n / 1000.0,
        unit="kN",
        clause="statics",
    )


def _sags(ground: Ground, timber: StrengthClass, cases: list[_Loaded], own: float) -> Iterator[Check]:
    b, h = ground.job.frame.noggin_mm or (0.0, 0.0)
    kdef = k_def(service_class(ground))
    psi_2 = snow_psi(ground.annex, ground.job.site.altitude_m or 0.0).psi_2

    def soft(found: _Loaded) -> float:
        """Sag of 1 N/mm, bending and shear [mm]."""
        span, second = found.purlin.span_mm, b * h**3 / 12.0
        bent = 5.0 * span**4 / (384.0 * timber.e_0_mean_n_mm2 * second)
        return bent + 1.2 * span**2 / (8.0 * timber.g_mean_n_mm2 * b * h)

    def lasting(found: _Loaded) -> float:
        return found.line + kdef * found.dead + psi_2 * kdef * found.snow

    for rule, amount in ((SAG, lambda found: found.line), (FINAL, lasting)):
        divisor = ground.annex.limit_w_inst if rule is SAG else ground.annex.limit_w_fin
        limit_of = instant_limit_mm if rule is SAG else final_limit_mm
        worst = max(cases, key=lambda found: amount(found) * soft(found) / found.purlin.span_mm)
        span, limit = worst.purlin.span_mm, limit_of(worst.purlin.span_mm, divisor=divisor)
        value = amount(worst) * soft(worst)
        more: tuple[Step, ...] = ()
        if rule is FINAL:
            more = (
                Step(
                    says="Load that counts in the end",
                    formula="w + k_def g + psi_2 k_def s",
                    numbers=f"{worst.line:.5f} + {kdef:g} x {worst.dead:.5f} + {psi_2:g} x {kdef:g} x {worst.snow:.5f}",
                    result=lasting(worst),
                    unit="N/mm",
                    clause="EN 1995-1-1, 2.2.3",
                ),
            )
        sag = Step(
            says="Sag in bending and shear",
            formula="5 w l^4 / (384 E I) + 1.2 w l^2 / (8 G A)",
            numbers=f"5 x {amount(worst):.5f} x {span:.1f}^4 / (384 x {timber.e_0_mean_n_mm2:g} x {b:g} x {h:g}^3 / 12)"
            f" + 1.2 x {amount(worst):.5f} x {span:.1f}^2 / (8 x {timber.g_mean_n_mm2:g} x {b:g} x {h:g})",
            result=value,
            unit="mm",
            clause="statics",
        )
        working = (_line_step(worst, own), *more, sag, limit_step(span, limit))
        shown = Shown(rests_on=_inputs(ground), working=working, cure=_CURE)
        yield compared(rule, _place(worst), demand=value, capacity=limit, case=worst.load.words, shown=shown)


def _ends(ground: Ground, cases: list[_Loaded], own: float, declared: float) -> Check:
    worst = max(cases, key=lambda found: found.line * found.purlin.span_mm)
    force = worst.line * worst.purlin.span_mm / 2000.0

    def shown() -> Shown:
        rests = _inputs(ground)
        working = (_line_step(worst, own), _end_step(worst, force * 1000.0))
        return Shown(
            rests_on=(*rests, ground.of_job("frame.purlin_end_kn", declared)),
            working=working,
            cure="A stronger hanger or more screws.",
        )

    return compared(ENDS, _place(worst), demand=force, capacity=declared, case=worst.load.words, shown=shown)
