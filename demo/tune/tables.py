"""Writes what was really played as tables: the line note by note, and where the bars begin."""

from tune import score


def write_truth(path, played):
    lines = ["onset_s\tdur_s\tmidi\tvelocity\tbar\tbeat\twritten_duration\tarticulation"]
    for item in played:
        note = item.note
        lines.append("\t".join([
            f"{item.onset:.4f}", f"{item.duration:.4f}", str(note.midi), str(item.velocity), str(note.bar),
            str(note.beat_in_bar), str(note.length), note.articulation(),
        ]))
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def write_bars(path, clock):
    lines = ["bar\tseconds\tbeats_per_minute"]
    lines += [f"{bar}\t{clock.bar_seconds(bar):.4f}\t{clock.bar_bpm(bar):.2f}" for bar in range(1, score.LAST_BAR + 2)]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
