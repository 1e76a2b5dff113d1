"""Trains the two small networks of core/listening and writes NetworkWeights.cpp.

  networks.py WORK OUT.cpp --spans SET,SET… [--later SET,SET…]… --onsets SET,SET…

A set is a folder of WORK made by solos.py. The span network goes on with each list of later sets, more slowly, for three
rounds; a set named twice counts twice.
"""
import argparse
import concurrent.futures
import glob
import json

import numpy as np
import torch
from torch import nn

from features import HOP, HOPS_APART, PITCHES, RATE, LOWEST, Sound, onset_table

torch.set_num_threads(2)


class Scorer(nn.Module):
    """SmallNetwork: linear part plus one layer of rectified units."""

    def __init__(self, inputs, units):
        super().__init__()
        self.hidden, self.out, self.direct = nn.Linear(inputs, units), nn.Linear(units, 1), nn.Linear(inputs, 1)

    def forward(self, x):
        return (self.direct(x) + self.out(torch.relu(self.hidden(x))))[..., 0]


class SpanScorer(nn.Module):
    """SpanNetwork: scores each pitch, lets it tell its relatives a few numbers, and adds what they make of them."""

    RELATIVES = [-24, -19, -12, -7, -5, -2, -1, 0, 1, 2, 5, 7, 12, 19, 24]

    def __init__(self, inputs, units=96, told=8, among=40):
        super().__init__()
        self.alone, self.told = Scorer(inputs, units), nn.Linear(units, told)
        self.hidden, self.out = nn.Linear(len(self.RELATIVES) * (told + 1), among), nn.Linear(among, 1)

    def forward(self, x):
        active = torch.relu(self.alone.hidden(x))
        scores = (self.alone.direct(x) + self.alone.out(active))[..., 0]
        probable = torch.log_softmax(scores, -1).clamp(min=-10) / 4 + 2.5
        heard = nn.functional.pad(torch.cat([self.told(active), probable[..., None]], -1), (0, 0, 24, 24))
        heard = torch.cat([heard[..., 24 + r:24 + r + PITCHES, :] for r in self.RELATIVES], -1)
        return scores + self.out(torch.relu(self.hidden(heard)))[..., 0]


class OnsetScorer(nn.Module):
    """One score a pitch, and one for no onset from the shared features."""

    def __init__(self, inputs, units):
        super().__init__()
        self.pitch = Scorer(inputs, units)
        self.hidden, self.out = nn.Linear(4, 6), nn.Linear(6, 1)

    def forward(self, x, flux):
        return torch.cat([self.pitch(x), self.out(torch.relu(self.hidden(flux)))], 1)


def solos(work, names):
    for name in names:
        for path in sorted(glob.glob("%s/%s/*.flac" % (work, name))):
            yield path, np.loadtxt(path[:-5] + ".tsv", ndmin=2), json.load(open(path[:-5] + ".json"))["cents"]


def views_with_line(sound, notes):
    """Both sides together, and where the picture is wide also the view in which the line's partials rise most."""
    if len(sound.views) == 1:
        return [0]
    rise = []
    for view in range(len(sound.views)):
        t = [sound.span_features(view, on, d)[:, 10:16].sum(1) for on, d in notes[:, :2]]
        rise.append(np.mean([row[int(m) - LOWEST] - np.median(row) for row, m in zip(t, notes[:, 2])]))
    best = int(np.argmax(rise))
    return [0] if best == 0 else [0, best]


def mistuned(r, cents):
    """Players are never exactly where the tuning estimate is."""
    return cents + r.normal(0, 4 if r.random() < 0.75 else 14)


def spans_of(path, notes, cents, seed):
    r, tables, pitches = np.random.default_rng([5, seed]), [], []
    sound = Sound(path, mistuned(r, cents))
    for view in views_with_line(sound, notes):
        for on, d, m in notes[:, :3]:
            late = r.normal(0, 0.007 if r.random() < 0.8 else 0.02)
            # Quick runs are written as they follow one another: no room to be late by a note.
            late = np.clip(late, -0.4 * d, 0.4 * d) if d < 0.05 else late
            length = d if r.random() < 0.5 else d * np.exp(r.normal(0, 0.25))
            tables.append(sound.span_features(view, on + late, length).astype(np.float16))
            pitches.append(int(m) - LOWEST)
    return np.array(tables), np.array(pitches)


