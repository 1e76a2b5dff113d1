#include "core/engraving/StaffFrame.h"

#include <algorithm>
#include <string>

namespace earwright {

namespace {

constexpr double beforeClef = 0.6;
constexpr double behindClef = 0.9;
constexpr double behindMeter = 1.4;

double digitsWidth(const std::string& digits, const FontMetrics& font) {
    double width = 0;
    for (const char digit : digits)
        width += font.box(digitOf(Smufl::TimeSig0, digit - '0')).right;
    return width;
}

void drawDigits(const std::string& digits, double middle, double y, Sketch& sketch) {
    double x = middle - digitsWidth(digits, sketch.metrics()) / 2;
    for (const char letter : digits) {
        const Smufl digit = digitOf(Smufl::TimeSig0, letter - '0');
        sketch.add(PlacedGlyph{digit, {x, y}, 1, {}});
        x += sketch.metrics().box(digit).right;
    }
}

Smufl clefGlyph(Clef clef) {
    return clef == Clef::Treble ? Smufl::GClef : Smufl::FClef;
}

double meterWidth(const Meter& meter, const FontMetrics& font) {
    return std::max(digitsWidth(std::to_string(meter.beatsPerBar), font),
                    digitsWidth(std::to_string(meter.beatUnit), font));
}

} // namespace

double staffStartWidth(const SystemPlan& plan, const FontMetrics& font) {
    double x = beforeClef + font.box(clefGlyph(plan.style.clef)).right + behindClef;
    if (plan.meter) x += meterWidth(*plan.meter, font) + behindMeter;
    return x;
}

double drawStaffStart(const SystemPlan& plan, Sketch& sketch) {
    const FontMetrics& font = sketch.metrics();
    const Smufl clef = clefGlyph(plan.style.clef);
    // The G clef curls about the second line from below, the F clef's dots are about the second from above.
    sketch.add(PlacedGlyph{clef, {beforeClef, plan.style.clef == Clef::Treble ? 3.0 : 1.0}, 1, {}});
    if (plan.meter) {
        const double middle =
            beforeClef + font.box(clef).right + behindClef + meterWidth(*plan.meter, font) / 2;
        drawDigits(std::to_string(plan.meter->beatsPerBar), middle, 1, sketch);
        drawDigits(std::to_string(plan.meter->beatUnit), middle, 3, sketch);
    }
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
