// Sets the attacks of the record itself, exactly in time, into its stretched sound.
#pragma once

#include "core/engine/HighPass.h"
#include "core/time/SampleRate.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace earwright {

/// A phase vocoder copies a sudden attack into every window that holds it, each copy as far from the window's
/// middle as in the source. Stretched or squeezed, the copies therefore stand apart, and which of them is the
/// loudest depends on where the windows happen to fall: up to a hop early or late. So around each sudden
/// attack the stretched sound gives way, for some 15 ms, to the source as it is (moved in pitch by resampling
/// where that is asked for), with the attack in the very frame that the speed says; the sound before and
/// after stays the stretched one, without the copies that would be heard ahead of the attack.
/// The idea of leaving transients out of the stretch: Röbel, "A new approach to transient processing in the
/// phase vocoder", DAFx 2003; copying them: Nagel and Walther, "A novel transient handling scheme for time
/// stretching algorithms", AES Convention 127, 2009.
///
/// What sounds on through an attack keeps the stretch's phase: source and stretch would cancel each other
/// where one fades into the other. So only what lies an octave above every octave band that the attack does
/// not lift tenfold is taken from the source; an attack out of silence is taken whole.
///
/// An attack is sudden where the energy of the differenced source rises tenfold within 3 ms over all of the
/// 23 ms before: plucks, drums, tongued notes over a quiet band, not the swell of a tone nor its vibrato.
///
/// Threads: one at a time, as the stretcher. Real time: no allocation after construction.
/// Units: interleaved frames at one rate; speed is played ÷ original.
class AttackGraft {
public:
    AttackGraft(SampleRate rate, int channels);

    /// Forgets everything. Output frame n is going to stand at fed frame lead + n · speed.
    void start(double speed, double semitones, int lead);
    /// What the stretcher is fed with, in order.
    void feed(std::span<const float> interleaved);
    /// What the stretcher gave out, in order: attacks are set in where they lie in it. Requires: feed() was
    /// ahead of it by 40 ms at least, as every stretcher with windows of 93 ms has to be.
    void apply(std::span<float> interleaved);

private:
    static constexpr std::size_t blockFrames = 32;
    static constexpr std::size_t blocksBefore = 32;
    static constexpr std::size_t blocksOfRise = 4;
    static constexpr std::size_t historyFrames = 1 << 15;
    static constexpr std::size_t mostWaiting = 32;

    /// Of the differenced signal, which shows attacks, and of its low part.
    struct Energy {
        float high = 0;
        float low = 0;
        void add(const Energy& other);
        Energy times(float factor) const { return {high * factor, low * factor}; }
    };
    /// Splits one channel: what is left of `low` is the treble.
    struct Splitter {
        float last = 0;
        float low = 0;
        Energy take(float sample, float lowPass);
    };
    /// In fed frames and in output frames.
    struct Attack {
        std::int64_t place = 0;
        std::int64_t heardAt = 0;
        /// A frame, at most, just before the attack.
        Energy before;
        bool judged = false;
        /// What of the difference between source and stretched sound is grafted, by channel.
        std::array<HighPass, 2> grafted{};
    };

    void endBlock();
    std::int64_t firstStrongStep(std::int64_t from) const;
    void addAttack(std::int64_t place, const Energy& before);
    float weightAt(std::int64_t fromAttack) const;
    float historyAt(std::int64_t frame, std::size_t channel) const;
    float sourceAt(double place, std::size_t channel) const;
    void forgetPast();
    void hushCopies(std::span<float> interleaved);
    Energy allowedNow(std::int64_t frames) const;
    double sustainedUpTo(std::int64_t place) const;
    void judge(Attack& attack) const;
    void graft(Attack& attack, std::span<float> interleaved) const;

    SampleRate rate;
    std::size_t channelCount;
    std::int64_t copiesFrom;
    std::int64_t settleFrom;
    std::int64_t fadeInFrom;
    std::int64_t fadeInTo;
    std::int64_t fadeOutFrom;
    std::int64_t fadeOutTo;
    double speedPlayed = 1;
    double pitchScale = 1;
    std::int64_t leadFrames = 0;

    std::int64_t fed = 0;
    std::int64_t given = 0;
    /// The last historyFrames of the source; frame f at f modulo that.
    std::vector<float> history;
    std::array<Splitter, 2> source;
    Energy block;
    /// Of the last blocks, the newest last.
    std::array<Energy, blocksBefore + blocksOfRise> energies{};

    std::array<Attack, mostWaiting> waiting{};
    std::size_t waitingCount = 0;
    std::int64_t lastHeardAt = 0;

    float lowPass;
    std::array<Splitter, 2> output;
    /// What the two parts of the output are multiplied with.
    Energy gain{1, 1};
};

} // namespace earwright
