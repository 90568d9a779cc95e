"""Run the command line as ``python -m pavewright.cli``."""

from pavewright.cli import main

if __name__ == "__main__":
    main()
