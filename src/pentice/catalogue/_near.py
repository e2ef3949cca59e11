"""The nearest known name to one that is not known."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(known: Iterable[str], name: str) -> str:
    """A sentence that helps to find a name: the nearest one, or all of them.

    Parameters
    ----------
    known
        The names that are there.
    name
        The name that is not.

    Returns
    -------
    str
        One sentence.

    Examples
    --------
    >>> nearest(["sheet-16-triple", "sheet-10-twin"], "sheet-16-tripple")
    'Did you mean "sheet-16-triple"?'
    >>> nearest(["u-16"], "something")
    'It knows u-16.'
    """
    names = list(known)
    near = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    if near:
        return f'Did you mean "{near[0]}"?'
    return f"It knows {', '.join(names) or 'none'}."
