#include "core/exchange/MusicXmlWords.h"

#include <array>
#include <utility>

namespace earwright {

namespace {

struct DynamicWord {
    const char* word;
    Dynamic level;
};

/// The first of each level is its own.
constexpr std::array<DynamicWord, 22> dynamicWords{{
    {"ppp", Dynamic::ppp},  {"pp", Dynamic::pp},     {"p", Dynamic::p},        {"mp", Dynamic::mp},
    {"mf", Dynamic::mf},    {"f", Dynamic::f},       {"ff", Dynamic::ff},      {"fff", Dynamic::fff},
    {"sfz", Dynamic::sfz},  {"pppp", Dynamic::ppp},  {"ppppp", Dynamic::ppp},  {"pppppp", Dynamic::ppp},
    {"ffff", Dynamic::fff}, {"fffff", Dynamic::fff}, {"ffffff", Dynamic::fff}, {"sf", Dynamic::sfz},
    {"fz", Dynamic::sfz},   {"rf", Dynamic::sfz},    {"rfz", Dynamic::sfz},    {"sffz", Dynamic::sfz},
    {"sfp", Dynamic::sfz},  {"sfpp", Dynamic::sfz},
}};

constexpr std::array<std::pair<std::string_view, double>, 12> noteTypes{{{"long", 16},
                                                                         {"breve", 8},
                                                                         {"whole", 4},
                                                                         {"half", 2},
                                                                         {"quarter", 1},
                                                                         {"eighth", 1.0 / 2},
                                                                         {"16th", 1.0 / 4},
                                                                         {"32nd", 1.0 / 8},
                                                                         {"64th", 1.0 / 16},
                                                                         {"128th", 1.0 / 32},
                                                                         {"256th", 1.0 / 64},
                                                                         {"512th", 1.0 / 128}}};

} // namespace

const char* nameOf(Dynamic level) {
    for (const DynamicWord& entry : dynamicWords)
        if (entry.level == level) return entry.word;
    return "mf";
}

std::optional<Dynamic> dynamicNamed(std::string_view sign) {
    for (const DynamicWord& entry : dynamicWords)
        if (entry.word == sign) return entry.level;
    return std::nullopt;
}

double quartersIn(std::string_view noteType) {
    for (const auto& [word, quarters] : noteTypes)
        if (word == noteType) return quarters;
    return 0;
}

} // namespace earwright
