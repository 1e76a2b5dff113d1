// The strings on which the written notes are played.
#pragma once

#include "core/engine/PluckedString.h"
#include "core/engine/StringGesture.h"
#include "core/time/SampleRate.h"

#include <array>
#include <span>

namespace earwright {

/// Eight strings; a note takes a silent one, or the quietest.
///
/// Threads: one at a time.
/// Real time: everything but the constructor.
class VoiceBank {
public:
    /// All silent, at this rate.
    void setRate(SampleRate rate);
    /// Plays a note from now on. A slurred one goes on sounding on the string its voice played last, without
    /// a new pluck; where that has died away, it is plucked softly.
    void play(const StringGesture& gesture);
    /// Damps every string, as at the end of a loop.
    void releaseAll();
    void silence();
    bool isSounding() const;
    /// Adds the sound of all strings.
    void render(std::span<float> out);

private:
    bool goesOn(const StringGesture& gesture) const;
    PluckedString& freeString();

    std::array<PluckedString, 8> strings;
    /// By voice; null before its first note.
    std::array<PluckedString*, 8> last{};
    SampleRate rate;
};

} // namespace earwright
