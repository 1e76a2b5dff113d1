"""What the program measures at the beginnings of lines: features.py PRINT_ATTACK_FEATURES LINES OUT.

Claims lie up to 35 ms beside the notes, as people write. Rows are led by condition and source.
"""
import glob
import json
import subprocess
import sys

import numpy as np


def main():
    tool, folder, out = sys.argv[1:]
    r = np.random.default_rng(5)
    with open(out, "w") as f:
        for path in sorted(glob.glob(folder + "/*.flac")):
            notes, info = np.loadtxt(path[:-5] + ".tsv"), json.load(open(path[:-5] + ".json"))
            notes[:, 0] += np.clip(r.normal(0, .012, len(notes)), -.035, .035)
            notes = notes[np.argsort(notes[:, 0], kind="stable")]
            claims = "".join("%.4f\t%.4f\t%d\t%d\t%d\n" % tuple(n) for n in notes)
            rows = subprocess.run([tool, path, "/dev/stdin"], input=claims, capture_output=True, text=True, check=True).stdout
            for row in rows.splitlines():
                f.write("%s\t%s\t%s\n" % (info["condition"], info["source"], row))


if __name__ == "__main__":
    main()
