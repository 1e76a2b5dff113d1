#include "core/engraving/StaffFrame.h"

#include "core/engraving/BarLines.h"
#include "core/engraving/SignatureLayout.h"
#include "core/engraving/TabFrame.h"

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

SignatureShapes meterOf(const Meter& meter, const SystemPlan& plan, const FontMetrics& font) {
    return meterShapes(meter, plan.style.staff ? 1 : tabMeterScale(plan.strings), font);
}

SignatureShapes withMeter(SignatureShapes key, const Meter& meter, const SystemPlan& plan,
                          const FontMetrics& font) {
    if (key.width > 0) key.width += behindClef * 0.6;
    const SignatureShapes shapes = meterOf(meter, plan, font);
    key.shapes.append(shapes.shapes, {key.width, 0});
    key.width += shapes.width;
    return key;
}

/// Where signatures begin behind the clef, the tablature's where it stands alone.
double behindClefs(const SystemPlan& plan, const FontMetrics& font) {
    if (plan.style.staff) return beforeClef + font.box(clefGlyph(plan.style.clef)).right + behindClef;
    const TabClef clef = tabClef(plan.strings);
    return tabClefLeft + font.box(clef.glyph).right * clef.scale + behindClef;
}

double signaturesWidth(const SystemPlan& plan, const FontMetrics& font) {
    const double clef = behindClefs(plan, font);
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
    if (plan.style.staff && (startsLine || before.fifths != head.key.fifths))
        made = keyShapes(head.key, before, plan.style.clef, font);
    return meterBefore == head.meter ? made : withMeter(std::move(made), head.meter, plan, font);
}

SignatureShapes courtesyAfter(const SystemPlan& plan, const FontMetrics& font) {
    const StaffBar& last = plan.bars.back();
    SignatureShapes made;
    if (plan.style.staff && plan.keyAfter && plan.keyAfter->fifths != last.key.fifths)
        made = keyShapes(*plan.keyAfter, last.key, plan.style.clef, font);
    const bool changesMeter = plan.meterAfter && *plan.meterAfter != last.meter;
    return changesMeter ? withMeter(std::move(made), *plan.meterAfter, plan, font) : made;
}

double courtesyWidth(const SystemPlan& plan, const FontMetrics& font) {
    const double width = courtesyAfter(plan, font).width;
    return width > 0 ? beforeCourtesy + width + behindCourtesy : 0;
}

PlacedShapes courtesyShapes(const SystemPlan& plan, double barLine, const FontMetrics& font) {
    PlacedShapes made;
    made.append(courtesyAfter(plan, font).shapes, {barLine + beforeCourtesy, 0});
    return made;
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

double meterPlace(const SystemPlan& plan, const FontMetrics& font) {
    return behindClefs(plan, font) + signaturesAt(plan, 0, font).width -
           meterOf(plan.bars.front().meter, plan, font).width;
}

PlacedShapes staffStart(const SystemPlan& plan, const FontMetrics& font) {
    PlacedShapes made;
    // The G clef curls about the second line from below, the F clef's dots are about the second from above.
    if (plan.style.staff)
        made.glyphs.push_back(
            {clefGlyph(plan.style.clef), {beforeClef, plan.style.clef == Clef::Bass ? 1.0 : 3.0}, 1, {}});
    made.append(signaturesAt(plan, 0, font).shapes, {behindClefs(plan, font), 0});
    return made;
}

void drawStaffLines(double right, Sketch& sketch) {
    for (int line = 0; line <= 4; ++line)
        sketch.addLight(PlacedLine{{0, static_cast<double>(line)},
                                   {right, static_cast<double>(line)},
                                   sketch.metrics().usual("staffLineThickness"),
                                   {}});
}

} // namespace earwright
