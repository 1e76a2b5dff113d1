"""Learns how far to believe a claim, and an unclaimed onset, from solos with planted mistakes.

  odds.py WORK SET,SET… SOFT,SOFT… PRINT_CLAIM_FEATURES OUT.cpp

A claim is right with the product of two logistic probabilities, of its pitch and of its onset; a suggestion and an
unclaimed onset with one each. The odds of the onset are fitted once more with the sets of soft attacks, while those of
the pitch stay. Features that speak for something may not come to count against it. Prints how well they
do on files left out of the fit (four folds), and writes JudgementWeights.cpp.
"""
import concurrent.futures
import glob
import json
import subprocess
import sys
import tempfile

import numpy as np
from scipy import optimize

LOWEST, HIGHEST = 28, 96
KINDS = {"semitone": (-1, 1), "tone": (-2, 2), "third": (-4, -3, 3, 4), "octave": (-12, 12), "fifth": (-7, -5, 5, 7),
         "extra": None, "missing": None, "shift": None}
PITCH_SIGNS = [1, 1, 1, -1, 0, 1]
BEGIN_SIGNS = [1, 1, 0, -1]
SUGGESTION_SIGNS = [1, 1, 1, 1, 1, -1, 0, 0]
CONTRADICTED_BELOW, SUPPORTED_ABOVE, SUGGESTED_ABOVE = 0.30, 0.90, 0.35       # as in Judgement.h
ONSET_SIGNS = [1, 1, 1, 1, 1, 1, -1, 0, 0, 1]


def with_mistakes(r, notes):
    """Rows of onset, length, midi, kind, true midi, true onset; and the notes left out."""
    rows, gone = [], []
    for i, (on, d, m) in enumerate(notes):
        kind = str(r.choice(list(KINDS))) if r.random() < 0.27 else "right"
        following = notes[i + 1][0] if i + 1 < len(notes) else on + d + 0.4
        if kind == "missing":
            gone.append((on, m))
            continue
        claimed, at = int(m), on
        if KINDS.get(kind):
            claimed = int(np.clip(m + r.choice(KINDS[kind]), LOWEST, HIGHEST))
        if kind == "shift":
            at = max(0, on + r.uniform(0.12, 0.22) * r.choice([-1, 1]))
        else:
            # Players are not on the grid on which their notes are written: that is style and no mistake.
            at = max(0, on + (r.normal(0, 0.006) if r.random() < 0.6 else r.uniform(-0.04, 0.04)))
        rows.append([at, d, claimed, "right" if kind == "extra" else kind, int(m), on])
        if kind == "extra":
            rest = following - on - d
            start, length = (on + d + 0.05, min(0.25, rest - 0.08)) if rest > 0.18 else (
                on + (following - on) / 2, max(0.06, (following - on) / 2))
            near = {int(n[2]) for n in notes if n[0] < start + length + 0.12 and n[0] + n[1] > start - 0.12}
            rows.append([start, length, int(r.choice([p for p in range(int(m) - 9, int(m) + 10)
                                                      if p not in near and LOWEST <= p <= HIGHEST])), kind, -1, -1])
    rows.sort(key=lambda row: (row[0], row[2]))
    for i, row in enumerate(rows):
        following = rows[i + 1][0] if i + 1 < len(rows) else row[0] + row[1] + 0.5
        row[1] = max(0.03, min(row[1] * np.exp(r.normal(0, 0.25)), max(0.03, following - row[0])))
    return rows, gone


def listened(tool, audio, rows):
    with tempfile.NamedTemporaryFile("w", suffix=".txt") as f:
        f.writelines("%.4f %.4f %d\n" % tuple(row[:3]) for row in rows)
        f.flush()
        lines = subprocess.run([tool, audio, f.name], capture_output=True, text=True, check=True).stdout.splitlines()
    split = [line.split("\t") for line in lines]
    return ([(int(s[1]), [float(x) for x in s[2:]]) for s in split if s[0] == "claim"],
            [(float(s[1]), int(s[2]), [float(x) for x in s[3:]]) for s in split if s[0] == "onset"])


