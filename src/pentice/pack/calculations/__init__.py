"""calculations.pdf: the verdict and what it rests on, every rule in one table, inputs, loads, every check in full."""

from pentice.pack.calculations.document import calculations_pdf

__all__ = ["calculations_pdf"]
