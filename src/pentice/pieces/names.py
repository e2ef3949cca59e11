"""Names of pieces where several jobs share a plan: the job's reference before the piece's own name."""

from __future__ import annotations


def labelled(reference: str, id: str) -> str:
    """The name of a piece among those of several jobs.

    Parameters
    ----------
    reference
        Of its job.
    id
        Its name within its job; it holds no space.

    Returns
    -------
    str
        Both, parted by a space.

    Examples
    --------
    >>> labelled("PB-0311", "S3")
    'PB-0311 S3'
    """
    return f"{reference} {id}"


def job_of(id: str) -> str:
    """The reference before the name of a piece; nothing where the plan is one job's own.

    Examples
    --------
    >>> job_of("PB-0311 S3"), job_of("S3")
    ('PB-0311', '')
    """
    return id.rpartition(" ")[0]


def own_name(id: str) -> str:
    """The name of a piece within its job.

    Examples
    --------
    >>> own_name("PB-0311 S3"), own_name("S3")
    ('S3', 'S3')
    """
    return id.rpartition(" ")[2]


def letters_of(id: str) -> str:
    """The letters that a piece's own name begins with.

    Examples
    --------
    >>> letters_of("RF12"), letters_of("BGL"), letters_of("PB-0311 R2-base")
    ('RF', 'BGL', 'R')
    """
    own = own_name(id)
    for k, sign in enumerate(own):
        if not sign.isalpha():
            return own[:k]
    return own