def collect(work, sets, tool):
    r, jobs, claims, onsets, missing = np.random.default_rng(99), [], [], [], 0
    for path in [p for s in sets for p in sorted(glob.glob("%s/%s/*.flac" % (work, s)))]:
        notes = np.loadtxt(path[:-5] + ".tsv", ndmin=2)[:, :3]
        condition = json.load(open(path[:-5] + ".json"))["cond"]
        for _ in range(2):
            jobs.append((path, condition, *with_mistakes(r, notes)))
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        heard = list(pool.map(lambda job: listened(tool, job[0], job[2]), jobs))
    for (_, condition, rows, gone), (answers, candidates) in zip(jobs, heard):
        claims += [(features, row[3], suggested == row[4] and row[3] != "shift", condition)
                   for (suggested, features), row in zip(answers, rows)]
        missing += len(gone)
        for t, m, features in candidates:
            found = any(abs(t - on) <= 0.05 and m == p for on, p in gone)
            told = any(abs(t - row[5]) <= 0.05 and m == row[4] for row in rows if row[3] not in ("right", "extra"))
            # The check lists nothing that a claim of its pitch within a tenth of a second accounts for.
            claimed = any(abs(t - row[0]) < 0.1 and m == row[2] for row in rows)
            if found or not (told or claimed):
                onsets.append((features, found))
    return claims, onsets, missing


def logistic(x):
    return 1 / (1 + np.exp(-np.clip(x, -50, 50)))


def fit(parts, y, signs, known=0):
    """Weights and bias of each part of a product of logistic regressions, weights bounded by their signs; `known` is the
    log of a factor that stays."""
    spreads = [(x.mean(0), x.std(0) + 1e-6) for x in parts]
    z = [np.column_stack([(x - m) / s, np.ones(len(x))]) for x, (m, s) in zip(parts, spreads)]
    ends = np.cumsum([x.shape[1] for x in z])[:-1]
    bias = np.concatenate([np.arange(x.shape[1]) == x.shape[1] - 1 for x in z])

    def loss(w):
        odds = [x @ v for x, v in zip(z, np.split(w, ends))]
        log = np.minimum(known - sum(np.logaddexp(0, -o) for o in odds), -1e-9)
        p = np.exp(log)
        slope = np.where(y, -1, p / (1 - p)) / len(y)
        slopes = np.concatenate([x.T @ (slope * logistic(-o)) for x, o in zip(z, odds)])
        kept = np.where(bias, 0, w)
        return -np.where(y, log, np.log1p(-p)).mean() + 1e-4 * (kept ** 2).sum(), slopes + 2e-4 * kept

    bounds = [b for part in signs for b in
              [(0, None) if s > 0 else (None, 0) if s < 0 else (None, None) for s in part] + [(None, None)]]
    start = np.concatenate([[0.3 * s for s in part] + [2] for part in signs])
    w = optimize.minimize(loss, start, jac=True, bounds=bounds, method="L-BFGS-B", options=dict(maxiter=2000)).x
    return [(v[:-1] / s, float(v[-1] - (v[:-1] / s) @ m)) for v, (m, s) in zip(np.split(w, ends), spreads)]


def probability(fitted, parts):
    return np.prod([logistic(x @ w + b) for (w, b), x in zip(fitted, parts)], 0)


def held_out(parts, y, signs):
    """Probability of each row by a fit without its quarter of the files."""
    fold, p = np.arange(len(y)) * 4 // len(y), np.zeros(len(y))
    for k in range(4):
        fitted = fit([x[fold != k] for x in parts], y[fold != k], signs)
        p[fold == k] = probability(fitted, [x[fold == k] for x in parts])
    return p


def auc(high, low):
    order = np.argsort(np.argsort(np.concatenate([high, low])))
    return (order[:len(high)].sum() - len(high) * (len(high) - 1) / 2) / (len(high) * len(low))


CLAIM_PARTS, CLAIM_SIGNS = (slice(0, 6), slice(6, 10)), [PITCH_SIGNS, BEGIN_SIGNS]
SUGGESTION = slice(10, 18)


def claim_tables(claims):
    x = np.array([c[0] for c in claims])
    return [x[:, part] for part in CLAIM_PARTS], x[:, SUGGESTION], np.array([c[1] for c in claims]), \
        np.array([c[2] for c in claims]), np.array([c[3] for c in claims])


