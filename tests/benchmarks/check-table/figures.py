"""The figures of a check, over recordings and what was answered to them.

Unwritten notes are matched by mir_eval (onset within 50 ms and pitch within 50 cents, its defaults and those of MIREX
note tracking). The intervals hold 95 of 100 draws of the recordings with replacement (bootstrap): notes of one
recording stand and fall together, so that single notes say too little of the chance in a figure.
"""
import numpy as np
from mir_eval import transcription

BINS = 10


def _matched(true, heard):
    """Pairs of places in both lists."""
    if not true or not heard:
        return []
    spans = [np.array([[n.onset, n.onset + max(n.length, 0.02)] for n in notes]) for notes in (true, heard)]
    hertz = [np.array([440.0 * 2 ** ((n.midi - 69) / 12) for n in notes]) for notes in (true, heard)]
    # Not quite 50: a quarter tone off is none of the two.
    return transcription.match_notes(spans[0], hertz[0], spans[1], hertz[1], onset_tolerance=0.05,
                                     pitch_tolerance=49.0, offset_ratio=None)


def _behind(recording, labels):
    """The true notes that some labels tell of."""
    wanted = {(round(label.true_onset, 4), label.true_midi) for label in labels if label.true_midi is not None}
    return [note for note in recording.truth if (round(note.onset, 4), note.midi) in wanted]


def _unwritten(recording, answers):
    """Found, not found, and heard though nothing was left out. The true note behind a wrong claim counts neither way:
    it is not written, and a suggestion may name it."""
    gone = _behind(recording, recording.left_out)
    pairs = _matched(gone, answers.unwritten)
    taken = {place for _, place in pairs}
    rest = [note for i, note in enumerate(answers.unwritten) if i not in taken]
    meant = [label for label in recording.labels if label.is_wrong_pitch or label.word == "shift"]
    return len(pairs), len(gone) - len(pairs), len(rest) - len(_matched(_behind(recording, meant), rest))


class Counts:
    """What one recording adds to the figures."""

    def __init__(self, recording, answers):
        of = list(zip(recording.labels, answers.claims))
        self.hints = [heard == note.midi for heard, note in zip(answers.hints, recording.truth)]
        self.right = [a.score for label, a in of if label.word == "correct"]
        self.wrong = [a.score for label, a in of if label.is_wrong_pitch or label.word == "extra"]
        self.caught = [a.verdict == "contradicted" for label, a in of if label.is_wrong_pitch or label.word == "extra"]
        self.blamed = [a.verdict == "contradicted" for label, a in of if label.word == "correct"]
        self.corrected = [a.verdict == "contradicted" and a.suggested == label.true_midi
                          for label, a in of if label.is_wrong_pitch]
        self.marked = [a.verdict != "supported" for label, a in of if label.word in ("extra", "shift")]
        self.unclear = [a.verdict == "unclear" for _, a in of]
        self.scored = [(a.score, label.word == "correct") for label, a in of]
        self.found, self.missed, self.invented = _unwritten(recording, answers)
        self.tuning = []
        if recording.cents:
            low, high = recording.cents
            self.tuning = [max(0.0, low - answers.cents, answers.cents - high)]


def _share(counts, name):
    all_of = [value for one in counts for value in getattr(one, name)]
    return 100 * float(np.mean(all_of)) if all_of else float("nan")


def area(counts):
    """Under the receiver's curve: how probably a right claim scores above a wrong pitch or extra note; ties half."""
    right = np.sort([score for one in counts for score in one.right])
    wrong = np.array([score for one in counts for score in one.wrong])
    if not len(right) or not len(wrong):
        return float("nan")
    above = len(right) - np.searchsorted(right, wrong, "right")
    level = np.searchsorted(right, wrong, "right") - np.searchsorted(right, wrong, "left")
    return float(np.mean(above + level / 2) / len(right))


def reliability(counts):
    """Mean score and share that is right, in bins of equal count."""
    scored = np.array(sorted(pair for one in counts for pair in one.scored), float)
    return [(part[:, 0].mean(), part[:, 1].mean()) for part in np.array_split(scored, BINS) if len(part)]


def _miscalibration(counts):
    return 100 * float(np.mean([abs(score - share) for score, share in reliability(counts)]))


def _ratio(part, rest):
    return 100 * part / (part + rest) if part + rest else float("nan")


def _precision(counts):
    return _ratio(sum(one.found for one in counts), sum(one.invented for one in counts))


def _recall(counts):
    return _ratio(sum(one.found for one in counts), sum(one.missed for one in counts))


def _tuning(counts, of):
    errors = [error for one in counts for error in one.tuning]
    return float(of(errors)) if errors else float("nan")


FIGURES = {
    "pitch named in the span, %": lambda counts: _share(counts, "hints"),
    "AUC right against wrong": area,
    "wrong claims contradicted, %": lambda counts: _share(counts, "caught"),
    "right claims contradicted, %": lambda counts: _share(counts, "blamed"),
    "wrong pitches rightly corrected, %": lambda counts: _share(counts, "corrected"),
    "extra and shifted notes marked, %": lambda counts: _share(counts, "marked"),
    "claims left unclear, %": lambda counts: _share(counts, "unclear"),
    "unwritten notes, precision, %": _precision,
    "unwritten notes, recall, %": _recall,
    "tuning error, mean, cents": lambda counts: _tuning(counts, np.mean),
    "tuning error, worst, cents": lambda counts: _tuning(counts, np.max),
    "score off by, mean of ten bins, points": _miscalibration,
}


def interval(figure, counts, draws=400):
    """From the 2.5th to the 97.5th of a hundred draws of the recordings, seeded."""
    chance = np.random.default_rng(1)
    drawn = [figure([counts[i] for i in chance.integers(0, len(counts), len(counts))]) for _ in range(draws)]
    return np.nanpercentile(drawn, [2.5, 97.5])
