"""Writes the demo study in the form of resources/study.schema.json, laid out as the program itself writes it."""

import json
from fractions import Fraction

import xxhash

from tune import score, transcription
from tune.notation import SWUNG_UPBEAT, midi_number

ORDINARY_LOUDNESS = 0.6
AHEAD = 0.015  # seconds; phrases are marked just ahead of their first attack, which may come early


class StudyWriter:
    def __init__(self, clock, line, recording):
        self._clock = clock
        self._line = line
        self._triplets = transcription.triplets(line)
        self._recording = recording
        self._next_id = 1
        self.notes, self.mistakes = transcription.transcribed(line)

    def write(self, path):
        path.write_text(_layout(self._study()), encoding="utf-8")

    def _study(self):
        study = {
            "format": "earwright-study",
            "version": 3,
            "title": score.TITLE,
            "recording": _recording(self._recording),
            "meter": {"beatsPerBar": 4, "beatUnit": 4},
            "beatMarks": self._beat_marks(),
            "form": [_bar_chords(bar.split()) for bar in score.FORM.split("|")],
            "overrides": [
                {"bar": bar, "chords": _bar_chords(score.chords_of_bar(bar))}
                for bar in range(1, score.LAST_BAR + 1)
                if not score.FIRST_CHORUS_BAR <= bar < score.TAG_BAR
            ],
            "spans": self._spans(),
            "notes": [self._note(note) for note in self.notes],
            "page": self._page(),
            "divisions": [
                {"beat": beat, "parts": parts} for beat, parts in transcription.divisions(self._line).items()
            ],
            "looseEnds": [
                {"id": self._id(), "time": self._seconds(bar, place), "text": text, "done": False}
                for bar, place, text in transcription.LOOSE_ENDS
            ],
            "takes": [],
            "earRecord": [],
            "practice": self._practice(),
        }
        study["nextId"] = self._next_id
        return study

    def _page(self):
        page = {
            kind: []
            for kind in ("keys", "meters", "swings", "tempos", "dynamics", "hairpins", "texts", "repeats")
        }
        page["keys"] = [{"bar": 1, "fifths": 1, "mode": "major"}]
        page["swings"] = [
            {"at": beat, "ratio": ratio, "noteValue": 8} for beat, ratio in transcription.swings(self._line)
        ]
        return page

    def _id(self):
        self._next_id += 1
        return self._next_id - 1

    def _seconds(self, bar, place="1"):
        return round(self._clock.seconds(transcription.place(bar, place)), 4)

    def _beat_marks(self):
        return [
            {"position": 4 * (bar - 1), "time": self._seconds(bar)} for bar in range(1, score.LAST_BAR + 2)
        ]

    def _spans(self):
        bars = [("section", span) for span in transcription.SECTIONS]
        bars += [("chorus", span) for span in transcription.choruses()]
        spans = [(kind, name, self._seconds(first), self._seconds(end)) for kind, (name, first, end) in bars]
        for name, first, first_place, end, end_place in transcription.PHRASES:
            begin, end = self._seconds(first, first_place), self._seconds(end, end_place)
            spans.append(("phrase", name, round(begin - AHEAD, 4), round(end - AHEAD, 4)))
        spans.sort(key=lambda span: span[2])
        return [
            {"id": self._id(), "kind": kind, "name": name, "begin": begin, "end": end}
            for kind, name, begin, end in spans
        ]

    def _note(self, note):
        onset = self._written(note.beat)
        written = {
            "id": self._id(),
            "onset": _beats(onset),
            "length": _beats(self._written(note.beat + note.length) - onset),
            "midi": note.midi,
            "spelling": note.name[:-1],
            "loudness": ORDINARY_LOUDNESS,
        }
        if note.slide_in:
            written["slideIn"] = "below" if note.slide_in > 0 else "above"
        if note.slide_out:
            written["slideOut"] = "down" if note.slide_out > 0 else "up"
        if note.grace:
            written["graceNotes"] = [midi_number(note.grace)]
        if note.trill:
            written["trill"] = midi_number(note.trill) - note.midi
        for word, said in (("slurred", note.slurred), ("ghosted", note.ghost), ("accented", note.accent)):
            if said:
                written[word] = True
        return written

    def _written(self, place):
        """A swung upbeat stands in the middle of its beat on the page, and what ends within it ends there."""
        within = place % 1
        is_swung = within in (SWUNG_UPBEAT, 1 - SWUNG_UPBEAT) and int(place // 1) not in self._triplets
        return place - within + Fraction(1, 2) if is_swung else place

    def _practice(self):
        first, end = transcription.LOOP_BARS
        loop = {"begin": self._seconds(first), "end": self._seconds(end)}
        return {"loop": loop, "speed": transcription.LOOP_SPEED, "semitones": 0, "cents": 0}


def write_planted(path, mistakes):
    """The mistakes left in the study, for the test; empty where nothing is written, or nothing sounds."""
    lines = ["kind\tbar\tbeat\twritten_midi\theard_bar\theard_beat\theard_midi"]
    for mistake in mistakes:
        lines.append("\t".join([mistake.kind, *_cells(mistake.written), *_cells(mistake.heard)]))
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _cells(note):
    return (str(note.bar), str(note.beat_in_bar), str(note.midi)) if note else ("", "", "")


def _beats(beats):
    return beats.numerator if beats.denominator == 1 else str(beats)


def _bar_chords(symbols):
    return [{"at": 4 * index // len(symbols), "symbol": symbol} for index, symbol in enumerate(symbols)]


def _recording(path):
    """Name, fingerprint, rate and length; an Ogg Vorbis file says its rate first and its length last."""
    data = path.read_bytes()
    identification = data.index(b"\x01vorbis")
    last_page = data.rindex(b"OggS")
    return {
        "path": path.name,
        "contentHash": xxhash.xxh3_128_hexdigest(data),
        "rate": int.from_bytes(data[identification + 12 : identification + 16], "little"),
        "length": int.from_bytes(data[last_page + 6 : last_page + 14], "little"),
    }


def _layout(study):
    """Each list entry on a line of its own, so that a change shows as a line."""
    entries = []
    for name, value in study.items():
        if isinstance(value, list) and value:
            text = "[\n    " + ",\n    ".join(map(_compact, value)) + "\n  ]"
        else:
            text = _compact(value)
        entries.append(f"{_compact(name)}: {text}")
    return "{\n  " + ",\n  ".join(entries) + "\n}\n"


def _compact(value):
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
