"""Setting-out: true sizes of planes, rafters, bays and bars."""
