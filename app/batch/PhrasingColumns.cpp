#include "app/batch/PhrasingColumns.h"

#include <cstdio>
#include <optional>
#include <string>

namespace earwright::batch {

namespace {

constexpr const char* columns =
    "\toffset_ms\tlength_s\tloudness_db\tslur_chance\tcentre_cents\tslide_cents\tslide_ms\tslide_out_cents\t"
    "bend_cents\tvibrato_hz\tvibrato_cents\ttrill_hz\ttrill_semitones\tmarks\theard";
constexpr int columnCount = 15;

void printCell(const std::optional<double>& value, int digits) {
    std::printf("\t");
    if (value) std::printf("%.*f", digits, *value);
}

template <class Heard, class Value>
std::optional<double> of(const std::optional<Heard>& heard, Value Heard::*member) {
    if (!heard) return std::nullopt;
    return (*heard).*member;
}

std::string marksIn(const PhrasingAnswer& answer) {
    std::string text;
    for (const MarkAnswer& mark : answer.written)
        text += std::string(text.empty() ? "" : ",") + toString(mark.mark) + ':' + toString(mark.verdict);
    return text;
}

std::string heardIn(const PhrasingAnswer& answer) {
    std::string text;
    for (const PhrasingMark mark : answer.unwritten)
        text += std::string(text.empty() ? "" : ",") + toString(mark);
    return text;
}

} // namespace

void printPhrasingHeader() {
    std::fputs(columns, stdout);
}

void printPhrasing(const Phrasing& written, const NotePlaying& playing, Verdict note) {
    const TraceFeatures& pitch = playing.pitch;
    const bool isTraced = pitch.clearShare >= 0.5;
    printCell(playing.begins ? std::optional(1000 * playing.behind.value) : std::nullopt, 1);
    printCell(playing.begins ? std::optional(playing.heard.length().value) : std::nullopt, 3);
    printCell(playing.loudnessDb, 1);
    printCell(playing.slurChance, 3);
    printCell(isTraced ? std::optional(pitch.centreCents) : std::nullopt, 1);
    printCell(of(pitch.slideIn, &HeardSlide::cents), 0);
    printCell(pitch.slideIn ? std::optional(1000 * pitch.slideIn->duration.value) : std::nullopt, 0);
    printCell(of(pitch.slideOut, &HeardSlide::cents), 0);
    printCell(pitch.bendCents, 0);
    printCell(of(pitch.vibrato, &HeardVibrato::hertz), 2);
    printCell(of(pitch.vibrato, &HeardVibrato::cents), 1);
    printCell(of(pitch.trill, &HeardTrill::hertz), 2);
    printCell(of(pitch.trill, &HeardTrill::semitones), 2);
    const PhrasingAnswer answer = judgePhrasing(written, playing);
    // Where the note itself is not heard, no sign of it is.
    const std::string heard = note == Verdict::Contradicted ? "" : heardIn(answer);
    std::printf("\t%s\t%s", marksIn(answer).c_str(), heard.c_str());
}

void printNoPhrasing() {
    for (int i = 0; i < columnCount; ++i)
        std::fputs("\t", stdout);
}

} // namespace earwright::batch
