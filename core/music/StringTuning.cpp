#include "core/music/StringTuning.h"

#include "core/music/Pitch.h"
#include "core/music/PitchNames.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr int highestNumber = 127;
/// What a first string without an octave is not below: three half steps under a guitar's low E.
constexpr int lowestGuess = 35;

struct TypedString {
    int pitchClass = 0;
    std::optional<int> octave;
};

/// Takes one note off the front of the text.
std::optional<TypedString> takeString(std::string_view& text) {
    // One sign at most: "gbbbeb" is G♭ B♭ E♭.
    const auto name = takeName(text, 1);
    if (!name) return {};
    TypedString typed{name->pitchClass(), {}};
    if (text.empty() || text.front() < '0' || text.front() > '8') return typed;
    // The octave is the name's: B sharp of 3 is C of 4.
    typed.octave = text.front() - '0';
    typed.pitchClass = PitchName{name->step, 0}.pitchClass() + name->alter;
    text.remove_prefix(1);
    return typed;
}

int midiOf(const TypedString& typed, const std::vector<int>& below) {
    if (typed.octave) return (*typed.octave + 1) * 12 + typed.pitchClass;
    const int above = below.empty() ? lowestGuess : below.back() + 1;
    return above + pitchClassOf(typed.pitchClass - above);
}

} // namespace

std::optional<std::vector<int>> readStrings(std::string_view text) {
    std::vector<int> strings;
    while (!text.empty()) {
        if (text.front() == ' ' || text.front() == ',') {
            text.remove_prefix(1);
            continue;
        }
        const auto typed = takeString(text);
        if (!typed) return {};
        strings.push_back(midiOf(*typed, strings));
        if (strings.back() < 0 || strings.back() > highestNumber) return {};
    }
    if (strings.empty() || static_cast<int>(strings.size()) > mostStrings) return {};
    std::reverse(strings.begin(), strings.end());
    return strings;
}

std::string writtenStrings(const std::vector<int>& strings) {
    static constexpr const char* names[]{"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
    std::string text;
    for (auto string = strings.rbegin(); string != strings.rend(); ++string) {
        if (!text.empty()) text += ' ';
        text += names[*string % 12] + std::to_string(*string / 12 - 1);
    }
    return text;
}

bool isPlayable(const StringTuning& tuning) {
    const bool countsFit = !tuning.strings.empty() &&
                           static_cast<int>(tuning.strings.size()) <= mostStrings && tuning.frets >= 1 &&
                           tuning.frets <= mostFrets && tuning.capo >= 0 && tuning.capo < tuning.frets;
    return countsFit && std::all_of(tuning.strings.begin(), tuning.strings.end(),
                                    [](int midi) { return midi >= 0 && midi <= highestNumber; });
}

const std::vector<NamedTuning>& namedTunings() {
    static const std::vector<NamedTuning> list{
        {"Guitar", {}, true},
        {"Guitar, low string D", {{64, 59, 55, 50, 45, 38}}, true},
        {"Guitar, a half step down", {{63, 58, 54, 49, 44, 39}}, true},
        {"Guitar, D A D G A D", {{62, 57, 55, 50, 45, 38}}, true},
        {"Guitar, open G", {{62, 59, 55, 50, 43, 38}}, true},
        {"Guitar, open D", {{62, 57, 54, 50, 45, 38}}, true},
        {"Guitar, seven strings", {{64, 59, 55, 50, 45, 40, 35}, 24}, true},
        {"Guitar, eight strings", {{64, 59, 55, 50, 45, 40, 35, 30}, 24}, true},
        {"Bass", {{43, 38, 33, 28}}},
        {"Bass, five strings", {{43, 38, 33, 28, 23}}},
        {"Bass, six strings", {{48, 43, 38, 33, 28, 23}, 24}},
        {"Mandolin", {{76, 69, 62, 55}, 20}},
        {"Ukulele, high G", {{69, 64, 60, 67}, 15}},
    };
    return list;
}

} // namespace earwright
