"""Pentice: from a tape measure to the whole job pack for lean-to roofs glazed with multiwall polycarbonate."""
