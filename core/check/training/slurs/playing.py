"""Lines whose notes are picked, tongued or bowed anew, or slurred from the note before, by how instruments do it.

A hammered or pulled note is the same string going on at another pitch: within 2 to 15 ms, at 35 to 120 % of what the
string still had, with a darker and quieter excitation of its own. Wind, bow and voice go on through a slur: the pitch
moves within 10 to 40 ms, at most 3 dB down; a tongue stops them for up to 45 ms, or, played softly, takes 4 to 12 dB
away (common practice of players).
"""
import os
import subprocess

import numpy as np
from scipy import signal

import tones
from tones import LENGTH, RATE

PHRASES = os.environ.get("PHRASES", "./phrases")         # phrases.cpp, compiled
MODELS = {"plucked": ["string"], "blown": ["saxofony", "blowhole", "brass"], "held": ["bowed", "sung"]}
RANGES = {"string": (40, 84), "saxofony": (46, 81), "blowhole": (46, 82), "brass": (68, 89), "bowed": (43, 76),
          "sung": (44, 80)}


def hertz(midi):
    return 440 * 2 ** ((midi - 69) / 12)


def rms(x):
    return np.sqrt((np.asarray(x, float) ** 2).mean() + 1e-14) if len(x) else 1e-7


def ramp(n):
    return .5 - .5 * np.cos(np.pi * (np.arange(n) + .5) / max(n, 1))


def noise_burst(r, seconds, low, high):
    n = int(6 * seconds * RATE)
    x = signal.sosfilt(signal.butter(2, [low, high], "band", fs=RATE, output="sos"), r.normal(0, 1, n))
    return x / rms(x[:int(seconds * RATE) + 1]) * np.exp(-np.arange(n) / RATE / seconds)


def add(line, at, x):
    at = int(at)
    if at < 0:
        x, at = x[-at:], 0
    x = x[:max(0, len(line) - at)]
    line[at:at + len(x)] += x


