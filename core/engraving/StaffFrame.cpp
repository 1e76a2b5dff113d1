#include "core/engraving/StaffFrame.h"

#include "core/engraving/BarLines.h"
#include "core/engraving/SignatureLayout.h"

#include <utility>

namespace earwright {

namespace {

constexpr double beforeClef = 0.6;
constexpr double behindClef = 0.9;
constexpr double behindSignature = 1.4;
constexpr double behindRepeat = 0.9;
constexpr double beforeCourtesy = 0.7;
constexpr double behindCourtesy = 0.3;

Smufl clefGlyph(Clef clef) {
    switch (clef) {
    case Clef::Bass:
        return Smufl::FClef;
    case Clef::TrebleOctaveLower:
        return Smufl::GClef8vb;
    case Clef::Treble:
        break;
    }
    return Smufl::GClef;
}

SignatureShapes withMeter(SignatureShapes key, const Meter& meter, const FontMetrics& font) {
    if (key.width > 0) key.width += behindClef * 0.6;
    const SignatureShapes shapes = meterShapes(meter, font);
    key.shapes.append(shapes.shapes, {key.width, 0});
    key.width += shapes.width;
    return key;
}

double signaturesWidth(const SystemPlan& plan, const FontMetrics& font) {
    const double clef = beforeClef + font.box(clefGlyph(plan.style.clef)).right + behindClef;
    const double signatures = signaturesAt(plan, 0, font).width;
    return signatures > 0 ? clef + signatures + behindSignature : clef;
}

} // namespace

SignatureShapes signaturesAt(const SystemPlan& plan, std::size_t bar, const FontMetrics& font) {
    const StaffBar& head = plan.bars[bar];
    const bool startsLine = bar == 0;
    const KeySignature before = startsLine ? plan.keyBefore : plan.bars[bar - 1].key;
    const Meter meterBefore = startsLine ? plan.meterBefore.value_or(Meter{0, 0}) : plan.bars[bar - 1].meter;
    SignatureShapes made;
    // Every line begins with its key; elsewhere only a change is shown.
    if (startsLine || before.fifths != head.key.fifths)
        made = keyShapes(head.key, before, plan.style.clef, font);
    return meterBefore == head.meter ? made : withMeter(std::move(made), head.meter, font);
}

SignatureShapes courtesyAfter(const SystemPlan& plan, const FontMetrics& font) {
    const StaffBar& last = plan.bars.back();
    SignatureShapes made;
    if (plan.keyAfter && plan.keyAfter->fifths != last.key.fifths)
        made = keyShapes(*plan.keyAfter, last.key, plan.style.clef, font);
    const bool changesMeter = plan.meterAfter && *plan.meterAfter != last.meter;
    return changesMeter ? withMeter(std::move(made), *plan.meterAfter, font) : made;
}

double courtesyWidth(const SystemPlan& plan, const FontMetrics& font) {
    const double width = courtesyAfter(plan, font).width;
    return width > 0 ? beforeCourtesy + width + behindCourtesy : 0;
}

void drawCourtesy(const SystemPlan& plan, double barLine, Sketch& sketch) {
    sketch.add(courtesyAfter(plan, sketch.metrics()).shapes, {barLine + beforeCourtesy, 0});
}

std::optional<double> openingRepeatPlace(const SystemPlan& plan, const FontMetrics& font) {
    if (!plan.bars.front().repeat.opens) return {};
    return signaturesWidth(plan, font) + font.usual("thickBarlineThickness");
}

double staffStartWidth(const SystemPlan& plan, const FontMetrics& font) {
    const auto repeat = openingRepeatPlace(plan, font);
    if (!repeat) return signaturesWidth(plan, font);
    return *repeat + reachOf(BarLineSign::RepeatStart, font).right + behindRepeat;
}

double drawStaffStart(const SystemPlan& plan, Sketch& sketch) {
    const FontMetrics& font = sketch.metrics();
    const Smufl clef = clefGlyph(plan.style.clef);
    // The G clef curls about the second line from below, the F clef's dots are about the second from above.
    sketch.add(PlacedGlyph{clef, {beforeClef, plan.style.clef == Clef::Bass ? 1.0 : 3.0}, 1, {}});
    sketch.add(signaturesAt(plan, 0, font).shapes, {beforeClef + font.box(clef).right + behindClef, 0});
    return staffStartWidth(plan, font);
}

void drawStaffLines(double right, Sketch& sketch) {
    for (int line = 0; line <= 4; ++line)
        sketch.addLight(PlacedLine{{0, static_cast<double>(line)},
                                   {right, static_cast<double>(line)},
                                   sketch.metrics().usual("staffLineThickness"),
                                   {}});
}

} // namespace earwright
