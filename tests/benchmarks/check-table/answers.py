"""What the headless tool answers to a recording."""
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

from recordings import Note, number, rows


@dataclass(frozen=True)
class Answer:
    verdict: str
    score: float
    suggested: int | None


@dataclass(frozen=True)
class Answers:
    hints: list  # the pitch named in the span of each true note, or None
    claims: list
    unwritten: list
    cents: float


def _ask(batch, words):
    run = subprocess.run([batch, *map(str, words)], capture_output=True, text=True)
    if run.returncode:
        raise RuntimeError(f"{' '.join(map(str, words))}: exit code {run.returncode}: {run.stderr.strip()}")
    return rows(run.stdout)


def _midi(text):
    return None if not text else round(float(text))


def _hints(batch, recording):
    with tempfile.TemporaryDirectory() as folder:
        spans = Path(folder) / "spans.tsv"
        lines = [f"{n.onset:.4f}\t{n.onset + n.length:.4f}" for n in recording.truth]
        spans.write_text("\n".join(["start_s\tend_s", *lines, ""]))
        answered = _ask(batch, ["hint", recording.audio, "--spans", spans])
    if len(answered) != len(recording.truth):
        raise RuntimeError(f"{recording.folder}: {len(answered)} hints for {len(recording.truth)} spans")
    return [_midi(row["best_midi"]) for row in answered]


def ask(batch, recording):
    checked = _ask(batch, ["check", recording.audio, "--notes", recording.folder / "claimed.tsv"])
    claims = [row for row in checked if row["kind"] == "claimed"]
    if [round(float(row["midi"])) for row in claims] != [claim.midi for claim in recording.claims]:
        raise RuntimeError(f"{recording.folder}: the answers are not those to claimed.tsv")
    tuning = _ask(batch, ["tuning", recording.audio])
    return Answers(
        _hints(batch, recording),
        [Answer(row["verdict"], float(row["score"]), _midi(row["suggested_midi"])) for row in claims],
        [Note(float(row["onset_s"]), number(row["dur_s"]) or 0.1, round(float(row["midi"])))
         for row in checked if row["kind"] == "unwritten"],
        float(tuning[-1]["cents"]))
