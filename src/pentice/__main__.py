"""`python -m pentice`, for machines where the command itself is not on the path."""

from pentice.cli import main

main()
