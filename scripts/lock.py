"""Write the lock files scripts/lock/*.txt from pyproject.toml: a chore that needs uv and a registry.

python scripts/lock.py             keep every pin that still fits
python scripts/lock.py --upgrade   take the newest of everything
"""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from scripts.setting_up.lock_making import main

if __name__ == "__main__":
    main(sys.argv[1:], ROOT)
