#!/usr/bin/env python3
"""Scores `earwright-batch hint` on folders written by render.py: pitches named exactly, in per cent, by kind.

    EARWRIGHT_BATCH=path evaluate.py FOLDER... [--options "--focus right"] [--options ...]

A column for each --options; an empty one asks without any. Where the tool says where it listened, that is counted.
"""
import argparse
import collections
import glob
import os
import shlex
import subprocess


def rows(text):
    lines = [line.split("\t") for line in text.strip("\n").split("\n")]
    return [dict(zip(lines[0], line)) for line in lines[1:]]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folders", nargs="+")
    parser.add_argument("--options", action="append")
    chosen = parser.parse_args()
    columns = chosen.options or [""]
    counts = collections.defaultdict(lambda: [0, 0])
    heard = collections.defaultdict(collections.Counter)
    for audio in sorted(path for folder in chosen.folders for path in glob.glob(folder + "/*.wav")):
        kind, table = os.path.basename(audio).rsplit("-", 1)[0], audio[:-4] + ".spans.tsv"
        with open(table, encoding="utf-8") as file:
            truth = rows(file.read())
        for column in columns:
            words = [os.environ["EARWRIGHT_BATCH"], "hint", audio, "--spans", table] + shlex.split(column)
            found = rows(subprocess.run(words, check=True, capture_output=True, text=True).stdout)
            counts[kind, column][0] += sum(f["best_midi"] == t["midi"] for f, t in zip(found, truth))
            counts[kind, column][1] += len(truth)
            heard[kind, column].update({f.get("listened", "") for f in found})
    print("kind", *[column or "(none)" for column in columns], sep="\t")
    for kind in sorted({kind for kind, _ in counts}):
        cells = []
        for column in columns:
            right, asked = counts[kind, column]
            places = " ".join("%s:%d" % item for item in sorted(heard[kind, column].items()) if item[0])
            cells.append("%.1f %s" % (100 * right / asked, places))
        print(kind, *cells, counts[kind, columns[0]][1], sep="\t")


if __name__ == "__main__":
    main()
