"""Events of a Standard MIDI File, as tuples of time in seconds, order at equal times, and bytes."""
import struct

import numpy as np


def program(channel, number):
    return [(0, 0, bytes([0xC0 | channel, number]))]


def tuned(channel, cents):
    """Channel fine tuning, registered parameter 1."""
    v = int(round(8192 + cents / 100 * 8192))
    return [(0, 1, bytes([0xB0 | channel, a, b])) for a, b in ((101, 0), (100, 1), (6, v >> 7), (38, v & 127))]


def bend(channel, time, cents):
    v = int(np.clip(round(8192 + cents / 200 * 8192), 0, 16383))
    return (time, 2, bytes([0xE0 | channel, v & 127, v >> 7]))


def note(channel, pitch, time, length, velocity):
    v = int(np.clip(velocity, 1, 127))
    return [(time, 3, bytes([0x90 | channel, int(pitch), v])),
            (time + max(.02, length), 2, bytes([0x80 | channel, int(pitch), 0]))]


def delta(n):
    out = [n & 127]
    while n := n >> 7:
        out.append(128 | (n & 127))
    return bytes(reversed(out))


def write_midi(path, events):
    """Format 0, a tick a ten-thousandth of a second."""
    track, last = b"\x00\xff\x51\x03\x0f\x42\x40", 0
    for time, _, data in sorted(events, key=lambda e: (round(e[0] * 10000), e[1])):
        tick = int(round(max(0, time) * 10000))
        track, last = track + delta(tick - last) + data, tick
    track += delta(20000) + b"\xff\x2f\x00"
    with open(path, "wb") as f:
        f.write(b"MThd" + struct.pack(">IHHH", 6, 0, 1, 10000) + b"MTrk" + struct.pack(">I", len(track)) + track)
