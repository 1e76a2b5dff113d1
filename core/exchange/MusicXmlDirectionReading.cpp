#include "core/exchange/MusicXmlDirectionReading.h"

#include "core/exchange/MusicXmlDirections.h"
#include "core/exchange/MusicXmlHarmony.h"
#include "core/exchange/MusicXmlWords.h"
#include "core/music/TempoFigure.h"
#include "core/study/Limits.h"
#include "core/study/PageOrder.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <string_view>

namespace earwright {

namespace {

/// Of a kind of mark; no music has more, and a file made to keep us busy may.
constexpr std::size_t mostMarks = 1'000;
constexpr const char* tooMany = "Marks behind the thousandth of their kind were left out.";

bool isYes(pugi::xml_node node, const char* attribute) {
    return std::string_view(node.attribute(attribute).value()) == "yes";
}

/// Words that were written for a chord symbol, which has no blanks and no strokes.
bool isSymbol(pugi::xml_node words) {
    const std::string_view text = words.child_value();
    return std::string_view(words.attribute("id").value()).starts_with(symbolIdPrefix) && !text.empty() &&
           text != "/" && text != "%" && text.find_first_of(" \t\n\r\f\v|") == std::string_view::npos;
}

/// The first number in a text as "c. 132" or "120-126".
double firstNumber(const std::string& text) {
    const std::size_t digit = text.find_first_of("0123456789");
    return digit == std::string::npos ? 0 : std::strtod(text.c_str() + digit, nullptr);
}

/// Of the note that is counted.
double quartersCounted(pugi::xml_node metronome) {
    double quarters = quartersIn(metronome.child_value("beat-unit"));
    const pugi::xml_node unit = metronome.child("beat-unit");
    const auto isDot = [](pugi::xml_node node) { return std::string_view(node.name()) == "beat-unit-dot"; };
    double dot = quarters / 2;
    for (pugi::xml_node next = unit.next_sibling(); isDot(next); next = next.next_sibling(), dot /= 2)
        quarters += dot;
    return quarters;
}

double figureOf(pugi::xml_node metronome) {
    return firstNumber(metronome.child_value("per-minute"));
}

/// Quarters a minute; nothing for one note set equal to another, and for what no tempo is.
std::optional<double> quartersOf(pugi::xml_node metronome) {
    // A third of a written number may have no end; so fine, a MIDI tempo keeps its microseconds.
    const double tempo = std::round(quartersCounted(metronome) * figureOf(metronome) * 1e5) / 1e5;
    return tempo >= slowestTempo && tempo <= fastestTempo ? std::optional(tempo) : std::nullopt;
}

/// The tempo of a sound, where the figure over it says no other: a page shows whole beats.
double exactTempo(double shown, double sounding, pugi::xml_node metronome) {
    const double counted = quartersCounted(metronome);
    if (!(sounding >= slowestTempo && sounding <= fastestTempo) || !(counted > 0)) return shown;
    const bool isSame = firstNumber(tempoFigure(sounding / counted)) == figureOf(metronome);
    return isSame ? sounding : shown;
}

} // namespace

std::optional<std::string> MusicXmlDirectionReading::read(pugi::xml_node direction, const Beats& place) {
    std::string words;
    std::optional<std::string> symbol;
    std::optional<double> tempo;
    for (const pugi::xml_node type : direction.children("direction-type")) {
        for (const char* name : {"rehearsal", "words"})
            for (const pugi::xml_node text : type.children(name)) {
                // What our own pages say of swing is in their sound as well.
                if (direction.child("sound").child("swing") &&
                    std::string_view(text.attribute("id").value()).starts_with(swingIdPrefix))
                    continue;
                if (isSymbol(text))
                    symbol = text.child_value();
                else
                    words += (words.empty() ? "" : " ") + std::string(text.child_value());
            }
        if (const auto metronome = type.child("metronome")) {
            tempo = quartersOf(metronome);
            if (tempo)
                tempo =
                    exactTempo(*tempo, direction.child("sound").attribute("tempo").as_double(), metronome);
            if (!tempo) leaveOut(imported, "A tempo that no page here can show was left out.");
        }
        readSigns(type, place);
    }
    const pugi::xml_node sound = direction.child("sound");
    if (sound) readSound(sound, place);
    const bool saysTempo = isYes(direction, "directive") || sound.attribute("tempo");
    if (tempo || (saysTempo && !words.empty()))
        addTempoMark({place, words, tempo});
    else if (!words.empty())
        addText({place, words, std::string_view(direction.attribute("placement").value()) == "below"});
    return symbol;
}

void MusicXmlDirectionReading::addTempoMark(const TempoMark& mark) {
    if (study.page.tempos.size() >= mostMarks) return leaveOut(imported, tooMany);
    study.page.tempos.push_back(mark);
}

void MusicXmlDirectionReading::addText(const TextMark& mark) {
    if (study.page.texts.size() >= mostMarks) return leaveOut(imported, tooMany);
    study.page.texts.push_back(mark);
}

void MusicXmlDirectionReading::readSigns(pugi::xml_node type, const Beats& place) {
    for (const pugi::xml_node sign : type.child("dynamics").children()) {
        const auto level = dynamicNamed(sign.name());
        if (!level)
            leaveOut(imported, "Dynamics that have no sign here were left out.");
        else if (study.page.dynamics.size() >= mostMarks)
            leaveOut(imported, tooMany);
        else
            study.page.dynamics.push_back({place, *level});
    }
    for (const pugi::xml_node wedge : type.children("wedge"))
        readWedge(wedge, place);
}

void MusicXmlDirectionReading::readWedge(pugi::xml_node wedge, const Beats& place) {
    const std::string_view type = wedge.attribute("type").value();
    const std::string number = wedge.attribute("number").as_string("1");
    if (type == "crescendo" || type == "diminuendo") {
        openWedges[number] = {type == "crescendo" ? HairpinKind::Louder : HairpinKind::Softer, place};
        return;
    }
    const auto open = openWedges.find(number);
    if (type != "stop" || open == openWedges.end()) return;
    if (study.page.hairpins.size() < mostMarks && place > open->second.begin)
        study.page.hairpins.push_back({{open->second.begin, place}, open->second.kind});
    openWedges.erase(open);
}

void MusicXmlDirectionReading::readSound(pugi::xml_node sound, const Beats& place) {
    const double tempo = sound.attribute("tempo").as_double();
    if (tempo >= slowestTempo && tempo <= fastestTempo) tempos[Beats(place.floor())] = tempo;
    const pugi::xml_node swing = sound.child("swing");
    if (!swing || study.page.swings.size() >= mostMarks) return;
    const double first = swing.child("first").text().as_double();
    const double second = swing.child("second").text().as_double();
    const bool isSixteenth = std::string_view(swing.child_value("swing-type")) == "16th";
    const bool isEven =
        swing.child("straight") || !(first > 0) || !(second > 0) || !std::isfinite(first / second);
    const double ratio = isEven ? 1 : std::clamp(first / second, leastSwing, mostSwing);
    study.page.swings.push_back({place, {ratio, isSixteenth ? 16 : 8}});
}

void MusicXmlDirectionReading::finishTempo() {
    if (tempos.empty()) return;
    const double first = tempos.begin()->second;
    tempos.try_emplace(Beats(0), first);
    const Beats last = study.notes.empty() ? Beats(0) : study.notes.back().end();
    tempos.try_emplace(std::max(Beats(last.floor() + 1), Beats(tempos.rbegin()->first.floor() + 4)), first);
    std::vector<BeatMark> marks;
    double seconds = 0;
    for (auto tempo = tempos.begin(); tempo != tempos.end(); ++tempo) {
        if (tempo != tempos.begin()) {
            const auto before = std::prev(tempo);
            const double quarters = (tempo->first - before->first).toDouble() * 4 / study.meter.beatUnit;
            seconds += quarters * 60 / before->second;
        }
        marks.push_back({tempo->first, Seconds(seconds)});
    }
    // Bar 1 begins at the first second, a pickup before it.
    const Seconds barOne = std::find_if(marks.begin(), marks.end(), [](const BeatMark& mark) {
                               return mark.position == Beats(0);
                           })->time;
    for (BeatMark& mark : marks)
        mark.time = mark.time - barOne;
    study.beatMap = BeatMap(std::move(marks));
    if (!isWithinLimits(study.beatMap)) study.beatMap = {};
}

} // namespace earwright
