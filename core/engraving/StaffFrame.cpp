#include "core/engraving/StaffFrame.h"

#include "core/engraving/SignatureLayout.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double beforeClef = 0.6;
constexpr double behindClef = 0.9;
constexpr double behindSignature = 1.4;

Smufl clefGlyph(Clef clef) {
    return clef == Clef::Treble ? Smufl::GClef : Smufl::FClef;
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
    if (meterBefore == head.meter) return made;
    if (made.width > 0) made.width += behindClef * 0.6;
    const SignatureShapes meter = meterShapes(head.meter, font);
    made.shapes.append(meter.shapes, {made.width, 0});
    made.width += meter.width;
    return made;
}

double staffStartWidth(const SystemPlan& plan, const FontMetrics& font) {
    const double clef = beforeClef + font.box(clefGlyph(plan.style.clef)).right + behindClef;
    const double signatures = signaturesAt(plan, 0, font).width;
    return signatures > 0 ? clef + signatures + behindSignature : clef;
}

double drawStaffStart(const SystemPlan& plan, Sketch& sketch) {
    const FontMetrics& font = sketch.metrics();
    const Smufl clef = clefGlyph(plan.style.clef);
    // The G clef curls about the second line from below, the F clef's dots are about the second from above.
    sketch.add(PlacedGlyph{clef, {beforeClef, plan.style.clef == Clef::Treble ? 3.0 : 1.0}, 1, {}});
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

void drawBarLines(const std::vector<double>& places, double top, double bottom, bool isFinal,
                  Sketch& sketch) {
    const FontMetrics& font = sketch.metrics();
    const double half = font.usual("staffLineThickness") / 2;
    const auto draw = [&](double right, double thickness) {
        const double x = right - thickness / 2;
        sketch.addLight(PlacedLine{{x, top - half}, {x, bottom + half}, thickness, {}});
    };
    const double thin = font.usual("thinBarlineThickness");
    const double thick = font.usual("thickBarlineThickness");
    for (const double place : places) {
        const bool endsAll = isFinal && place == places.back();
        if (endsAll) draw(place, thick);
        draw(endsAll ? place - thick - font.usual("barlineSeparation") : place, thin);
    }
}

} // namespace earwright
