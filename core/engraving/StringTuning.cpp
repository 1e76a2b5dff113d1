#include "core/engraving/StringTuning.h"

#include <algorithm>

namespace earwright {

bool isPlayable(const StringTuning& tuning) {
    constexpr std::size_t mostStrings = 8;
    constexpr int mostFrets = 36;
    constexpr int highestNumber = 127;
    const bool countsFit = !tuning.strings.empty() && tuning.strings.size() <= mostStrings &&
                           tuning.frets >= 1 && tuning.frets <= mostFrets && tuning.capo >= 0 &&
                           tuning.capo < tuning.frets;
    return countsFit && std::all_of(tuning.strings.begin(), tuning.strings.end(),
                                    [](int midi) { return midi >= 0 && midi <= highestNumber; });
}

const std::vector<NamedTuning>& namedTunings() {
    static const std::vector<NamedTuning> list{
        {"Guitar", {}},
        {"Guitar, low string D", {{64, 59, 55, 50, 45, 38}}},
        {"Guitar, open G", {{62, 59, 55, 50, 43, 38}}},
        {"Guitar, open D", {{62, 57, 54, 50, 45, 38}}},
        {"Guitar, seven strings", {{64, 59, 55, 50, 45, 40, 35}, 24}},
        {"Guitar, eight strings", {{64, 59, 55, 50, 45, 40, 35, 30}, 24}},
        {"Bass", {{43, 38, 33, 28}}},
        {"Bass, five strings", {{43, 38, 33, 28, 23}}},
    };
    return list;
}

} // namespace earwright
