"""`python -m player.cli`: the `moveteller` command."""

import sys

from player.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
