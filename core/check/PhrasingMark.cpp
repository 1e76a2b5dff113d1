#include "core/check/PhrasingMark.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// A trace with fewer clear points speaks neither for nor against a mark.
constexpr double clearEnough = 0.6;
constexpr Seconds longEnough{0.10};

bool canBeHeard(const NotePlaying& playing) {
    return isPitchClear(playing) && playing.heard.length() >= longEnough;
}

Verdict absent(const NotePlaying& playing) {
    return canBeHeard(playing) ? Verdict::Contradicted : Verdict::Unclear;
}

/// What the shape of the contour says, contradicted only where the note can be heard.
Verdict byShape(Verdict shape, const NotePlaying& playing) {
    return shape == Verdict::Contradicted ? absent(playing) : shape;
}

Verdict slideVerdict(bool fromBelowOrDown, const std::optional<HeardSlide>& heard,
                     const NotePlaying& playing) {
    if (!heard) return absent(playing);
    return (heard->cents < 0) == fromBelowOrDown ? Verdict::Supported : Verdict::Contradicted;
}

/// A string that is bent before it is struck begins at the bent pitch, where it looks like another note.
Verdict bendVerdict(const Bend& written, const NotePlaying& playing) {
    constexpr double tolerance = 70;
    if (written.shape != BendShape::Up && written.shape != BendShape::UpAndDown) return Verdict::Unclear;
    if (playing.pitch.bendCents &&
        std::abs(*playing.pitch.bendCents - 100 * written.semitones()) <= tolerance)
        return Verdict::Supported;
    const Verdict shape = bendVerdict(written, playing.contour, playing.heard);
    return byShape(shape, playing);
}

Verdict scoopVerdict(const NotePlaying& playing) {
    if (playing.pitch.slideIn && playing.pitch.slideIn->cents < 0) return Verdict::Supported;
    return byShape(scoopVerdict(playing.contour, playing.heard), playing);
}

Verdict vibratoVerdict(const NotePlaying& playing) {
    // In a shorter note no vibrato is measured (TraceFeatures).
    constexpr Seconds shortest{0.3};
    if (playing.pitch.vibrato) return Verdict::Supported;
    const bool isStill = playing.heard.length() >= shortest && standsStill(playing.contour, playing.heard);
    return isStill ? absent(playing) : Verdict::Unclear;
}

/// `louder` dB and more speak for it, `quieter` and less against it.
Verdict loudnessVerdict(const NotePlaying& playing, double forIt, double againstIt) {
    if (!playing.loudnessDb || !playing.begins) return Verdict::Unclear;
    const double sign = forIt > againstIt ? 1 : -1;
    if (sign * (*playing.loudnessDb - forIt) >= 0) return Verdict::Supported;
    return sign * (*playing.loudnessDb - againstIt) <= 0 ? Verdict::Contradicted : Verdict::Unclear;
}

Verdict graceVerdict(const std::vector<int>& written, const NotePlaying& playing) {
    const auto& heard = playing.passingMidi;
    const bool all = std::all_of(written.begin(), written.end(), [&](int midi) {
        return std::find(heard.begin(), heard.end(), midi) != heard.end();
    });
    if (all) return Verdict::Supported;
    return canBeHeard(playing) && heard.empty() ? Verdict::Contradicted : Verdict::Unclear;
}

std::vector<MarkAnswer> writtenMarks(const Phrasing& written, const NotePlaying& playing) {
    constexpr double ghostDb = -4.5, noGhostDb = -1.5, accentDb = 2.5, noAccentDb = 0;
    std::vector<MarkAnswer> answers;
    const auto add = [&](PhrasingMark mark, Verdict verdict) { answers.push_back({mark, verdict}); };
    if (written.slideIn)
        add(PhrasingMark::SlideIn,
            slideVerdict(*written.slideIn == SlideFrom::Below, playing.pitch.slideIn, playing));
    if (written.slideOut)
        add(PhrasingMark::SlideOut,
            slideVerdict(*written.slideOut == SlideTo::Down, playing.pitch.slideOut, playing));
    if (!written.graceNotes.empty()) add(PhrasingMark::Grace, graceVerdict(written.graceNotes, playing));
    if (written.trill) add(PhrasingMark::Trill, trillVerdict(*written.trill, playing));
    if (written.bend) add(PhrasingMark::Bend, bendVerdict(*written.bend, playing));
    if (written.vibrato) add(PhrasingMark::Vibrato, vibratoVerdict(playing));
    const auto& contour = playing.contour;
    const auto byContour = [&](PhrasingMark mark, Verdict shape) { add(mark, byShape(shape, playing)); };
    if (written.slidesToNext) byContour(PhrasingMark::SlideToNext, slideToNextVerdict(playing.toNext));
    if (written.fall) byContour(PhrasingMark::Fall, fallVerdict(contour, playing.heard, playing.isFollowed));
    if (written.scoop) add(PhrasingMark::Scoop, scoopVerdict(playing));
    if (written.turn) byContour(PhrasingMark::Turn, turnVerdict(*written.turn, contour, playing.heard));
    if (written.mordent)
        byContour(PhrasingMark::Mordent, mordentVerdict(*written.mordent, contour, playing.heard));
    if (written.slurred) add(PhrasingMark::Slur, slurVerdict(playing));
    if (written.ghosted) add(PhrasingMark::Ghost, loudnessVerdict(playing, ghostDb, noGhostDb));
    if (written.accented) add(PhrasingMark::Accent, loudnessVerdict(playing, accentDb, noAccentDb));
    return answers;
}

