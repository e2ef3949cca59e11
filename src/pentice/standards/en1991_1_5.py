"""Temperature of a roof's outer face in the sun (EN 1991-1-5). Its table is held from memory and asked for by the job.

Nothing here is used unless the job gives how much of the sun its sheet keeps: without, the hottest sheet is judgement.
"""

from __future__ import annotations

from pentice.errors import require_within
from pentice.standards._tables import interpolate

# Share of the sun that is kept, and what it adds to the hottest air on a level or south-west face [K]: from memory.
_ADDED_K = ((0.5, 18.0), (0.7, 30.0), (0.9, 42.0))
_RULE = "EN 1991-1-5, Table 5.2"


def hottest_face_c(*, air_most_c: float, absorptivity: float) -> float:
    """Hottest outer face of a roof that lies level, or faces south-west.

    Parameters
    ----------
    air_most_c
        Hottest shade air of the site, 0 to 60 [degC].
    absorptivity
        Share of the sun that the face keeps, 0 to 0.9; below 0.5 counted as 0.5, the brightest of the table [-].

    Returns
    -------
    float
        T_out = T_max + 18, 30 or 42 K, straight between the three [degC].

    Raises
    ------
    OutsideScope
        A face darker than the table, or air outside what is sensible.

    Source
    ------
    EN 1991-1-5:2003, Table 5.2, summer, recommended, from memory: check it against the national annex. A roof facing
    north-east would stay cooler; it is not given that here.

    Examples
    --------
    >>> hottest_face_c(air_most_c=34.0, absorptivity=0.7), hottest_face_c(air_most_c=34.0, absorptivity=0.3)
    (64.0, 52.0)
    """
    require_within("air_most_c", air_most_c, 0.0, 60.0, unit="degC", source=_RULE)
    require_within("absorptivity", absorptivity, 0.0, 0.9, source=_RULE)
    return air_most_c + interpolate("absorptivity", max(absorptivity, 0.5), _ADDED_K, source=_RULE)
