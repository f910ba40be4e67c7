"""Runs the command line as ``python -m kerfline``."""

from kerfline.cli import main

if __name__ == "__main__":
    main()
