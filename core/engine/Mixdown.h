// Record and written notes become the two channels that are heard.
#pragma once

#include "core/engine/BandFocus.h"
#include "core/engine/Engine.h"
#include "core/engine/FocusMatrix.h"
#include "core/engine/FrameRing.h"
#include "core/engine/GainFade.h"
#include "core/engine/Limiter.h"
#include "core/engine/LoopedSource.h"
#include "core/engine/LoudnessGuard.h"
#include "core/engine/Slew.h"
#include "core/time/SampleRate.h"

#include <optional>
#include <span>

namespace earwright {

/// Threads: the callback.
/// Real time: everything. No change of hearing, focus, level or balance clicks: gains move over 10 ms, those
///   of the hearing over 13, as sounds give way to each other everywhere (CrossFade). The record alone passes
///   untouched; LoudnessGuard and Limiter see to what is added to it.
class Mixdown {
public:
    static constexpr double gainSeconds = 0.01;
    /// What a change of hearing or a turn of the trade takes.
    static constexpr double hearingSeconds = LoopedSource::crossfadeSeconds;

    void setRate(SampleRate rate);
    /// `yoursTurn` matters in trade only. `yoursGain` and `level` are linear.
    void aim(Hearing hearing, bool yoursTurn, float yoursGain, float level);
    /// Linear gain of the beats and of a count-in.
    void click(float beats, float counted) {
        clickLevel.aimAt(beats);
        countedLevel.aimAt(counted);
    }
    void focusOn(Focus focus) { picture.aim(focus); }
    void bandOn(const std::optional<Band>& band) { bandHeard.aim(band); }
    /// Whether the lanes' sound is let through; moves over 5 ms.
    void setAudible(bool audible) {
        moving.aimAt(audible ? 1.0f : 0.0f);
        clicking.aimAt(audible ? 1.0f : 0.0f);
    }
    bool isSilent() const { return moving.value() <= 0.0f; }

    /// It was too loud just now and is turned down.
    bool isLimiting() const { return wasTooLoud; }

    /// Mixes frames and the auditioned notes (mono) into interleaved stereo; returns the highest sample.
    float mix(std::span<const SoundFrame> frames, std::span<const float> auditioned, std::span<float> out);

private:
    Slew moving;
    /// Clicks are as short as the fade of the others: one that begins at once is heard all the same.
    Slew clicking;
    FocusMatrix picture;
    BandFocus bandHeard;
    /// Of the record as it is and folded on the left, and of the written notes on either side.
    GainFade<4> heard{{1, 0, 0, 0}};
    Slew yoursLevel{1};
    Slew clickLevel;
    Slew countedLevel{1};
    Slew outLevel{1};
    LoudnessGuard guard;
    /// How far anything but the record alone is heard.
    Slew mixed;
    Limiter limiter;
    bool wasTooLoud = false;
};

} // namespace earwright
