"""Learns SlurWeights.cpp: from what notes begin like to whether they were slurred, for each character of line.

  weights.py FEATURES OUT [--judge FEATURES]

FEATURES is a folder with plucked.tsv, blown.tsv and held.tsv as print_attack_features writes them, each row led by
condition and source (rebuild). With --judge the same of sources nothing was learned from: areas under the curve are
printed by source and condition. Needs numpy alone.
"""
import argparse

import numpy as np

CHARACTERS = ["unknown", "plucked", "blown", "held"]    # in the order of LineCharacter
COUNT, UNITS, FARTHEST = 36, 12, 4
EPOCHS, BATCH, RATE, DECAY, SEEDS = 40, 256, 4e-3, 2e-3, 1


def read(path):
    """Rows of condition, source, slurred, how, semitones and the features of those that begin."""
    about, features = [], []
    for row in open(path):
        cells = row.split()
        if len(cells) > 5:
            about.append((cells[0], cells[1], int(cells[2]), int(cells[3]), int(cells[4]), *map(float, cells[5:9])))
            features.append([float(c) for c in cells[9:]])
    kinds = [("condition", "U8"), ("source", "U12"), ("slurred", int), ("how", int), ("semitones", int),
             ("plucked", float), ("blown", float), ("held", float), ("unknown", float)]
    return np.array(about, kinds), np.array(features)


def area(score, slurred):
    order = np.argsort(score, kind="stable")
    rank = np.empty(len(score))
    rank[order] = np.arange(1, len(score) + 1)
    p = slurred == 1
    return (rank[p].sum() - p.sum() * (p.sum() + 1) / 2) / max(1, p.sum() * (~p).sum())


def answer(net, x):
    hidden, bias, out, direct, end = net
    return np.maximum(x @ hidden + bias, 0) @ out + x @ direct + end


def learned(x, y, weight, seed):
    """A layer of rectified units and a linear part, by Adam (D. Kingma, J. Ba, 2015)."""
    r = np.random.default_rng(seed)
    net = [r.normal(0, 1 / np.sqrt(COUNT), (COUNT, UNITS)), np.zeros(UNITS), r.normal(0, .1, UNITS), np.zeros(COUNT),
           np.zeros(1)]
    first, second, step = [np.zeros_like(p) for p in net], [np.zeros_like(p) for p in net], 0
    for epoch in range(EPOCHS):
        order, rate = r.permutation(len(x)), RATE * (.5 + .5 * np.cos(np.pi * epoch / EPOCHS)) + 1e-5
        for i in range(0, len(x), BATCH):
            rows = order[i:i + BATCH]
            a = x[rows] * (r.random((len(rows), COUNT)) > .1)         # no single number is to decide
            unit = np.maximum(a @ net[0] + net[1], 0)
            wrong = (1 / (1 + np.exp(-(unit @ net[2] + a @ net[3] + net[4]))) - y[rows]) * weight[rows] / len(rows)
            back = np.outer(wrong, net[2]) * (unit > 0)
            slopes = [a.T @ back + DECAY * net[0], back.sum(0), unit.T @ wrong + DECAY * net[2], a.T @ wrong,
                      wrong.sum(keepdims=True)]
            step += 1
            for k, slope in enumerate(slopes):
                first[k] = .9 * first[k] + .1 * slope
                second[k] = .999 * second[k] + .001 * slope ** 2
                net[k] = net[k] - rate * (first[k] / (1 - .9 ** step)) / (np.sqrt(second[k] / (1 - .999 ** step)) + 1e-8)
    return net


def usable(about):
    """What repeats a pitch or leaps is never slurred here; that must not be what is learned."""
    far = np.abs(about["semitones"])
    return (far > 0) & (far <= 5)


def fit(about, features, seed=1):
    keep = usable(about)
    x, y = features[keep], about["slurred"][keep]
    mean, spread = x.mean(0), x.std(0) + 1e-6
    weight = np.where(y == 1, .5 / y.mean(), .5 / (1 - y.mean()))
    return mean, spread, learned(np.clip((x - mean) / spread, -FARTHEST, FARTHEST), y, weight, seed)


def chance(fitted, features):
    mean, spread, net = fitted
    return 1 / (1 + np.exp(-answer(net, np.clip((features - mean) / spread, -FARTHEST, FARTHEST))))


def numbers(values):
    return "{{" + ", ".join("%.5gF" % v if "." in "%.5g" % v or "e" in "%.5g" % v else "%.5g.F" % v for v in values) + "}}"


def write(path, fits):
    with open(path, "w") as f:
        f.write('// Made by core/check/training/slurs/weights.py. Do not edit.\n#include "core/listening/SlurChance.h"\n\n'
                "// clang-format off\nnamespace earwright {\n\nconst std::array<SlurWeights, lineCharacterCount> slurWeights{{\n")
        for character in CHARACTERS:
            mean, spread, (hidden, bias, out, direct, end) = fits[character]
            f.write("    { // %s\n        %s,\n        %s,\n        {\n            {{\n" % (character, numbers(mean), numbers(spread)))
            f.write("".join("                %s,\n" % numbers(row) for row in hidden))
            f.write("            }},\n            %s,\n            %s,\n            %s,\n            %s\n        }\n    },\n" % (
                numbers(bias), numbers(out), numbers(direct), numbers(end)[2:-2]))
        f.write("}};\n\n} // namespace earwright\n")


def judge(name, about, score):
    keep = usable(about)
    slurred = about["slurred"][keep] == 1
    print(name, "%.3f" % area(score[keep], slurred), "of %d, %d slurred" % (keep.sum(), slurred.sum()))
    for source in sorted(set(about["source"])):
        print("   ", source, end="")
        for condition in ("alone", "trio", "band"):
            k = keep & (about["source"] == source) & (about["condition"] == condition)
            print(" %s %.3f (%d)" % (condition, area(score[k], about["slurred"][k]), k.sum()), end="")
        print()
    q = score[keep]
    for limit in (.02, .03, .05, .07, .1, .15):
        print("    contradicted up to %.2f: %.1f %% of slurs, %.1f %% of others" % (
            limit, 100 * (q[slurred] <= limit).mean(), 100 * (q[~slurred] <= limit).mean()))
    for limit in (.6, .8, .9, .95, .97, .98, .99):
        hits, wrong = (q[slurred] >= limit).mean(), (q[~slurred] >= limit).mean()
        print("    from %.2f: %.1f %% of slurs, %.2f %% of others, precision with one slur in two %.1f %%, in four %.1f %%" % (
            limit, 100 * hits, 100 * wrong, 100 * hits / (hits + wrong + 1e-9), 100 * hits / (hits + 3 * wrong + 1e-9)))


def main():
    options = argparse.ArgumentParser()
    options.add_argument("features")
    options.add_argument("out")
    options.add_argument("--judge")
    o = options.parse_args()
    parts = {c: read("%s/%s.tsv" % (o.features, c)) for c in CHARACTERS[1:]}
    parts["unknown"] = tuple(np.concatenate([parts[c][k] for c in CHARACTERS[1:]]) for k in (0, 1))
    fits = {c: fit(*parts[c]) for c in CHARACTERS}
    write(o.out, fits)
    if o.judge:
        for c in CHARACTERS[1:]:
            about, features = read("%s/%s.tsv" % (o.judge, c))
            judge(c, about, chance(fits[c], features))
            judge(c + " as unknown", about, chance(fits["unknown"], features))


if __name__ == "__main__":
    main()
