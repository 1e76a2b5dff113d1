// The audio callback's whole work: lanes, gains, auditioned notes, and a log of what is heard.
#pragma once

#include "core/engine/Engine.h"
#include "core/engine/HeardLog.h"
#include "core/engine/KeptAhead.h"
#include "core/engine/LanePlayer.h"
#include "core/engine/MarkPlayer.h"
#include "core/engine/Mixdown.h"
#include "core/engine/MonitorTap.h"
#include "core/engine/Slew.h"
#include "core/engine/SpscRing.h"
#include "core/engine/VoiceBank.h"
#include "core/time/SampleRate.h"

#include <array>
#include <atomic>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>

namespace earwright {

/// Threads: render() by one thread at a time, the device's callback or the silent clock. lanes().order() by
///   the worker; controls and audition() by the thread that owns the engine; heard() by any.
/// Real time: render() neither allocates, locks, waits, throws nor logs.
/// Units: output frames of the stream, counted over all devices since the engine was made.
class Mixer {
public:
    Mixer();

    /// Fills interleaved stereo. `heardNanoseconds`: when its first frame leaves the device, on the steady
    /// clock. `newStream`: the first call for another device or clock.
    void render(std::span<float> stereo, SampleRate rate, std::int64_t heardNanoseconds, bool newStream);

    /// Device or clock: the rate render() is going to be called with, so that the worker prepares for it.
    void announceRate(SampleRate next) { announcedRate.store(next.hertz, std::memory_order_release); }
    SampleRate outputRate() const { return SampleRate{announcedRate.load(std::memory_order_acquire)}; }

    /// Worker: what is to be kept ready at the announced rate is there.
    void announceFilled(bool filled) { filledNow.store(filled, std::memory_order_relaxed); }
    bool isFilled() const { return filledNow.load(std::memory_order_relaxed); }

    /// The user's wish to play or pause. render() turns it to pause at the end of what is played.
    void setPlaying(bool playing);
    /// From standing still, only a lane that answers this wish or a later one is played.
    void requireWish(std::uint64_t wish) { requiredWish.store(wish, std::memory_order_release); }
    /// Whatever was to be played has been played to its end.
    bool isAtEnd() const { return standsAtEnd.load(std::memory_order_acquire); }
    bool isPlaying() const { return (intent.load(std::memory_order_acquire) & 1u) != 0; }
    /// Sounds whether playing or not: an instant is held.
    void setHolding(bool holding) { holdWanted.store(holding, std::memory_order_release); }
    bool isSounding() const { return isPlaying() || holdWanted.load(std::memory_order_acquire); }
    /// The written notes are heard, now or in another turn.
    bool hearsYours() const { return hearingWanted.load(std::memory_order_relaxed) != Hearing::Record; }
    void setHearing(Hearing hearing) { hearingWanted.store(hearing, std::memory_order_relaxed); }
    void setFocus(Focus focus) { focusWanted.store(focus, std::memory_order_relaxed); }
    void setBand(const std::optional<Band>& band);
    /// The pass from which trade counts: it is the record's turn there. Lanes that answer an older wish
    /// number their passes otherwise, and keep the turns they had. One thread, the engine's.
    void setTradeStart(std::int64_t pass, std::uint64_t sinceWish);
    /// Whether beats are heard; a count-in is in any case.
    void setClicks(bool audible) { clicksWanted.store(audible, std::memory_order_relaxed); }
    void setClickGain(float linear) { clickGain.store(linear, std::memory_order_relaxed); }
    void setLevel(float linear) { level.store(linear, std::memory_order_relaxed); }
    void setYoursGain(float linear) { yoursGain.store(linear, std::memory_order_relaxed); }
    /// The gain by which the written notes match the record, for auditions too; lanes bring it along.
    void setMatch(float linear) { match.store(linear, std::memory_order_relaxed); }
    /// Sounds a note at once; dropped when a dozen wait already.
    void audition(const StringGesture& gesture) {
        if (auditions.freeSpace() > 0) auditions.write({&gesture, 1});
    }

    /// Plays marks that are to be found again in the input.
    MarkPlayer& mark() { return marked; }
    /// Brings the input into the mix where it is to be heard.
    const std::shared_ptr<MonitorTap>& monitor() const { return monitored; }

    LanePlayer& lanes() { return player; }
    const HeardLog& heard() const { return log; }
    bool isYoursTurn(std::int64_t pass, std::uint64_t laneWish) const;
    /// Highest absolute sample since the last call.
    float takePeak() { return peak.exchange(0.0f, std::memory_order_relaxed); }
    /// Since the last call something was held back because it was too loud.
    bool takeLimited() { return limited.exchange(false, std::memory_order_relaxed); }
    /// The device ran dry, whoever's fault it was. Callback.
    void countUnderrun() { underrunCount.fetch_add(1, std::memory_order_relaxed); }
    int underruns() const { return underrunCount.load(std::memory_order_relaxed); }
    /// Device: the sound it has room for.
    void announceRoom(double seconds) { deviceRoom.store(seconds, std::memory_order_relaxed); }
    /// What the worker is to keep ready.
    KeptAhead keptAhead() const { return {deviceRoom.load(std::memory_order_relaxed), underruns()}; }

private:
    void setRate(SampleRate rate);
    void renderPart(std::span<float> stereo);
    bool wantsToMove(bool moves);
    void readLanes(std::span<SoundFrame> part);
    void aimGains();
    void noteHeard(bool moving);

    std::atomic<unsigned> intent{0};
    std::atomic<std::uint64_t> requiredWish{0};
    std::atomic<bool> standsAtEnd{false};
    std::atomic<Hearing> hearingWanted{Hearing::Record};
    std::atomic<Focus> focusWanted{Focus::All};
    /// Both edges in one atomic: a low edge of 0 is no band, a negative one is removed.
    struct Edges {
        float low;
        float high;
    };
    static_assert(std::atomic<Edges>::is_always_lock_free);
    std::optional<Band> bandNow() const;
    std::atomic<Edges> bandWanted{Edges{0, 0}};
    std::atomic<bool> holdWanted{false};
    /// The wish since which the last bit counts, times four; the bit before is that of older lanes. They are
    /// what a pass is odd or even against.
    std::atomic<std::uint64_t> tradeStart{0};
    /// Of the lane that sounds.
    std::atomic<std::uint64_t> soundingWish{0};
    std::atomic<bool> clicksWanted{false};
    std::atomic<float> clickGain{1};
    std::atomic<float> level{1};
    std::atomic<float> yoursGain{1};
    std::atomic<float> match{1};
    std::atomic<float> peak{0};
    std::atomic<bool> limited{false};
    std::atomic<int> underrunCount{0};
    std::atomic<int> announcedRate{48000};
    std::atomic<bool> filledNow{true};
    std::atomic<double> deviceRoom{KeptAhead{}.deviceSeconds};
    SpscRing<StringGesture> auditions{16};

    LanePlayer player;
    Mixdown mixdown;
    VoiceBank auditioned;
    Slew auditionGain{1};
    MarkPlayer marked;
    std::shared_ptr<MonitorTap> monitored = std::make_shared<MonitorTap>();
    HeardLog log;
    SampleRate rate{0};
    OutputFrames rendered;
    /// Frames since the last that was missing; at first more than count.
    std::int64_t wholeFrames = std::numeric_limits<std::int32_t>::max();
    std::array<SoundFrame, LanePlayer::partFrames> frames{};
    std::array<float, LanePlayer::partFrames> auditionBlock{};
};

} // namespace earwright
