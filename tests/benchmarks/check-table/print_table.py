#!/usr/bin/env python3
"""Prints how right the check is on recordings with known notes and planted mistakes.

  print_table.py BATCH FOLDER...

BATCH is the program earwright-batch; every folder below FOLDER that holds claimed.tsv is a recording (recordings.py
tells what is in it). Prints a table by condition, each figure with its 95 % interval, and how far scores can be
believed. Nothing here passes or fails.
"""
import concurrent.futures
import os
import sys
import warnings

import answers
import figures
import recordings


def conditions(counted):
    names = sorted({recording.condition for recording, _ in counted})
    table = {name: [counts for recording, counts in counted if recording.condition == name] for name in names}
    return table if len(names) == 1 else {**table, "all": [counts for _, counts in counted]}


def cell(figure, counts):
    low, high = figures.interval(figure, counts)
    digits = 4 if figure is figures.area else 1
    return f"{figure(counts):.{digits}f} ({low:.{digits}f} to {high:.{digits}f})"


def print_figures(table):
    print("figure", *table, sep="\t")
    print("recordings", *map(len, table.values()), sep="\t")
    print("claims", *(sum(len(one.scored) for one in counts) for counts in table.values()), sep="\t")
    for name, figure in figures.FIGURES.items():
        print(name, *(cell(figure, counts) for counts in table.values()), sep="\t")


def print_reliability(counts):
    print("\nscore, mean of the bin, %", "right, %", sep="\t")
    for score, share in figures.reliability(counts):
        print(f"{100 * score:.1f}", f"{100 * share:.1f}", sep="\t")


def main(batch, folders):
    found = recordings.below(folders)
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        answered = list(pool.map(lambda recording: answers.ask(batch, recording), found))
    counted = [(recording, figures.Counts(recording, a)) for recording, a in zip(found, answered)]
    # A draw without a planted mistake of a kind has no figure for it, and says nothing of the interval.
    warnings.simplefilter("ignore", RuntimeWarning)
    print_figures(conditions(counted))
    print_reliability([counts for _, counts in counted])


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    try:
        main(sys.argv[1], sys.argv[2:])
    except (OSError, ValueError, KeyError, RuntimeError) as error:
        sys.exit(f"print_table.py: {error}")
