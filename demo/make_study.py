#!/usr/bin/python3
"""Writes the demo study and the list of the mistakes left in it; the recording has to be there.

Usage: make_study.py [FOLDER]   (the folder of this script unless given)
"""

import sys
from pathlib import Path

HOME = Path(__file__).resolve().parent
sys.path.insert(0, str(HOME))
sys.dont_write_bytecode = True

from tune import score
from tune.clock import Clock
from tune.notation import read_line
from tune.random_parts import generator
from tune.study_file import StudyWriter, write_planted


def main(folder):
    writer = StudyWriter(Clock(generator("tempo")), read_line(score.LEAD, 1), HOME / f"{score.SLUG}.ogg")
    writer.write(folder / f"{score.SLUG}.study")
    write_planted(folder / f"{score.SLUG}.planted.tsv", writer.mistakes)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else HOME)
