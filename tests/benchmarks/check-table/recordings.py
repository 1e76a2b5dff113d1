"""A recording with known notes and planted mistakes, as a folder holds it.

  audio.wav     the recording
  truth.tsv     onset_s dur_s midi: the notes that sound
  claimed.tsv   onset_s dur_s midi: the notes as a user wrote them, with mistakes
  labels.tsv    claim label true_midi true_onset_s: by row of claimed.tsv, from 0, what the claim is: `correct`,
                `shift` (right pitch, wrong place), `extra` (nothing sounds there) or any other word for a wrong pitch;
                claim -1 with the label `missing` is a note that was left out
  info.json     cents: how far the band is tuned from A = 440 Hz; lead_cents: the line, where it differs

The folder above a recording's own names its condition (alone, with a trio, …).
"""
import csv
import json
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Note:
    onset: float
    length: float
    midi: int


@dataclass(frozen=True)
class Label:
    word: str
    true_midi: int | None
    true_onset: float | None

    @property
    def is_wrong_pitch(self):
        return self.word not in ("correct", "shift", "extra", "missing")


@dataclass(frozen=True)
class Recording:
    folder: Path
    truth: list
    claims: list
    labels: list  # one a claim
    left_out: list  # labels of notes that nobody claims
    cents: tuple | None  # from the lowest to the highest that is right

    @property
    def condition(self):
        return self.folder.parent.name

    @property
    def audio(self):
        return self.folder / "audio.wav"


def rows(text):
    return list(csv.DictReader(text.splitlines(), delimiter="\t"))


def number(text):
    return float(text) if text else None


def _notes(path):
    return [Note(float(r["onset_s"]), float(r["dur_s"]), round(float(r["midi"]))) for r in rows(path.read_text())]


def _label(row):
    midi = number(row["true_midi"])
    return Label(row["label"], None if midi is None else round(midi), number(row["true_onset_s"]))


def _cents(path):
    info = json.loads(path.read_text()) if path.exists() else {}
    if "cents" not in info:
        return None
    return tuple(sorted((info["cents"], info.get("lead_cents", info["cents"]))))


def read(folder):
    claims = _notes(folder / "claimed.tsv")
    by_claim = rows((folder / "labels.tsv").read_text())
    labels = {int(row["claim"]): _label(row) for row in by_claim if int(row["claim"]) >= 0}
    if sorted(labels) != list(range(len(claims))):
        raise ValueError(f"{folder / 'labels.tsv'}: needs one label for each of the {len(claims)} claims")
    left_out = [_label(row) for row in by_claim if int(row["claim"]) < 0]
    return Recording(folder, _notes(folder / "truth.tsv"), claims, [labels[i] for i in range(len(claims))], left_out,
                     _cents(folder / "info.json"))


def below(folders):
    """All recordings below some folders, in order of their names."""
    found = [path.parent for folder in folders for path in sorted(Path(folder).rglob("claimed.tsv"))]
    if not found:
        raise ValueError(f"{', '.join(map(str, folders))}: holds no recording with claimed.tsv")
    return [read(folder) for folder in found]
