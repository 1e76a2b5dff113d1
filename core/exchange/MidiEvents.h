// The bytes of a Standard MIDI File taken apart into events.
#pragma once

#include "core/result/Result.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace earwright {

/// One event of a track. System exclusive messages are skipped.
struct MidiEvent {
    /// From the start of the file.
    std::int64_t tick = 0;
    /// 0x80 to 0xEF with the channel in the low half, or 0xFF for a meta event.
    int status = 0;
    /// Of a meta event: its type; else the first data byte.
    int first = 0;
    /// Second data byte.
    int second = 0;
    /// Data of a meta event.
    std::string data;
};

/// Not where it is struck without any force, which ends a note.
bool isNoteOn(const MidiEvent& event);

struct MidiTracks {
    int format = 0;
    std::int64_t ticksPerQuarter = 480;
    /// Its ticks count seconds (in frames of film), not beats: quarters are half a second long, whatever the
    /// tempos say.
    bool countsSeconds = false;
    std::vector<std::vector<MidiEvent>> tracks;
};

/// Reads formats 0 to 2 as Standard MIDI Files 1.0 (MIDI Manufacturers Association) lays them down: running
/// status, variable-length quantities of up to four bytes, chunks of other kinds skipped. Memory and time
/// grow with the size of the bytes only.
///
/// Errors: Malformed with the byte it stands at, for anything that breaks the standard. Threads: any.
Result<MidiTracks> midiTracks(std::string_view bytes, const std::string& name);

} // namespace earwright
