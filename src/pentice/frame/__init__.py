"""The frame stage: wall plate, eaves beam and posts as they stand, from the job and the sizes."""
