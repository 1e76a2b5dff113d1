"""The features of core/listening/PartialFeatures.cpp and core/check, once more for training.

Kept in step with the C++ by hand: the same windows, axis, whitening, partials and order of columns.
"""
import functools

import numpy as np
import soundfile
from scipy import ndimage, signal

RATE = 22050
LOWEST, HIGHEST = 28, 96
PITCHES = HIGHEST - LOWEST + 1
AXIS_LOWEST, PER_SEMITONE = 16, 3
BINS = (123 - AXIS_LOWEST) * PER_SEMITONE + 1
BIN_HERTZ = 440 * 2 ** ((AXIS_LOWEST - 69 + np.arange(BINS) / PER_SEMITONE) / 12)
SPAN_FFT, ONSET_FFT = 8192, 4096
HOP, HOPS_APART, STRETCH = 220, 7, 1544


def centre_of(left, right):
    _, _, a = signal.stft(left, RATE, nperseg=2048, noverlap=1536)
    _, _, b = signal.stft(right, RATE, nperseg=2048, noverlap=1536)
    similarity = 2 * np.abs(a * np.conj(b)) / (np.abs(a) ** 2 + np.abs(b) ** 2 + 1e-12)
    _, y = signal.istft((a + b) / 2 * np.clip((similarity - 0.6) / 0.4, 0, 1), RATE, nperseg=2048, noverlap=1536)
    return np.pad(y[: len(left)], (0, max(0, len(left) - len(y))))


hanning = functools.lru_cache(maxsize=4096)(np.hanning)


class Sound:
    """A rendered solo at the analysis rate, its views, and the axis at a tuning."""

    def __init__(self, path, cents):
        x, rate = soundfile.read(path, always_2d=True)
        x = signal.resample_poly(x, RATE, rate, axis=0)
        left, right = x[:, 0], x[:, -1]
        self.views = [x.mean(1)]
        if np.sqrt(((left - right) ** 2).mean() / (((left + right) ** 2).mean() + 1e-12)) > 0.05:
            self.views += [left, right, centre_of(left, right)]
        self.cents = cents

    def spectrum(self, samples, fft):
        """Log-axis magnitudes of a windowed stretch (LogSpectrum::of)."""
        place = BIN_HERTZ * 2 ** (self.cents / 1200) * fft / RATE
        line = np.minimum(place.astype(int), fft // 2 - 1)
        fraction = place - line
        x = np.abs(np.fft.rfft(samples * hanning(len(samples)) * (4 / len(samples)), fft))
        between = x[line] + fraction * (x[line + 1] - x[line])
        return np.maximum(between, 0.9 * np.where(fraction > 0.5, x[line + 1], x[line]))

    def stretch(self, view, start, length):
        x, i = self.views[view], int(round(start * RATE))
        out = np.zeros(length)
        a, b = max(0, i), min(len(x), i + length)
        if b > a:
            out[a - i:b - i] = x[a:b]
        return out

    def span_features(self, view, onset, duration):
        attack = int(np.clip(duration, 0.065, 0.16) * RATE)
        at = lambda start, length: self.spectrum(self.stretch(view, start, length), SPAN_FFT)
        length = max(duration, 0.065)
        sustain = float(np.clip(0.75 * length, 0.065, 0.35))
        later = onset + min(0.25 * length, length - sustain) if length > 0.13 else onset + 0.004
        return span_table(at(onset + 0.004, attack), at(onset + 0.002 - attack / RATE, attack),
                          at(later, int(sustain * RATE)))

    def onset_spectra(self, view):
        """Spectra every hop; frame HOPS_APART stands at the beginning of the sound."""
        count = len(self.views[view]) // HOP
        return np.array([self.spectrum(self.stretch(view, (j - HOPS_APART) * HOP / RATE, STRETCH), ONSET_FFT)
                         for j in range(count + HOPS_APART)])


def whitened(bins, *others):
    floor = np.exp(ndimage.uniform_filter1d(np.log(bins + 1e-6), 12 * PER_SEMITONE))
    floor = np.maximum(floor, 0.03 * bins.max() + 1e-6)
    return [np.log1p(1.5 * z / floor) for z in (bins,) + others]


def at_ratios(*ratios):
    return np.round(12 * PER_SEMITONE * np.log2(ratios)).astype(int)


HARMONICS = at_ratios(*range(1, 11))
HALVES = at_ratios(0.5, 1.5, 2.5, 3.5, 4.5)
THIRDS = at_ratios(1 / 3, 2 / 3, 4 / 3, 5 / 3, 7 / 3, 8 / 3)
SIDES = np.array([-1, 1, 11, 13, 18, 20]) * PER_SEMITONE
REGISTER = (np.arange(PITCHES) + LOWEST - 60) / 24


BASE = (np.arange(PITCHES)[:, None] + LOWEST - AXIS_LOWEST) * PER_SEMITONE + 96


def padded(levels):
    """A partial may be one bin off."""
    wide = np.zeros(len(levels) + 288)
    wide[96:-192] = ndimage.maximum_filter1d(levels, 3)
    return wide


def group(wide, offsets):
    """PITCHES x offsets of padded levels."""
    return wide[BASE + offsets]


def span_table(attack, before, sustain):
    now, then, rise = map(padded, whitened(attack, before, np.maximum(attack - before, 0)))
    held, = map(padded, whitened(sustain))
    parts = [group(now, HARMONICS), group(rise, HARMONICS), group(held, HARMONICS), group(then, HARMONICS[:6]),
             group(now, HALVES), group(rise, HALVES), group(held, HALVES), group(held, THIRDS), group(rise, THIRDS),
             group(held, SIDES), group(rise, SIDES[:4]), np.stack([REGISTER, REGISTER ** 2], 1)]
    return np.concatenate(parts, 1).astype(np.float32)


def onset_table(after, before, usual):
    """Features of all pitches, and the four they share."""
    now, then, rise = whitened(after, before, np.maximum(after - before, 0))
    low, mid = (int(12 * np.log2(f / BIN_HERTZ[0]) * PER_SEMITONE) for f in (300, 2000))
    flux = np.array([rise[:low].mean(), rise[low:mid].mean(), rise[mid:].mean(), np.log(after.max() / usual + 1e-4)])
    now, then, rise = map(padded, (now, then, rise))
    parts = [group(now, HARMONICS), group(rise, HARMONICS), group(then, HARMONICS[:6]), group(now, HALVES),
             group(rise, HALVES), group(rise, THIRDS), group(rise, SIDES), group(now, SIDES[:4]),
             np.stack([REGISTER, REGISTER ** 2], 1), np.tile(flux, (PITCHES, 1))]
    return np.concatenate(parts, 1).astype(np.float32), flux.astype(np.float32)