def onsets_of(path, notes, cents, seed):
    r, tables, targets, shared = np.random.default_rng([7, seed]), [], [], []
    sound = Sound(path, mistuned(r, cents))
    spectra = sound.onset_spectra(views_with_line(sound, notes)[-1])
    usual = np.sqrt((spectra.max(1) ** 2).mean())
    t = np.arange(len(spectra) - HOPS_APART) * HOP / RATE
    off = np.abs(t[:, None] - notes[None, :, 0])
    nearest, off = off.argmin(1), off.min(1)
    yes = np.flatnonzero(off <= 0.0101)
    no = np.flatnonzero((off > 0.035) & (t > 0.1) & (t < t[-1] - 0.1))
    for i in np.concatenate([yes, r.choice(no, min(len(no), 150), False)]):
        table, flux = onset_table(spectra[i + HOPS_APART], spectra[i], usual)
        tables.append(table.astype(np.float16))
        shared.append(flux)
        targets.append(int(notes[nearest[i], 2]) - LOWEST if off[i] <= 0.0101 else PITCHES)
    return np.array(tables), np.array(targets), np.array(shared)


def heard(of, work, names, draws=1):
    """What `of` makes of each solo, joined; in each draw the claims lie elsewhere."""
    files = list(solos(work, names)) * draws
    with concurrent.futures.ProcessPoolExecutor(2) as pool:
        parts = list(pool.map(of, *zip(*files), range(len(files)), chunksize=4))
    return [np.concatenate(columns) for columns in zip(*parts)]


def fit(model, inputs, targets, epochs, batch, rate, smoothing=0.0):
    torch.manual_seed(0)
    inputs, targets = [torch.from_numpy(x) for x in inputs], torch.from_numpy(targets).long()
    steps = epochs * (len(targets) // batch)
    optimiser = torch.optim.AdamW(model.parameters(), lr=rate, weight_decay=1e-4)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimiser, rate, total_steps=steps + epochs)
    for _ in range(epochs):
        order = torch.randperm(len(targets))
        for i in range(0, len(targets) - batch + 1, batch):
            k = order[i:i + batch]
            loss = nn.functional.cross_entropy(model(*(x[k].float() for x in inputs)), targets[k],
                                               label_smoothing=smoothing)
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            schedule.step()
    return model


def number(x):
    text = "%.6g" % float(x)
    return text + ("F" if "." in text or "e" in text else ".F")


def array(values):
    return "{" + ",".join(map(number, values)) + "}"


def rows(matrix):
    """One row an input, as SmallNetwork holds its weights."""
    return "{{%s}}" % ",\n".join(array(row) for row in matrix.T)


def network(hidden, out, direct, bias):
    return "{\n%s,\n%s,\n%s,\n%s,\n%s}" % (rows(hidden.weight), array(hidden.bias), array(out.weight[0]), array(direct),
                                          number(bias))


def scorer(n):
    return network(n.hidden, n.out, n.direct.weight[0], n.out.bias[0] + n.direct.bias[0])


def among(n):
    return network(n.hidden, n.out, np.zeros(n.hidden.in_features), n.out.bias[0])


def main():
    options = argparse.ArgumentParser()
    options.add_argument("work")
    options.add_argument("out")
    for sets in ("--spans", "--onsets"):
        options.add_argument(sets, required=True, type=lambda names: names.split(","))
    options.add_argument("--later", action="append", default=[], type=lambda names: names.split(","))
    o = options.parse_args()
    tables, pitches = heard(spans_of, o.work, o.spans, 2)
    torch.manual_seed(1)
    span = fit(SpanScorer(tables.shape[2]), [tables], pitches, 8, 96, 3e-3, 0.01)
    for later in o.later:
        tables, pitches = heard(spans_of, o.work, later, 2)
        span = fit(span, [tables], pitches, 3, 96, 1.5e-3, 0.01)
    tables, targets, shared = heard(onsets_of, o.work, o.onsets)
    onset = fit(OnsetScorer(tables.shape[2], 16), [tables, shared], targets, 5, 128, 3e-3)
    torch.save((span.state_dict(), onset.state_dict()), o.work + "/networks.pt")
    text = "// Written by training/networks.py; see training/README.md. Not for editing by hand.\n"
    text += '#include "core/listening/NetworkWeights.h"\n\n// clang-format off\nnamespace earwright {\n\n'
    with torch.no_grad():
        text += "const SpanNetwork spanNetwork{\n%s,\n%s,\n%s,\n%s};\n\n" % (
            scorer(span.alone), rows(span.told.weight), array(span.told.bias), among(span))
        text += "const SmallNetwork<onsetFeatureCount, 16> onsetNetwork%s;\n\n" % scorer(onset.pitch)
        text += "const SmallNetwork<fluxFeatureCount, 6> noOnsetNetwork%s;\n\n" % among(onset)
    open(o.out, "w").write(text + "} // namespace earwright\n")


if __name__ == "__main__":
    main()
