#include "core/engraving/OverStaff.h"

#include "core/engraving/Extent.h"
#include "core/engraving/LineWords.h"
#include "core/engraving/StaffFrame.h"
#include "core/engraving/TextWidth.h"

#include <algorithm>
#include <map>
#include <string>

namespace earwright {

namespace {

constexpr double overStaff = 1.0;
constexpr double gap = 0.7;
constexpr double endingHeight = 2.1;
constexpr double endingSize = 1.6;
/// Between neighbouring brackets.
constexpr double besideEnding = 0.25;
constexpr double timesSize = 1.7;
/// Between a tempo and the swing that holds from there on.
constexpr double betweenWords = 2;

/// Bars of one bracket as far as they are on this line: indexes.
struct EndingSpan {
    std::size_t first = 0;
    std::size_t last = 0;
};

std::vector<EndingSpan> endingsOf(const SystemPlan& plan) {
    std::vector<EndingSpan> spans;
    for (std::size_t i = 0; i < plan.bars.size(); ++i) {
        const auto& ending = plan.bars[i].repeat.ending;
        if (!ending) continue;
        const bool goesOn = !spans.empty() && spans.back().last + 1 == i && !ending->begins;
        if (goesOn)
            spans.back().last = i;
        else
            spans.push_back({i, i});
    }
    return spans;
}

class EndingMaker {
public:
    EndingMaker(const SystemPlan& toLayOut, const std::vector<PlacedBar>& places, Sketch& onto)
        : plan(toLayOut), bars(places), sketch(onto) {}

    void draw() {
        const std::vector<EndingSpan> spans = endingsOf(plan);
        double y = -overStaff - endingHeight;
        for (const EndingSpan& span : spans)
            y = std::min(y, sketch.topOver(bars[span.first].left, bars[span.last].right, 0) - gap -
                                endingHeight);
        for (const EndingSpan& span : spans)
            drawBracket(span, y);
    }

private:
    void drawBracket(const EndingSpan& span, double y) {
        const EndingPart& first = *plan.bars[span.first].repeat.ending;
        const EndingPart& last = *plan.bars[span.last].repeat.ending;
        const double left = bars[span.first].left + (first.begins ? besideEnding : 0);
        const double right = bars[span.last].right - besideEnding;
        stroke({left, y}, {right, y});
        if (first.begins) {
            stroke({left, y + endingHeight}, {left, y});
            sketch.add(PlacedText{first.number,
                                  {left + 0.5, y + 0.35 + 0.75 * endingSize},
                                  endingSize,
                                  TextRole::BarNumber,
                                  TextAnchor::Left,
                                  {}});
        }
        if (last.ends && last.isClosed) stroke({right, y}, {right, y + endingHeight});
    }

    void stroke(const PagePoint& from, const PagePoint& to) {
        sketch.add(PlacedLine{from, to, sketch.metrics().usual("repeatEndingLineThickness"), {}});
    }

    const SystemPlan& plan;
    const std::vector<PlacedBar>& bars;
    Sketch& sketch;
};

void drawTimes(int times, double right, Sketch& sketch) {
    const std::string text = std::to_string(times) + "×";
    const double left = right - textWidth(text) * timesSize;
    const double y = sketch.topOver(left - 0.2, right + 0.2, -overStaff) - 0.4;
    sketch.add(PlacedText{text, {right, y}, timesSize, TextRole::BarNumber, TextAnchor::Right, {}});
}

/// Free words as the tempo's are drawn.
SignedText freeWords(const std::string& text) {
    constexpr double size = 1.8;
    SignedText made;
    made.shapes.texts.push_back({text, {0, 0}, size, TextRole::Words, TextAnchor::Left, {}});
    made.width = textWidth(text) * size * 1.12;
    return made;
}

Meter meterAt(const SystemPlan& plan, const Beats& at) {
    const auto bar =
        std::find_if(plan.bars.begin(), plan.bars.end(), [&](const StaffBar& one) { return at < one.end; });
    return bar == plan.bars.end() ? plan.bars.back().meter : bar->meter;
}

/// Of the piece, with or without a pickup: what is said there stands over the meter (Gould, "Behind Bars",
/// from memory).
bool isBeginning(const SystemPlan& plan, const Beats& at) {
    if (plan.meterBefore) return false;
    const auto first =
        std::find_if(plan.bars.begin(), plan.bars.end(), [](const StaffBar& bar) { return bar.number >= 1; });
    return at <= (first == plan.bars.end() ? plan.bars.front() : *first).begin;
}

/// Tempo and swing are read as one.
void addBehind(SignedText& row, const SignedText& words) {
    const double left = row.width > 0 ? row.width + betweenWords : 0;
    row.shapes.append(words.shapes, {left, 0});
    row.width = left + words.width;
}

} // namespace

void layOutChords(const std::vector<ColumnChord>& chords, const std::vector<double>& places, Sketch& sketch) {
    double baseline = -overStaff;
    for (const ColumnChord& chord : chords) {
        const double x = places[chord.column];
        baseline = std::min(baseline, sketch.topOver(x - 0.3, x + chord.text.width + 0.3, 0) - gap);
    }
    for (const ColumnChord& chord : chords)
        sketch.add(chord.text.shapes, {places[chord.column], baseline});
}

void layOutEndings(const SystemPlan& plan, const std::vector<PlacedBar>& bars, Sketch& sketch) {
    EndingMaker(plan, bars, sketch).draw();
    for (std::size_t i = 0; i < plan.bars.size(); ++i)
        if (const int times = plan.bars[i].repeat.saidTimes; times > 0)
            drawTimes(times, bars[i].right, sketch);
}

void layOutWordsAbove(const SystemPlan& plan, const LineMoments& moments, double right, Sketch& sketch) {
    const auto draw = [&](const Beats& at, const SignedText& words) {
        const double place = isBeginning(plan, at) ? meterPlace(plan, sketch.metrics()) : moments.xAt(at);
        const double x = std::max(0.0, std::min(place, std::max(right, plan.width) - words.width));
        const double bottom = extentOf(words.shapes, sketch.metrics()).bottom;
        const double y = sketch.topOver(x - 0.5, x + words.width + 0.5, -overStaff) - gap - bottom;
        sketch.add(words.shapes, {x, y});
    };
    for (const TextMark& mark : plan.texts)
        if (!mark.below) draw(mark.at, freeWords(mark.text));
    std::map<Beats, SignedText> speeds;
    for (const TempoMark& tempo : plan.tempos)
        addBehind(speeds[tempo.at], tempoWords(tempo, meterAt(plan, tempo.at), sketch.metrics()));
    for (const SwingChange& change : plan.swings)
        addBehind(speeds[change.at], swingWords(change.swing, sketch.metrics()));
    for (const auto& [at, words] : speeds)
        draw(at, words);
}

} // namespace earwright
