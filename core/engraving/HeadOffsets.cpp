#include "core/engraving/HeadOffsets.h"

#include <cstdlib>

namespace earwright {

namespace {

/// In multiples of the sides' distance, for a stem that points up: the usual side, the other one, and further
/// and further beside those.
constexpr int sideAt(int choice) {
    return choice % 2 == 1 ? (choice + 1) / 2 : -choice / 2;
}

} // namespace

std::vector<double> headOffsets(const std::vector<StaffHead>& heads, bool stemUp, double by) {
    std::vector<int> sides(heads.size(), 0);
    const auto fromStem = [&](std::size_t i) { return stemUp ? i : heads.size() - 1 - i; };
    const auto isTaken = [&](std::size_t placed, int side) {
        for (std::size_t i = 0; i < placed; ++i) {
            const std::size_t other = fromStem(i);
            if (std::abs(heads[fromStem(placed)].position - heads[other].position) <= 1 &&
                sides[other] == side)
                return true;
        }
        return false;
    };
    for (std::size_t i = 0; i < heads.size(); ++i) {
        int choice = 0;
        while (isTaken(i, sideAt(choice)))
            ++choice;
        sides[fromStem(i)] = sideAt(choice);
    }
    std::vector<double> offsets;
    for (const int side : sides)
        offsets.push_back((stemUp ? side : -side) * by);
    return offsets;
}

} // namespace earwright
