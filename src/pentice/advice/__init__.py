"""Advice: everything that solves a job more than once. Fills blanks, finds moves and cures, compares options."""
