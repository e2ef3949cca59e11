"""Pieces: what must exist, each with its edges, holes and marks."""
