"""Runs the command line as ``python -m kerfline``."""

from kerfline.cli import main

main()
