"""How hot or cold a sheet gets: sun on one face, air on both, a clear sky above."""

from __future__ import annotations

import math

from pentice.errors import require_within


def sheet_temperature_c(
    *,
    absorptance: float,
    sun_w_m2: float,
    outside_c: float,
    inside_c: float,
    outside_w_m2_k: float,
    inside_w_m2_k: float,
    sky_loss_w_m2: float = 0.0,
) -> float:
    """Mean temperature of a sheet that loses heat from both faces.

    Parameters
    ----------
    absorptance
        Share of the sun that the sheet keeps, 0 to 1 [-].
    sun_w_m2
        Sun on the roof plane [W/m2].
    outside_c, inside_c
        Air above and below the sheet [degC].
    outside_w_m2_k, inside_w_m2_k
        Surface coefficients above and below [W/(m2 K)].
    sky_loss_w_m2
        Heat lost to a clear sky beyond what the air takes [W/m2].

    Returns
    -------
    float
        Sheet temperature [degC].

    Raises
    ------
    OutsideScope
        The absorptance is not a share, or no face loses heat.

    Source
    ------
    Heat balance of a thin sheet; surface coefficients of 25 outside and 10 inside are EN ISO 6946's (from memory).

    Examples
    --------
    >>> hot = sheet_temperature_c(
    ...     absorptance=0.35, sun_w_m2=1000.0, outside_c=32.0, inside_c=32.0, outside_w_m2_k=12.0, inside_w_m2_k=8.0
    ... )
    >>> round(hot, 1)
    49.5
    """
    require_within("absorptance", absorptance, 0.0, 1.0, source="a share")
    both = outside_w_m2_k + inside_w_m2_k
    require_within("surface coefficients", both, 1e-6, math.inf, unit="W/(m2 K)", source="heat balance")
    gained = absorptance * sun_w_m2 - sky_loss_w_m2
    return (gained + outside_w_m2_k * outside_c + inside_w_m2_k * inside_c) / both
