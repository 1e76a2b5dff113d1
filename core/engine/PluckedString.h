// A plucked string: a delay line that hears itself.
#pragma once

#include "core/engine/StringGesture.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <span>
#include <vector>

namespace earwright {

/// Extended Karplus-Strong string after K. Karplus and A. Strong, "Digital Synthesis of Plucked-String and
/// Drum Timbres", and D. Jaffe and J. Smith, "Extensions of the Karplus-Strong Plucked-String Algorithm"
/// (both Computer Music Journal 7:2, 1983): pick position and dynamics shape the excitation, a linear-phase
/// loop filter lets high partials die first, decay is set in seconds. The delay line is read between samples
/// with third-order Lagrange interpolation, so that a string is in tune within a fraction of a cent and can
/// glide.
///
/// Threads: one at a time.
/// Real time: everything but the constructor; nothing allocates, locks or throws.
/// Units: pitch as MIDI number (69 is 440 Hz); output around −15 dBFS RMS at full loudness.
class PluckedString {
public:
    PluckedString();

    /// Silent, at this rate. Requires: 8,000 to 192,000 Hz.
    void setRate(SampleRate rate);
    /// Plucks anew.
    void pluck(const StringGesture& gesture);
    /// Goes to another note without plucking: a finger sets the string going, more softly than a pick and
    /// with no jump, to a level that doesn't depend on what still sounds. The notes of grace notes, turns,
    /// mordents and trills within a gesture are set going like that, too.
    void slurTo(const StringGesture& gesture);
    /// Damps the string; it is silent within about a tenth of a second.
    void release();
    /// Silent at once.
    void silence();

    bool isSounding() const { return sounding; }
    /// Struck or slurred and not yet past its length.
    bool isHeld() const { return sounding && !released; }
    /// Frames since the note ended; 0 while it is held.
    std::int64_t framesSinceRelease() const { return releasedFor; }
    /// How loud it is now: a slowly falling peak.
    float loudnessNow() const { return peak; }

    /// Adds the string's sound to the output.
    void render(std::span<float> out);

private:
    /// What is taken off on each way round.
    struct Loop {
        float gain;
        float side;
    };
    void begin(const StringGesture& gesture);
    void touch(double midi, bool hammered);
    void setLoop(double hertz);
    Loop loopNow() const;
    void shape(double hertz, double brightness, double share);
    void renderBlock(std::span<float> out);
    void renderRinging(std::span<float> out, double step);
    void renderTouched(std::span<float> out, double step);
    float loopedOnce(const Loop& loop);
    void put(float value, float& sample);
    double delayFor(double semitones) const;
    float interpolated(double delay) const;

    SampleRate rate;
    std::vector<float> line;
    std::size_t mask = 0;
    std::size_t write = 0;
    std::vector<float> excitation;
    /// Of the pick's wave what comes back from the near end, while the excitation is shaped.
    std::vector<float> comeBack;
    std::size_t excited = 0;
    std::size_t excitationLength = 0;
    /// Where in the excitation a touch is, and how much of each period it makes.
    double touchPhase = 0;
    float touchShare = 0;
    float touchRise = 0;
    std::int64_t touchLeft = 0;

    StringGesture gesture;
    std::int64_t age = 0;
    std::size_t touched = 0;
    std::int64_t sinceTouch = 0;
    std::int64_t releasedFor = 0;
    double semitones = 0;
    double delay = 100;
    float heldGain = 0;
    float ringingGain = 0;
    float releasedGain = 0;
    float side = 0;
    float before1 = 0;
    float before2 = 0;
    float peak = 0;
    bool sounding = false;
    bool released = false;
    std::uint32_t random = 1;
};

} // namespace earwright