# ------------------------------------------------------------------ lines of single tones
class Tones:
    def __init__(self, r, folder, font, character, number):
        self.r, self.character = r, character
        self.low, self.high = tones.PROGRAMS[character][number]
        self.bank = tones.tones(folder, font, number, self.low, self.high)
        self.ring = r.random() < .25
        self.dark, self.scooping = r.uniform(800, 2600), r.uniform(0, .3)
        self.hard = r.uniform(.2, .9)
        self.thumb = character == "plucked" and r.random() < .3

    def tone(self, midi, velocity):
        whole = self.bank[int(midi) - self.low, int(velocity > 82)].astype(np.float32) / 32000
        if self.thumb:
            whole = signal.sosfilt(signal.butter(1, self.dark, "low", fs=RATE, output="sos"), whole).astype(np.float32)
        begin = tones.begin_of(whole)
        return whole[max(0, begin - int(.004 * RATE)):]

    def read(self, tone, start, count, speed=None):
        """`count` samples from `start`, faster or slower; a tone that ends is held at its last 60 ms."""
        place = start + (np.arange(count) if speed is None else np.cumsum(np.broadcast_to(speed, count)) - 1)
        last = len(tone) - 2
        loop = int(.06 * RATE)
        place = np.where(place > last, last - loop + (place - last) % loop, place)
        whole = place.astype(int)
        part = (place - whole).astype(np.float32)
        return tone[whole] * (1 - part) + tone[whole + 1] * part

    def line(self, notes, velocity, slurred, seconds):
        y = np.zeros(int(seconds * RATE) + 2 * RATE)
        self.styles = np.zeros(len(notes), int)
        state = None
        for i, (on, length, midi) in enumerate(notes):
            follows = i + 1 < len(notes) and slurred[i + 1] == 1
            end = notes[i + 1][0] if follows else on + length
            state = self.slur(y, state, i, on, end, midi) if slurred[i] == 1 else self.attack(
                y, state, i, on, end, midi, velocity[i])
            if not follows:
                self.close(y, state, end, notes[i + 1][0] if i + 1 < len(notes) else end + .5,
                           i + 1 < len(notes) and slurred[i + 1] == 0)
        return y[:int(seconds * RATE)]

    def attack(self, y, state, i, on, end, midi, velocity):
        r, tone = self.r, self.tone(midi, velocity)
        start = 0
        gain = (velocity / 100) ** 1.5 * .1 / rms(tone[:int(.15 * RATE)])
        fade = int(.001 * RATE)
        if self.character == "plucked":
            self.styles[i] = int(velocity < 70)
        elif r.random() > self.hard:                    # softly tongued, or the bow turned
            self.styles[i] = 1
            start, fade = int(r.uniform(0, .05) * RATE), int(r.uniform(.006, .025) * RATE)
            if r.random() < .5:
                add(y, (on - .003) * RATE, gain * rms(tone[:int(.15 * RATE)]) * 10 ** (-r.uniform(18, 36) / 20) *
                    noise_burst(r, r.uniform(.004, .012), 1500, 8000))
        count = int((end - on + .7) * RATE)
        speed = None
        if self.character != "plucked" and r.random() < self.scooping and end - on > .12:
            t = np.arange(count) / RATE
            speed = 2 ** (-r.uniform(30, 110) / 1200 * np.clip(1 - t / r.uniform(.05, .1), 0, 1))
        x = gain * self.read(tone, start, count, speed)
        x[:fade] *= ramp(fade)
        return dict(on=on, x=x, tone=tone, start=start, gain=gain, midi=midi)

    def close(self, y, state, end, following, anew):
        """What sounds is ended by a finger, the pick, the tongue, or not yet."""
        r, n = self.r, len(state["x"])
        if not anew:
            fade, cut = r.uniform(.02, .09), end
        elif self.character == "plucked":
            u = r.random()
            if self.ring and u < .6:
                fade, cut = r.uniform(.1, .5), following
            elif u < .55:
                fade, cut = r.uniform(.004, .025), min(end, following - r.uniform(.004, .03))
            else:
                fade, cut = r.uniform(.01, .1), min(end, following)
        elif r.random() < self.hard:
            fade, cut = r.uniform(.006, .03), min(end, following - r.uniform(0, .045))
        else:                                           # a soft tongue
            fade, cut = r.uniform(.008, .025), min(end, following + .004)
            dip = int(r.uniform(.012, .03) * RATE)
            depth = 1 - 10 ** (-r.uniform(4, 12) / 20)
            at = int((cut - state["on"]) * RATE) - dip // 2
            shape = 1 - depth * np.sin(np.pi * np.arange(dip) / dip)
            part = state["x"][max(0, at):at + dip]
            part *= shape[-len(part):] if len(part) else 1
        a = min(n, max(0, int((cut - state["on"]) * RATE)))
        b = min(n, a + int(fade * RATE))
        state["x"][a:b] *= ramp(b - a)[::-1]
        state["x"][b:] = 0
        add(y, state["on"] * RATE, state["x"])

    def slur(self, y, state, i, on, end, midi):
        r, plucked = self.r, self.character == "plucked"
        at = int((on - state["on"]) * RATE)
        before = rms(state["x"][max(0, at - int(.03 * RATE)):at])
        u = r.random()
        slide = u < .18 if plucked else u < .3
        jump = not slide and u < (.4 if plucked else .35)
        width = r.uniform(.03, .09) if slide and plucked else r.uniform(.002, .015) if plucked else r.uniform(.01, .04)
        self.styles[i] = 4 if slide else 3 if jump else 2
        count = int((end - on + .7) * RATE)
        half = int(width * RATE / 2)
        tone = self.tone(midi, 90 if r.random() < .5 else 60)
        if jump or slide:                               # what sounds is itself bent to the new pitch
            ratio_ = 2 ** ((midi - state["midi"]) / 12)
            way = np.clip((np.arange(count + half) + .5) / max(2 * half, 1), 0, 1)
            if slide and plucked and r.random() < .6:   # over frets
                steps = max(1, round(abs(12 * np.log2(ratio_))))
                way = np.round(way * steps) / steps
            speed = ratio_ ** way * state.get("speed", 1)
            x = state["gain"] * self.read(state["tone"], state["start"] + (at - half) * state.get("speed", 1), count + half, speed)
            gain_at = before / rms(x[:half + int(.01 * RATE)])
            x = x * min(gain_at, 4)
            if plucked and not slide:
                x[half:] *= r.uniform(.5, 1.1)
            fresh = dict(on=on - half / RATE, x=x, tone=state["tone"], gain=state["gain"] * min(gain_at, 4),
                         speed=float(speed[-1]), start=state["start"] + at * state.get("speed", 1), midi=midi)
        else:
            start = int((r.uniform(.05, .16) if plucked else r.uniform(.07, .25)) * RATE)
            x = self.read(tone, start, count + half)
            share = r.uniform(.35, 1.2) if plucked else 10 ** (r.uniform(-2, 2.5) / 20)
            gain = before * share / rms(x[half:half + int(.03 * RATE)])
            x = gain * x
            if not plucked and abs(midi - state["midi"]) <= 4 and r.random() < .5:
                glide = 2 ** ((state["midi"] - midi) / 12 * (1 - np.clip(np.arange(count + half) / (2 * half), 0, 1)))
                x = gain * self.read(tone, start, count + half, glide)
            fresh = dict(on=on - half / RATE, x=x, tone=tone, start=start - half, gain=gain, midi=midi)
        fade = max(8, 2 * half if not (jump or slide) else int(.002 * RATE))
        a = max(0, at - half)
        state["x"][a:a + fade] *= np.sqrt(ramp(fade))[::-1][:len(state["x"][a:a + fade])]
        state["x"][a + fade:] = 0
        fresh["x"][:fade] *= np.sqrt(ramp(fade))
        if not plucked:
            depth, n = 1 - 10 ** (-r.uniform(0, 3) / 20), 4 * half
            s = 1 - depth * np.sin(np.pi * np.arange(n) / n) ** 2
            for part, shift in ((state["x"], a - half), (fresh["x"], -half)):
                lo = max(0, shift)
                m = min(len(part), shift + n) - lo
                if m > 0:
                    part[lo:lo + m] *= s[lo - shift:lo - shift + m]
        add(y, state["on"] * RATE, state["x"])
        if plucked and not slide:
            kick = signal.sosfilt(signal.butter(1, self.dark, "low", fs=RATE, output="sos"),
                                  self.tone(midi, 62)[:int(.08 * RATE)]) * np.exp(-np.arange(int(.08 * RATE)) / RATE / .03)
            add(y, on * RATE, kick / rms(kick[:int(.03 * RATE)]) * before * 10 ** (-r.uniform(3, 22) / 20))
            add(y, on * RATE, before * 10 ** (-r.uniform(14, 34) / 20) * noise_burst(r, r.uniform(.003, .01), 80, r.uniform(400, 2500)))
        elif not plucked and r.random() < .3:           # a key, a valve
            add(y, (on - .005) * RATE, before * 10 ** (-r.uniform(26, 40) / 20) * noise_burst(r, .006, 500, 5000))
        return fresh


