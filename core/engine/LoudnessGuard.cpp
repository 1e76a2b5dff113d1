#include "core/engine/LoudnessGuard.h"

#include "core/engine/Power.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double mostDecibels = 2.5;
constexpr double downSeconds = 0.01;
constexpr double upSeconds = 1.5;
/// Steps that what comes next is told from.
constexpr std::size_t horizon = 10;
constexpr std::size_t leastKnown = 3;

/// The gain g, up to 1, at which notes of some power fit into the room the record leaves:
/// 2 g common + g² notes = room.
double notesWithin(double room, double common, double notes) {
    if (notes <= 0 || 2 * common + notes <= room) return 1;
    if (room <= 0) return 0;
    return std::clamp((std::sqrt(common * common + notes * room) - common) / notes, 0.0, 1.0);
}

} // namespace

void LoudnessGuard::Sums::add(float left, float right, float notes) {
    const double both = static_cast<double>(left) + static_cast<double>(right);
    const double own = notes;
    straight += static_cast<double>(left) * static_cast<double>(left) +
                static_cast<double>(right) * static_cast<double>(right);
    folded += 0.25 * both * both;
    yours += own * own;
    common += both * own;
}

void LoudnessGuard::setRate(SampleRate rate) {
    for (KWeighting& weighting : weightings)
        weighting.setRate(rate);
    stepFrames =
        static_cast<int>(std::lround(momentarySeconds * rate.hertz / static_cast<double>(stepCount)));
    for (Slew* gain : {&record, &yours})
        gain->setFrames(static_cast<float>(downSeconds * rate.hertz),
                        static_cast<float>(upSeconds * rate.hertz));
    steps = {};
    current = {};
    known = 0;
    inStep = 0;
}

void LoudnessGuard::aim(Hearing hearing, bool yoursTurn) {
    const bool onlyYours = hearing == Hearing::Yours || (hearing == Hearing::Trade && yoursTurn);
    folded = hearing == Hearing::Split;
    straight = !onlyYours && !folded;
    yoursEars = folded ? 1 : onlyYours || hearing == Hearing::Together ? 2 : 0;
}

void LoudnessGuard::hear(const SoundFrame& frame) {
    current[0].add(frame.left, frame.right, frame.yours);
    current[0].reference = std::max<double>(current[0].reference, frame.measurePlain);
    current[1].add(weightings[0].next(frame.left), weightings[1].next(frame.right),
                   weightings[2].next(frame.yours));
    current[1].reference = std::max<double>(current[1].reference, frame.measureWeighted);
    if (++inStep >= stepFrames) endStep();
}

LoudnessGuard::Sums& LoudnessGuard::Sums::operator+=(const Sums& other) {
    straight += other.straight;
    folded += other.folded;
    yours += other.yours;
    common += other.common;
    heard += other.heard;
    reference = std::max(reference, other.reference);
    return *this;
}

LoudnessGuard::Sums LoudnessGuard::sumOf(std::size_t weighting, std::size_t count) const {
    Sums sums;
    for (std::size_t i = 0; i < count; ++i)
        sums += steps[(newest + stepCount - i) % stepCount][weighting];
    return sums;
}

LoudnessGuard::Gains LoudnessGuard::gainsFor(std::size_t weighting) const {
    Gains gains;
    const Sums all = sumOf(weighting, stepCount);
    if (all.reference <= 0) return gains;
    const double most = all.reference * std::pow(10.0, mostDecibels / 10) * stepFrames;
    const double whole = most * static_cast<double>(stepCount);
    if (recordIn(all) > whole) gains.record = std::sqrt(whole / recordIn(all));
    const double squared = gains.record * gains.record;
    // After a start little is known of the notes yet: what there is stands for the whole, and an attack of
    // the record alone takes no more than its share.
    const auto heardSteps = static_cast<double>(std::max(known, leastKnown));
    const double share = known < stepCount ? all.reference * stepFrames * heardSteps : whole;
    const double steadily = notesWithin(most * heardSteps - std::min(squared * recordIn(all), share),
                                        gains.record * commonIn(all), yoursEars * all.yours);
    const Sums latest = sumOf(weighting, horizon);
    const double toCome =
        static_cast<double>(horizon) / static_cast<double>(std::clamp(known, leastKnown, horizon));
    const double left =
        whole - sumOf(weighting, stepCount - horizon).heard - std::min(squared * recordIn(latest), share);
    const double suddenly =
        notesWithin(left, toCome * gains.record * commonIn(latest), toCome * yoursEars * latest.yours);
    gains.yours = std::min(steadily, suddenly);
    return gains;
}

void LoudnessGuard::endStep() {
    const double notes = yours.value();
    const double kept = record.value();
    for (Sums& sums : current)
        sums.heard = kept * kept * recordIn(sums) + 2 * kept * notes * commonIn(sums) +
                     notes * notes * yoursEars * sums.yours;
    newest = (newest + 1) % stepCount;
    known = current[0].reference > 0 ? std::min(known + 1, stepCount) : 0;
    steps[newest] = current;
    current = {};
    inStep = 0;
    const Gains plain = gainsFor(0);
    const Gains weighted = gainsFor(1);
    record.aimAt(static_cast<float>(std::min(plain.record, weighted.record)));
    yours.aimAt(static_cast<float>(std::min(plain.yours, weighted.yours)));
}

void LoudnessGuard::settle() {
    for (KWeighting& weighting : weightings)
        weighting.settle();
}

} // namespace earwright
