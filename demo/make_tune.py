#!/usr/bin/python3
"""Writes the demo tune's MIDI file and its tables; the same bytes each time.

Usage: make_tune.py [FOLDER]   (the folder of this script unless given)
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
sys.dont_write_bytecode = True

from tune import midi_file, score, tables
from tune.band import Band
from tune.clock import Clock
from tune.lead import LeadPlayer
from tune.notation import read_line
from tune.random_parts import generator

def main(folder):
    clock = Clock(generator("tempo"))
    lead = LeadPlayer(clock, generator("lead"))
    lead.play(read_line(score.LEAD, 1))
    band = Band(clock, generator("bass"), generator("drums"), generator("piano"))
    band.play()
    soundings = lead.soundings + band.soundings
    midi_file.write(folder / f"{score.SLUG}.mid", clock, soundings, lead.bends)
    tables.write_truth(folder / f"{score.SLUG}.truth.tsv", lead.played)
    tables.write_bars(folder / f"{score.SLUG}.bars.tsv", clock)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parent)