# ------------------------------------------------------------------ sums of partials that go on
class Partials:
    def __init__(self, r, character):
        self.r, self.character = r, character
        self.low, self.high = {"plucked": (40, 84), "blown": (42, 86), "held": (42, 86)}[character]
        self.tilt, self.pluck, self.decay = r.uniform(.5, 1.5), r.uniform(.1, .4), r.uniform(.6, 4)
        self.colour = np.exp(r.normal(0, .5, 32))
        self.stiff, self.rise, self.breath = r.uniform(0, 3e-4), r.uniform(.006, .05), r.uniform(0, .04)
        self.hard, self.tail = r.uniform(.2, .9), r.uniform(.01, .1)

    def line(self, notes, velocity, slurred, seconds):
        r, plucked = self.r, self.character == "plucked"
        y = np.zeros(int(seconds * RATE) + RATE)
        self.styles = np.where(slurred == 1, 5, 0)
        i = 0
        while i < len(notes):
            j = i + 1
            while j < len(notes) and slurred[j] == 1:
                j += 1
            end = notes[j - 1][0] + notes[j - 1][1]
            gap = 0
            if j < len(notes) and slurred[j] == 0:
                gap = r.uniform(0, .03) if r.random() < (.5 if plucked else self.hard) else -r.uniform(0, .05 if plucked else .01)
                end = min(end, notes[j][0]) - max(gap, 0)
            tail = self.tail if gap >= 0 else self.tail - gap
            add(y, notes[i][0] * RATE, self.group(notes[i:j], velocity[i], end, tail))
            i = j
        return y[:int(seconds * RATE)]

    def group(self, notes, velocity, end, tail):
        r, plucked = self.r, self.character == "plucked"
        start = notes[0][0]
        n = int((max(end - start, .03) + tail) * RATE)
        t = np.arange(n) / RATE
        log_f = np.full(n, np.log(hertz(notes[0][2])))
        dips = np.ones(n)
        kicks = []
        for (a, _, m), (b, _, k) in zip(notes, notes[1:]):
            width = (r.uniform(.002, .015) if r.random() < .8 else r.uniform(.03, .09)) if plucked else r.uniform(.01, .04)
            log_f += np.log(hertz(k) / hertz(m)) * np.clip((t - (b - start) + width / 2) / width, 0, 1)
            kicks.append((b - start, r.uniform(.35, 1.1), 10 ** (-r.uniform(6, 26) / 20)))
            if not plucked:
                dips *= 1 - (1 - 10 ** (-r.uniform(0, 3) / 20)) * np.exp(-((t - b + start) / width) ** 2)
        phase = 2 * np.pi * np.cumsum(np.exp(log_f)) / RATE
        force, s = velocity / 127, np.zeros(n)
        for h in range(1, 33):
            top = np.exp(log_f.max()) * h * np.sqrt(1 + self.stiff * h * h)
            if top > 10000:
                break
            level = self.colour[h - 1] * (abs(np.sin(np.pi * h * self.pluck)) if plucked else 1) / h ** (
                self.tilt + .7 * (1 - force))
            if plucked:
                env = level * np.exp(-t * self.decay * (1 + .25 * h))
                for at, kept, kick in kicks:
                    after = t >= at
                    env[after] = env[after] * kept ** (1 + .05 * h) + kick * level / h ** .6 * np.exp(
                        -(t[after] - at) * self.decay * (1 + .25 * h))
            else:
                env = level * (1 - np.exp(-t / (self.rise * (.5 + .1 * h))))
            s += env * np.sin(phase * h * np.sqrt(1 + self.stiff * h * h) + r.uniform(0, 6.28))
        if plucked:
            add(s, 0, rms(s[:int(.1 * RATE)]) * 10 ** (-r.uniform(8, 30) / 20) * noise_burst(r, r.uniform(.001, .005), 500, 9000))
            for at, _, kick in kicks:
                add(s, at * RATE, kick * .4 * rms(s[:int(.1 * RATE)]) * noise_burst(r, .005, 80, 1200))
        else:
            s = dips * s
            s += self.breath * rms(s) * r.normal(0, 1, n)
            add(s, 0, rms(s) * 10 ** (-r.uniform(14, 40) / 20) * noise_burst(r, r.uniform(.004, .012), 1000, 8000))
        s *= .1 * (velocity / 100) ** 1.5 / rms(s[:int(.15 * RATE)])
        fade = min(int(tail * RATE), n)
        if fade > 0:
            s[-fade:] *= ramp(fade)[::-1]
        return s


