"""Set up what the tests need, once, and run every check: python3 scripts/test.py [PYTEST ARGUMENTS]"""

import os
import sys

if sys.version_info < (3, 11):
    sys.stderr.write(
        "Moveteller needs Python 3.11 or newer; this one is %d.%d. "
        "Install a newer Python and start this with it, for one: python3.11 scripts/test.py\n"
        % (sys.version_info[0], sys.version_info[1])
    )
    sys.exit(2)

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
sys.path.insert(0, ROOT)

from pathlib import Path

from scripts.setting_up.command import test
from scripts.setting_up.place import Place

if __name__ == "__main__":
    sys.exit(test(sys.argv[1:], Place(Path(ROOT))))
