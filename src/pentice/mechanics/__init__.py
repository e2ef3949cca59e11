"""Textbook mechanics of sheets, strips, beams and movement: no clause numbers, no jobs, no products.

Units N and mm inside; a load per area in kN/m2, a load per length in N/mm (the same number in kN/m).
"""