/// What leads into a note from within blurs how it begins, and a slide to it is told of the note before.
bool isSlurHeard(const Phrasing& written, const NotePlaying& playing) {
    constexpr double surely = 0.97;
    const bool hasALead = written.slideIn || written.scoop || !written.graceNotes.empty() || playing.isSlidTo;
    return !written.slurred && !hasALead && canBeHeard(playing) && playing.slurChance &&
           *playing.slurChance >= surely;
}

std::vector<PhrasingMark> unwrittenMarks(const Phrasing& written, const NotePlaying& playing) {
    constexpr double slideCents = 80, bendCents = 60, vibratoCents = 14, vibratoEvenness = 0.7;
    constexpr Seconds slideDuration{0.025};
    constexpr double surelyGhostDb = -8;
    std::vector<PhrasingMark> heard;
    const auto add = [&](bool isHeard, PhrasingMark mark) {
        if (isHeard) heard.push_back(mark);
    };
    if (!playing.begins) return heard;
    const TraceFeatures& pitch = playing.pitch;
    const auto glides = [&](const std::optional<HeardSlide>& slide) {
        return slide && std::abs(slide->cents) >= slideCents && slide->duration >= slideDuration;
    };
    if (canBeHeard(playing)) {
        add(!written.slideIn && !written.scoop && !playing.isSlidTo && written.graceNotes.empty() &&
                glides(pitch.slideIn),
            PhrasingMark::SlideIn);
        const bool leads = written.slideOut || written.slidesToNext || written.fall;
        add(!leads && surelySlides(playing.toNext), PhrasingMark::SlideToNext);
        add(!leads && !surelySlides(playing.toNext) && glides(pitch.slideOut), PhrasingMark::SlideOut);
        add(!written.trill && !written.turn && !written.mordent && pitch.trill.has_value(),
            PhrasingMark::Trill);
        add(!written.bend && !written.turn && !written.mordent && pitch.bendCents &&
                std::abs(*pitch.bendCents) >= bendCents,
            PhrasingMark::Bend);
        add(!written.vibrato && pitch.vibrato && pitch.vibrato->cents >= vibratoCents &&
                pitch.vibrato->evenness >= vibratoEvenness,
            PhrasingMark::Vibrato);
    }
    add(isSlurHeard(written, playing), PhrasingMark::Slur);
    // An accent cannot be told from a merely loud note surely enough to be listed.
    add(!written.ghosted && playing.loudnessDb && *playing.loudnessDb <= surelyGhostDb, PhrasingMark::Ghost);
    return heard;
}

} // namespace

const char* toString(PhrasingMark mark) {
    switch (mark) {
    case PhrasingMark::SlideIn:
        return "slide";
    case PhrasingMark::SlideOut:
        return "slide-out";
    case PhrasingMark::Grace:
        return "grace";
    case PhrasingMark::Trill:
        return "trill";
    case PhrasingMark::Slur:
        return "slur";
    case PhrasingMark::Ghost:
        return "ghost";
    case PhrasingMark::Accent:
        return "accent";
    case PhrasingMark::Bend:
        return "bend";
    case PhrasingMark::Vibrato:
        return "vibrato";
    case PhrasingMark::SlideToNext:
        return "slide-next";
    case PhrasingMark::Fall:
        return "fall";
    case PhrasingMark::Scoop:
        return "scoop";
    case PhrasingMark::Turn:
        return "turn";
    case PhrasingMark::Mordent:
        return "mordent";
    }
    return "";
}

bool isPitchClear(const NotePlaying& playing) {
    return playing.pitch.clearShare >= clearEnough;
}

Verdict trillVerdict(int semitones, const NotePlaying& playing) {
    constexpr double tolerance = 0.6;
    if (!playing.pitch.trill) return absent(playing);
    const double away = std::abs(playing.pitch.trill->semitones - semitones);
    return away <= tolerance ? Verdict::Supported : Verdict::Contradicted;
}

Verdict slurVerdict(const NotePlaying& playing) {
    constexpr double slurred = 0.6, picked = 0.1;
    if (!playing.slurChance) return Verdict::Unclear;
    if (*playing.slurChance >= slurred) return Verdict::Supported;
    return *playing.slurChance <= picked ? Verdict::Contradicted : Verdict::Unclear;
}

bool isAtItsPitch(const Phrasing& written, const NotePlaying& playing) {
    constexpr double quarterTone = 50;
    const TraceFeatures& pitch = playing.pitch;
    const bool leavesIt = written.bend || written.trill || pitch.bendCents || pitch.trill;
    return leavesIt || !isPitchClear(playing) || std::abs(pitch.centreCents) <= quarterTone;
}

PhrasingAnswer judgePhrasing(const Phrasing& written, const NotePlaying& playing) {
    const bool tells = isAtItsPitch(written, playing);
    return {writtenMarks(written, playing),
            tells ? unwrittenMarks(written, playing) : std::vector<PhrasingMark>()};
}

} // namespace earwright
