"""Take-off: pieces and cutting to order lines in packs, each with its reason."""
