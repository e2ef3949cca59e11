"""Checks: every requirement with its clause, its working and its verdict."""
