"""Writes what the players play as a Standard MIDI File (format 1, General MIDI sounds), bar lines and tempo in place."""

import mido

from tune import score
from tune.band import BASS_CHANNEL, DRUM_CHANNEL, PIANO_CHANNEL
from tune.clock import LEAD_IN_BEATS, TICKS_PER_BEAT
from tune.lead import BEND_RANGE, BENDING_CHANNELS, PICKED_CHANNEL

JAZZ_GUITAR, ACOUSTIC_BASS, PIANO = 26, 32, 0

# Track name -> (channels, program, volume, pan 0..127 with 64 in the middle, reverb).
SEATS = {
    "lead": ((PICKED_CHANNEL, *BENDING_CHANNELS), JAZZ_GUITAR, 108, 50, 34),
    "piano": ((PIANO_CHANNEL,), PIANO, 112, 92, 40),
    "bass": ((BASS_CHANNEL,), ACOUSTIC_BASS, 108, 64, 14),
    "drums": ((DRUM_CHANNEL,), 0, 124, 64, 30),
}
VOLUME, PAN, REVERB, ALL_SOUND_OFF = 7, 10, 91, 120
FADE_SECONDS = 1.2


def write(path, clock, soundings, bends, only=None):
    """Writes all seats, or only the named one."""
    song = mido.MidiFile(type=1, ticks_per_beat=TICKS_PER_BEAT, charset="utf-8")
    song.tracks.append(_conductor(clock))
    for name, seat in SEATS.items():
        if only in (None, name):
            song.tracks.append(_seat_track(name, seat, clock, soundings, bends))
    song.save(path)


def _conductor(clock):
    first_bar = LEAD_IN_BEATS * TICKS_PER_BEAT
    events = [
        (0, mido.MetaMessage("track_name", name=score.TITLE)),
        (0, mido.MetaMessage("time_signature", numerator=LEAD_IN_BEATS, denominator=4)),
        (0, mido.MetaMessage("key_signature", key="G")),
        (first_bar, mido.MetaMessage("time_signature", numerator=4, denominator=4)),
    ]
    events += [(tick, mido.MetaMessage("set_tempo", tempo=tempo)) for tick, tempo in clock.tempo_changes()]
    return _track(events)


def _seat_track(name, seat, clock, soundings, bends):
    channels, program, volume, pan, reverb = seat
    events = [(0, mido.MetaMessage("track_name", name=name))]
    for channel in channels:
        if channel != DRUM_CHANNEL:
            events.append((0, mido.Message("program_change", channel=channel, program=program)))
        for control, value in ((VOLUME, volume), (PAN, pan), (REVERB, reverb)):
            events.append((0, _control(channel, control, value)))
        events += _fade(channel, volume, clock)
    for channel in set(channels) & set(BENDING_CHANNELS):
        # Registered parameter 0 is the bend range in semitones (MIDI 1.0, RPN 00 00).
        for control, value in ((101, 0), (100, 0), (6, BEND_RANGE), (38, 0), (101, 127), (100, 127)):
            events.append((0, _control(channel, control, value)))
    for bend in bends:
        if bend.channel in channels:
            value = max(-8192, min(8191, round(bend.semitones / BEND_RANGE * 8192)))
            events.append((clock.tick(bend.at), mido.Message("pitchwheel", channel=bend.channel, pitch=value)))
    for note in soundings:
        if note.channel in channels:
            events += _note_events(note, clock)
    return _track(events)


def _fade(channel, volume, clock):
    """Rings out after the last bar, so that the file ends in silence and not in a cymbal cut off."""
    start = clock.bar_seconds(score.LAST_BAR + 1)
    steps = 40
    events = [
        (clock.tick(start + FADE_SECONDS * step / steps), _control(channel, VOLUME, round(volume * (1 - step / steps))))
        for step in range(1, steps + 1)
    ]
    return events + [(clock.tick(start + FADE_SECONDS), _control(channel, ALL_SOUND_OFF, 0))]


def _control(channel, control, value):
    return mido.Message("control_change", channel=channel, control=control, value=value)


def _note_events(note, clock):
    start = clock.tick(note.onset)
    end = max(start + 1, clock.tick(note.onset + note.duration))
    return [
        (start, mido.Message("note_on", channel=note.channel, note=note.midi, velocity=note.velocity)),
        (end, mido.Message("note_off", channel=note.channel, note=note.midi, velocity=0)),
    ]


def _track(events):
    """Sorted by time; at the same tick set-up comes first, then note ends, then bends, then note starts."""
    order = {"note_off": 1, "pitchwheel": 2, "note_on": 3}
    track, now = mido.MidiTrack(), 0
    for tick, message in sorted(events, key=lambda event: (event[0], order.get(event[1].type, 0))):
        message.time = tick - now
        now = tick
        track.append(message)
    track.append(mido.MetaMessage("end_of_track", time=0))
    return track
