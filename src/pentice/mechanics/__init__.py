"""Mechanics: plates, beams, sections and movement from the textbook, no clause numbers and no jobs."""