# ------------------------------------------------------------------ physical models that go on
class Model:
    factors = {}

    def __init__(self, r, character, name):
        self.r, self.character, self.name = r, character, name
        self.low, self.high = RANGES[name]
        self.colour, self.noise, self.hard = r.uniform(0, 1), r.uniform(0, 1), r.uniform(.2, .9)

    def factor(self, midi):
        import models
        number = {v: k for k, v in models.NAMES.items()}[self.name]
        known = models.factors(number)
        nearest = min(known, key=lambda m: abs(m - midi))
        return known[nearest]

    def line(self, notes, velocity, slurred, seconds):
        r, plucked, rows = self.r, self.character == "plucked", []
        self.styles = np.where(slurred == 1, 6, 0)
        for i, (on, length, midi) in enumerate(notes):
            anew = i + 1 < len(notes) and slurred[i + 1] == 0
            end = on + length
            tail = r.uniform(.02, .09)
            if anew and r.random() < (.55 if plucked else self.hard):
                end, tail = min(end, notes[i + 1][0] - r.uniform(.003, .03)), r.uniform(.005, .03)
            elif anew and plucked:
                tail = r.uniform(.02, .2)
            moves = (r.uniform(.002, .015) if r.random() < .8 else r.uniform(.03, .09)) if plucked else r.uniform(.01, .04)
            rows.append((on, max(.03, end - on), hertz(midi) * self.factor(midi), np.clip(.3 + .6 * velocity[i] / 110, .3, .95),
                         int(slurred[i] == 1), moves, r.uniform(.05, .4) if plucked and moves < .02 else 0, tail))
        text = "%s %.6g %.4g %.4g\n" % (self.name, seconds, self.colour, self.noise)
        text += "".join("%.6f %.6f %.6g %.4g %d %.5g %.4g %.4g\n" % row for row in rows)
        out = subprocess.run([PHRASES], input=text.encode(), stdout=subprocess.PIPE, check=True).stdout
        y = np.zeros(int(seconds * RATE))
        x = np.frombuffer(out, np.float32)[:len(y)]
        y[:len(x)] = x
        return y
