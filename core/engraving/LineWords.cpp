#include "core/engraving/LineWords.h"

#include "core/engraving/PageBars.h"
#include "core/engraving/TextWidth.h"
#include "core/music/TempoFigure.h"

#include <cstdio>
#include <string>
#include <utility>

namespace earwright {

namespace {

constexpr double size = 2;
/// Notes among words are as high as a capital and a half.
constexpr double noteScale = 0.6;
constexpr double digitScale = 0.6;
constexpr double space = 0.5;
/// A face may be wider than its estimate.
constexpr double behindWords = 0.12;
constexpr double bracketRaise = 0.5;
constexpr double hook = 0.35;

/// With as many decimals as it needs, at most two.
std::string figure(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.2f", value);
    std::string made(text);
    while (made.back() == '0')
        made.pop_back();
    if (made.back() == '.') made.pop_back();
    return made;
}

/// Words and notes from left to right on one base line.
class Row {
public:
    explicit Row(const FontMetrics& metrics) : font(metrics) {}

    void word(const std::string& text) {
        if (text.empty()) return;
        if (made.width > 0) made.width += space;
        made.shapes.texts.push_back({text, {made.width, 0}, size, TextRole::Tempo, TextAnchor::Left, {}});
        made.width += textWidth(text) * size * (1 + behindWords);
    }

    void note(Smufl glyph) {
        if (made.width > 0) made.width += space;
        made.shapes.glyphs.push_back({glyph, {made.width, 0}, noteScale, {}});
        made.width += font.box(glyph).right * noteScale;
    }

    void dot() {
        made.width += space / 2;
        made.shapes.glyphs.push_back({Smufl::MetAugmentationDot, {made.width, 0}, noteScale, {}});
        made.width += font.box(Smufl::MetAugmentationDot).right * noteScale;
    }

    /// A bracket with a 3 over what has been written since `left`.
    void triplet(double left) {
        const Smufl three = digitOf(Smufl::Tuplet0, 3);
        const PageBox digit = font.box(three);
        const double y = font.box(Smufl::MetNoteQuarterUp).top * noteScale - bracketRaise;
        const double half = digit.width() * digitScale / 2 + 0.15;
        const double middle = (left + made.width) / 2;
        const auto stroke = [&](const PagePoint& from, const PagePoint& to) {
            made.shapes.lines.push_back({from, to, font.usual("tupletBracketThickness") * 0.7, {}});
        };
        stroke({left, y + hook}, {left, y});
        stroke({left, y}, {middle - half, y});
        stroke({middle + half, y}, {made.width, y});
        stroke({made.width, y}, {made.width, y + hook});
        made.shapes.glyphs.push_back({three,
                                      {middle - (digit.left + digit.right) / 2 * digitScale,
                                       y - (digit.top + digit.bottom) / 2 * digitScale},
                                      digitScale,
                                      {}});
    }

    double width() const { return made.width; }
    SignedText take() { return std::move(made); }

private:
    const FontMetrics& font;
    SignedText made;
};

} // namespace

SignedText tempoWords(const TempoMark& tempo, const Meter& meter, const FontMetrics& font) {
    Row row(font);
    row.word(tempo.words);
    if (!tempo.quartersPerMinute) return row.take();
    const bool isDotted = pulseBeats(meter) == 3;
    row.note(Smufl::MetNoteQuarterUp);
    if (isDotted) row.dot();
    row.word("= " + tempoFigure(*tempo.quartersPerMinute * (isDotted ? 2.0 / 3 : 1)));
    return row.take();
}

SignedText swingWords(const Swing& swing, const FontMetrics& font) {
    Row row(font);
    const bool isSixteenths = swing.noteValue == 16;
    const std::string notes = isSixteenths ? "sixteenths" : "eighths";
    const Smufl each = isSixteenths ? Smufl::MetNote16thUp : Smufl::MetNote8thUp;
    const Smufl doubled = isSixteenths ? Smufl::MetNote8thUp : Smufl::MetNoteQuarterUp;
    const Smufl halved = isSixteenths ? Smufl::MetNote32ndUp : Smufl::MetNote16thUp;
    const bool isTriplet = swing.ratio == 2;
    const bool isDotted = swing.ratio == 3;
    if (swing.isEven()) {
        row.word("Even " + notes);
    } else if (!isTriplet && !isDotted) {
        row.word("Swing " + notes + " " + figure(swing.ratio) + " : 1");
    } else {
        row.word("Swing");
        row.note(each);
        row.note(each);
        row.word("=");
        const double left = row.width() + space;
        row.note(isTriplet ? doubled : each);
        if (isDotted) row.dot();
        row.note(isTriplet ? each : halved);
        if (isTriplet) row.triplet(left);
    }
    return row.take();
}

} // namespace earwright
