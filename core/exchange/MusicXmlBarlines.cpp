#include "core/exchange/MusicXmlBarlines.h"

#include "core/engraving/RepeatSigns.h"
#include "core/exchange/MusicXmlMarks.h"

#include <algorithm>
#include <iterator>
#include <string>

namespace earwright {

namespace {

/// "1", or "1, 2" where the bars under it are played twice.
std::string firstNumbers(const Repeat& repeat) {
    std::string numbers = "1";
    for (int time = 2; time < repeat.times; ++time)
        numbers += ", " + std::to_string(time);
    return numbers;
}

/// The repeat that a bar belongs to, or stands under the last ending of: they do not overlap. Requires: one
/// begins at the bar or before.
const Repeat& repeatAround(const std::vector<Repeat>& repeats, std::int64_t bar) {
    const auto behind =
        std::upper_bound(repeats.begin(), repeats.end(), bar,
                         [](std::int64_t number, const Repeat& repeat) { return number < repeat.firstBar; });
    return *std::prev(behind);
}

std::string numbersOf(const EndingPart& ending, const Repeat& repeat) {
    return ending.isClosed ? firstNumbers(repeat) : std::to_string(repeat.times);
}

class Barline {
public:
    Barline(pugi::xml_node toFill, const char* side) : measure(toFill), location(side) {}

    void end(const char* type, const std::string& numbers) {
        pugi::xml_node ending = node().append_child("ending");
        ending.append_attribute("number") = numbers.c_str();
        ending.append_attribute("type") = type;
    }
    void repeat(const char* direction, int times = 2) {
        pugi::xml_node mark = node().append_child("repeat");
        mark.append_attribute("direction") = direction;
        if (times > 2) mark.append_attribute("times") = times;
    }
    void style(const char* style) { node().prepend_child("bar-style").text().set(style); }

private:
    pugi::xml_node node() {
        if (!barline) {
            barline = measure.append_child("barline");
            barline.append_attribute("location") = location;
        }
        return barline;
    }
    pugi::xml_node measure;
    const char* location;
    pugi::xml_node barline;
};

} // namespace

void addLeftBarline(pugi::xml_node measure, const std::vector<Repeat>& repeats, std::int64_t bar) {
    Barline line(measure, "left");
    const RepeatSigns signs = repeatSignsAt(repeats, bar);
    if (signs.ending && signs.ending->begins)
        line.end("start", numbersOf(*signs.ending, repeatAround(repeats, bar)));
    if (!signs.opens) return;
    line.repeat("forward");
    line.style("heavy-light");
}

void addRightBarline(pugi::xml_node measure, const std::vector<Repeat>& repeats, std::int64_t bar,
                     bool isLastBar) {
    Barline line(measure, "right");
    const RepeatSigns signs = repeatSignsAt(repeats, bar);
    if (signs.ending && (signs.ending->ends || isLastBar))
        line.end(signs.ending->isClosed ? "stop" : "discontinue",
                 numbersOf(*signs.ending, repeatAround(repeats, bar)));
    if (signs.closes) line.repeat("backward", repeatAround(repeats, bar).times);
    if (signs.closes || isLastBar) line.style("light-heavy");
}

std::int64_t lastRepeatedBar(const std::vector<Repeat>& repeats) {
    std::int64_t last = 1;
    for (const Repeat& repeat : repeats)
        last = std::max(last, repeat.lastBar);
    return last;
}

} // namespace earwright
