#include "ui/grid/SignPlaces.h"

#include <array>

namespace earwright::ui {

namespace {

constexpr double width = 11;
constexpr double gap = 1.5;
constexpr double degreeHeight = 12;

struct SignSize {
    PhrasingKind kind;
    double height;
    /// Stands beside the head where there is room for it.
    bool onlyIfNarrow = false;
};

using enum PhrasingKind;

// From the head outwards.
constexpr std::array below{SignSize{Staccato, 3.5},     SignSize{Tenuto, 3},     SignSize{Accent, 6},
                           SignSize{Scoop, 7},          SignSize{Fall, 8, true}, SignSize{HammerPull, 8},
                           SignSize{PickedInSlur, 6.5}, SignSize{LetRing, 8}};
constexpr std::array above{SignSize{PhrasingKind::Turn, 6}, SignSize{PhrasingKind::Mordent, 7},
                           SignSize{Trill, 8, true}, SignSize{Vibrato, 5, true},
                           SignSize{PhrasingKind::Bend, 19}};

bool stands(const Phrasing& phrasing, const SignSize& sign, bool isNarrow) {
    return carries(phrasing, sign.kind) && (isNarrow || !sign.onlyIfNarrow);
}

/// A slide of a short note: under the head where it comes from or goes below, over it otherwise.
bool slidesUnder(const Phrasing& phrasing) {
    return phrasing.slideIn ? phrasing.slideIn == SlideFrom::Below : phrasing.slideOut == SlideTo::Down;
}

} // namespace

std::vector<PlacedSign> placeSigns(const Phrasing& phrasing, const SignRoom& room) {
    constexpr double slideHeight = 7;
    const double left = room.head.x() - width / 2;
    const bool hasShortSlide = room.isNarrow && carries(phrasing, Slide);
    std::vector<PlacedSign> placed;
    double edge = room.head.y() + room.radius + gap;
    const auto putBelow = [&](PhrasingKind kind, double height) {
        placed.push_back({kind, {left, edge, width, height}});
        edge += height + gap;
    };
    if (hasShortSlide && slidesUnder(phrasing)) putBelow(Slide, slideHeight);
    for (const SignSize& sign : below)
        if (stands(phrasing, sign, room.isNarrow)) putBelow(sign.kind, sign.height);
    edge = room.head.y() - room.radius - gap - (room.hasDegree ? degreeHeight : 0);
    const auto putAbove = [&](PhrasingKind kind, double height) {
        placed.push_back({kind, {left, edge - height, width, height}});
        edge -= height + gap;
    };
    if (hasShortSlide && !slidesUnder(phrasing)) putAbove(Slide, slideHeight);
    for (const SignSize& sign : above)
        if (stands(phrasing, sign, room.isNarrow)) putAbove(sign.kind, sign.height);
    return placed;
}

} // namespace earwright::ui