def report(claims, onsets, missing):
    parts, suggestion, kind, fixed, condition = claim_tables(claims)
    right, wrong, shift = kind == "right", ~np.isin(kind, ["right", "shift"]), kind == "shift"
    p = held_out(parts, right, CLAIM_SIGNS)
    doubted = (p <= SUPPORTED_ABOVE) & ~right
    another = probability(fit([suggestion[doubted]], fixed[doubted], [SUGGESTION_SIGNS]), [suggestion])
    another[doubted] = held_out([suggestion[doubted]], fixed[doubted], [SUGGESTION_SIGNS])
    given = doubted & (another > SUGGESTED_ABOVE)
    no = (p <= SUPPORTED_ABOVE) & ((p < CONTRADICTED_BELOW) | (another >= p))
    share = lambda x: 100 * x.mean() if len(x) else float("nan")
    for c in ("solo", "trio", "band"):
        m, unclear = condition == c, (p <= SUPPORTED_ABOVE) & ~no
        print("%s: AUC %.4f, wrong contradicted %.1f %%, right contradicted %.1f %%, unclear %.1f %%, corrected %.1f %%, "
              "invented or shifted not supported %.1f / %.1f %%, suggestions right %.1f %%, for invented and shifted %.1f %%" % (
                  c, auc(p[m & right], p[m & wrong]), share(no[m & wrong]), share(no[m & right]), share(unclear[m & ~shift]),
                  share((no & fixed & given)[m & wrong & (kind != "extra")]), share((p <= SUPPORTED_ABOVE)[m & (kind == "extra")]),
                  share((p <= SUPPORTED_ABOVE)[m & shift]), share(fixed[m & given]),
                  share(given[m & doubted & (shift | (kind == "extra"))])))
    tenths = np.array_split(np.argsort(p), 10)
    print("reliability (said/true):", " ".join("%.3f/%.3f" % (p[t].mean(), right[t].mean()) for t in tenths))
    q = held_out([np.array([o[0] for o in onsets])], np.array([o[1] for o in onsets]), [ONSET_SIGNS])
    found = np.array([o[1] for o in onsets])
    for threshold in (0.2, 0.25, 0.3, 0.35, 0.4, 0.5):
        listed = q > threshold
        print("unwritten above %.2f: precision %.1f %%, recall %.1f %%" % (
            threshold, 100 * found[listed].mean(), 100 * found[listed].sum() / missing))


def fit_again(pitch, parts, right):
    """The onset's part alone, for a pitch's part that stays."""
    begin, = fit([parts[1]], right, [BEGIN_SIGNS], np.log(probability([pitch], parts[:1])))
    return begin


def numbers(values):
    texts = ["%.5g" % v for v in values]
    return ", ".join(t + ("F" if "." in t or "e" in t else ".F") for t in texts)


def main():
    work, sets, soft, tool, out = sys.argv[1], sys.argv[2].split(","), sys.argv[3].split(","), sys.argv[4], sys.argv[5]
    claims, onsets, missing = collect(work, sets, tool)
    report(claims, onsets, missing)
    parts, suggestion, kind, fixed, _ = claim_tables(claims)
    pitch, _ = fit(parts, kind == "right", CLAIM_SIGNS)
    softly, _, soft_kind, _, _ = claim_tables(collect(work, soft, tool)[0])
    begin = fit_again(pitch, [np.concatenate(both) for both in zip(parts, softly)],
                      np.concatenate([kind, soft_kind]) == "right")
    doubted = (probability([pitch, begin], parts) <= SUPPORTED_ABOVE) & (kind != "right")
    instead, = fit([suggestion[doubted]], fixed[doubted], [SUGGESTION_SIGNS])
    unclaimed, = fit([np.array([o[0] for o in onsets])], np.array([o[1] for o in onsets]), [ONSET_SIGNS])
    text = "// Written by core/check/training/odds.py. Not for editing by hand.\n"
    text += '#include "core/check/JudgementWeights.h"\n\n// clang-format off\nnamespace earwright {\n\n'
    for name, count, (w, b) in (("claimPitchOdds", "claimPitchFeatureCount", pitch),
                                ("claimOnsetOdds", "claimOnsetFeatureCount", begin),
                                ("suggestionOdds", "suggestionFeatureCount", instead),
                                ("unwrittenOdds", "unwrittenFeatureCount", unclaimed)):
        text += "const LogOdds<%s> %s{\n{%s},\n%s};\n\n" % (count, name, numbers(w), numbers([b]))
    open(out, "w").write(text + "} // namespace earwright\n")


if __name__ == "__main__":
    main()
