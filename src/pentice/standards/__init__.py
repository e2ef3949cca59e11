"""Standards as pure functions: a module per standard, a function per clause, tables as data files beside.

Nothing here knows of jobs. Outside the range of a clause a function refuses; it never extrapolates.
"""
