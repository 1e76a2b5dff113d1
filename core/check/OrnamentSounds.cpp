#include "core/check/OrnamentSounds.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright {

namespace {

constexpr Seconds before{0.150};
constexpr Seconds after{0.100};

bool isPrebent(const Bend& bend) {
    return bend.shape == BendShape::PrebentHeld || bend.shape == BendShape::PrebentDown;
}

/// The string passes every pitch between.
bool isWithinBend(int midi, const Note& note) {
    const int top = static_cast<int>(std::ceil(note.phrasing.bend->semitones()));
    return midi >= note.pitch.midi && midi <= note.pitch.midi + top;
}

/// Turns and mordents do not say how far their neighbours lie: a semitone or a tone.
bool isNeighbour(int midi, const Note& note) {
    const int away = midi - note.pitch.midi;
    if (std::abs(away) > 2) return false;
    if (note.phrasing.turn) return true;
    if (!note.phrasing.mordent) return false;
    return away == 0 || (away > 0) == (*note.phrasing.mordent == Mordent::Upper);
}

/// What a slide or a scoop into the note passes: a finger slides over up to a third.
bool isOnTheWayIn(int midi, const Note& note) {
    constexpr int third = 4;
    const int away = midi - note.pitch.midi;
    const auto& slide = note.phrasing.slideIn;
    if (slide && *slide == SlideFrom::Above) return away > 0 && away <= third;
    if (slide) return away < 0 && away >= -third;
    return note.phrasing.scoop && away < 0 && away >= -2;
}

/// What a slide out of the note or a fall passes; a fall has no goal.
bool isOnTheWayOut(int midi, const Note& note) {
    constexpr int third = 4;
    constexpr int octave = 12;
    const int away = midi - note.pitch.midi;
    const auto& slide = note.phrasing.slideOut;
    if (slide && *slide == SlideTo::Up) return away > 0 && away <= third;
    if (slide) return away < 0 && away >= -third;
    return note.phrasing.fall && away < 0 && away >= -octave;
}

bool isGrace(int midi, const Note& note) {
    const auto& graces = note.phrasing.graceNotes;
    return std::find(graces.begin(), graces.end(), midi) != graces.end();
}

bool isTrilled(int midi, const Note& note) {
    return note.phrasing.trill && (midi == note.pitch.midi || midi == note.pitch.midi + *note.phrasing.trill);
}

} // namespace

int struckMidi(const Note& note) {
    const auto& bend = note.phrasing.bend;
    return bend && isPrebent(*bend) ? note.pitch.midi + bend->quarterTones / 2 : note.pitch.midi;
}

bool movesItsPitch(const Phrasing& signs) {
    return signs.slideIn || signs.scoop || !signs.graceNotes.empty() || signs.trill || signs.turn ||
           signs.mordent || signs.bend;
}

bool isOrnament(const UnwrittenSound& sound, const Note& note, const Range<Seconds>& played) {
    const Range<Seconds> aroundOnset{played.begin - before, played.begin + after};
    if (aroundOnset.contains(sound.range.begin) &&
        (isGrace(sound.midi, note) || isOnTheWayIn(sound.midi, note)))
        return true;
    const Range<Seconds> aroundEnd{played.begin + played.length() * 0.5, played.end + after};
    if (aroundEnd.contains(sound.range.begin) && isOnTheWayOut(sound.midi, note)) return true;
    if (!played.contains(sound.range.begin)) return false;
    return isTrilled(sound.midi, note) || isNeighbour(sound.midi, note) ||
           (note.phrasing.bend && isWithinBend(sound.midi, note));
}

bool isOtherTrill(const UnwrittenSound& sound, const Note& note, const Range<Seconds>& played) {
    const int away = sound.midi - note.pitch.midi;
    return note.phrasing.trill && played.contains(sound.range.begin) && away > 0 && away <= widestTrill;
}

CheckedNote withSignsHeard(CheckedNote checked, const Note& note,
                           const std::vector<UnwrittenSound>& unwritten) {
    if (!checked.suggestedMidi || checked.together) return checked;
    constexpr Seconds nearest{0.070};
    constexpr Seconds farthest{0.400}; // an eighth at 75 beats a minute
    const auto own = [&](const Range<Seconds>& where) {
        return std::find_if(unwritten.begin(), unwritten.end(), [&](const UnwrittenSound& sound) {
            return sound.midi == note.pitch.midi && where.contains(sound.range.begin);
        });
    };
    const Seconds begins = checked.begins();
    const bool isHeardLater = own({begins, begins + checked.range.length()}) != unwritten.end();
    const bool isOfTurn = note.phrasing.turn && isNeighbour(*checked.suggestedMidi, note);
    const bool isOfTrill = isTrilled(*checked.suggestedMidi, note);
    const bool leadsIn = isOnTheWayIn(*checked.suggestedMidi, note) || isGrace(*checked.suggestedMidi, note);
    constexpr double evens = 0.5;
    if (leadsIn && checked.verdict == Verdict::Unclear && checked.score > evens) {
        checked.verdict = Verdict::Supported;
        checked.doubt.reset();
        checked.suggestedMidi.reset();
        return checked;
    }
    // What is unclear may be the written pitch as it is.
    if (((isOfTurn || leadsIn) && isHeardLater) ||
        (isOfTrill && (isHeardLater || checked.verdict == Verdict::Unclear))) {
        checked.verdict = Verdict::Unclear;
        checked.doubt = Doubt::Beginning;
        checked.suggestedMidi.reset();
    } else if (note.phrasing.bend && !isPrebent(*note.phrasing.bend) &&
               isWithinBend(*checked.suggestedMidi, note)) {
        const auto earlier = own({begins - farthest, begins - nearest});
        if (earlier == unwritten.end()) return checked;
        checked.suggestedMidi.reset();
        checked.nothingBegins = true;
        checked.beginsAt = earlier->range.begin;
        if (checked.doubt) checked.doubt = Doubt::Beginning;
    }
    return checked;
}

Range<Seconds> playedRange(const CheckedNote& checked) {
    if (checked.together && checked.beginsAt)
        return checked.range.shifted(*checked.beginsAt - checked.range.begin);
    Range<Seconds> played = checked.range.shifted(checked.behind);
    if (checked.beginsAt && *checked.beginsAt < played.begin) played.begin = *checked.beginsAt;
    return played;
}

} // namespace earwright
