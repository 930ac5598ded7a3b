"""Three invented salons that are unlike each other and unlike most salons, to check figures on.

harbour: pounds, many overlapping files, edits, refunds, changing menu and costs, retail sales.
kelp: yen, nights past midnight, few columns, no clients.
dune: dinars with three decimals, the nights when clocks change, visits on two chairs, measured regrowth.

Every name in them is made up. The same name, number of lines and seed give the same files.
"""

import argparse
import sys
from pathlib import Path
from random import Random

# The parts lie beside this file, however it is started or imported.
sys.path.insert(0, str(Path(__file__).resolve().parent))

from salon_dune import make_dune
from salon_harbour import make_harbour
from salon_kelp import make_kelp

MAKERS = {"harbour": make_harbour, "kelp": make_kelp, "dune": make_dune}


def make_salon(folder: Path, name: str, lines: int, seed: int) -> None:
    """Write the salon of this name with about this many booked lines into the folder."""
    (folder / "exports").mkdir(parents=True, exist_ok=True)
    MAKERS[name](folder, lines, Random(f"{name} {lines} {seed}"))


def main() -> None:
    parser = argparse.ArgumentParser(description="Write an invented salon folder.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("name", choices=sorted(MAKERS))
    parser.add_argument("--lines", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    make_salon(given.folder, given.name, given.lines, given.seed)


if __name__ == "__main__":
    main()
