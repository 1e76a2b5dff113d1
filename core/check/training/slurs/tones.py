"""Single tones of sampled instruments, to build lines of: every pitch of a program, softly and loudly struck."""
import os
import subprocess
import sys
import tempfile

import numpy as np
import soundfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../../listening/training"))
from midi import note, program, write_midi  # noqa: E402

RATE = 44100
LENGTH = 1.1                                            # seconds of each tone that are kept
APART = 1.6
VELOCITIES = (62, 104)
FONTS = {"fluid": "/usr/share/sounds/sf2/FluidR3_GM.sf2", "csound": "/usr/share/sounds/sf2/sf_GMbank.sf2",
         "tim": "/usr/share/sounds/sf2/TimGM6mb.sf2", "freepats": None}
PROGRAMS = {"plucked": {24: (40, 83), 25: (40, 83), 26: (40, 86), 27: (40, 86), 28: (40, 84), 33: (28, 60)},
            "blown": {56: (54, 84), 57: (41, 70), 64: (57, 86), 65: (49, 82), 66: (45, 77), 67: (38, 70), 71: (50, 86),
                      73: (60, 93)},
            "held": {40: (55, 90), 42: (38, 76), 53: (45, 80)}}


def sound_of(font, midi_file, wave_file):
    if FONTS[font] is None:
        command = ["timidity", "-c", "/etc/timidity/freepats.cfg", "-s", str(RATE), "-EFreverb=0", "-EFchorus=0", "-OwM",
                   "-o", wave_file, midi_file]
    else:
        command = ["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.5", "-r", str(RATE), "-O", "float", "-T", "wav",
                   "-F", wave_file, FONTS[font], midi_file]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def tones(folder, font, number, low, high):
    """Array [pitch − low, velocity, sample], int16 scaled to each tone's peak; made once and kept in `folder`."""
    path = "%s/%s-%d.npy" % (folder, font, number)
    if not os.path.exists(path):
        os.makedirs(folder, exist_ok=True)
        events, place = program(0, number), []
        for pitch in range(low, high + 1):
            for velocity in VELOCITIES:
                place.append(.3 + APART * len(place))
                events += note(0, pitch, place[-1], LENGTH + .1, velocity)
        with tempfile.TemporaryDirectory() as work:
            write_midi(work + "/a.mid", events)
            sound_of(font, work + "/a.mid", work + "/a.wav")
            x = soundfile.read(work + "/a.wav", always_2d=True)[0].mean(1)
        x = np.concatenate([x, np.zeros(2 * RATE)])
        cut = np.array([x[int((t - .005) * RATE):][:int(LENGTH * RATE)] for t in place])
        peak = np.abs(cut).max(1, keepdims=True)
        cut = np.where(peak > 1e-4, cut / np.maximum(peak, 1e-9), 0)
        np.save(path, (32000 * cut).astype(np.int16).reshape(high - low + 1, len(VELOCITIES), -1))
    return np.load(path, mmap_mode="r")


def begin_of(tone):
    """The sample at which a tone begins: where it first reaches a twelfth of its loudest."""
    loud = np.abs(tone.astype(float))
    return int(np.argmax(loud > loud.max() / 12))


if __name__ == "__main__":
    for font in FONTS:
        for character, programs in PROGRAMS.items():
            for number, (low, high) in programs.items():
                cut = tones(sys.argv[1], font, number, low, high)
                silent = (np.abs(cut).max(2) == 0).mean()
                begins = [begin_of(t) for t in cut[:, 1]]
                print(font, character, number, "silent %.2f" % silent, "begins at %.0f ms" % (np.median(begins) / 44.1), flush=True)
