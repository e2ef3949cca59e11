"""Loads: what weather, people and the roof itself put on it."""
