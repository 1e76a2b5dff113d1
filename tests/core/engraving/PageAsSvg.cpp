#include "PageAsSvg.h"

#include <sstream>
#include <string>

namespace earwright {
namespace {

std::string utf8(char32_t c) {
    return {static_cast<char>(0xE0 | (c >> 12)), static_cast<char>(0x80 | ((c >> 6) & 0x3F)),
            static_cast<char>(0x80 | (c & 0x3F))};
}

const char* anchorOf(TextAnchor anchor) {
    return anchor == TextAnchor::Left ? "start" : anchor == TextAnchor::Centre ? "middle" : "end";
}

void write(std::ostream& out, const PlacedCurve& curve) {
    const auto& p = curve.points;
    const double apart = (curve.midThickness - curve.endThickness) * 2 / 3;
    const PagePoint by{curve.across().x * apart, curve.across().y * apart};
    const PagePoint back{-by.x, -by.y};
    const auto text = [](const PagePoint& at) { return std::to_string(at.x) + ' ' + std::to_string(at.y); };
    out << "<path d='M" << text(p[0]) << " C" << text(p[1] + back) << ' ' << text(p[2] + back) << ' '
        << text(p[3]) << " C" << text(p[2] + by) << ' ' << text(p[1] + by) << ' ' << text(p[0])
        << "Z' stroke='black' stroke-width='" << curve.endThickness << "' stroke-linejoin='round'/>\n";
}

} // namespace

std::string pageAsSvg(const EngravedPage& page) {
    std::ostringstream out;
    out << "<svg xmlns='http://www.w3.org/2000/svg' width='" << page.width * 10 << "' height='"
        << page.height * 10 << "' viewBox='0 0 " << page.width << ' ' << page.height << "'>\n"
        << "<rect width='100%' height='100%' fill='white'/>\n";
    for (const PlacedLine& line : page.shapes.lines)
        out << "<line x1='" << line.from.x << "' y1='" << line.from.y << "' x2='" << line.to.x << "' y2='"
            << line.to.y << "' stroke='black' stroke-width='" << line.thickness << "'/>\n";
    for (const PlacedBeam& beam : page.shapes.beams) {
        out << "<polygon points='";
        for (const PagePoint& corner : beam.corners)
            out << corner.x << ',' << corner.y << ' ';
        out << "'/>\n";
    }
    for (const PlacedCurve& curve : page.shapes.curves)
        write(out, curve);
    for (const PlacedGlyph& glyph : page.shapes.glyphs)
        out << "<text font-family='Bravura' font-size='" << 4 * glyph.scale << "' x='" << glyph.at.x
            << "' y='" << glyph.at.y << "'>" << utf8(static_cast<char32_t>(glyph.glyph)) << "</text>\n";
    for (const PlacedText& text : page.shapes.texts)
        out << "<text font-family='Liberation Sans,Nimbus Sans,DejaVu Sans' font-size='" << text.size
            << "' x='" << text.at.x << "' y='" << text.at.y << "' text-anchor='" << anchorOf(text.anchor)
            << "'>" << text.text << "</text>\n";
    out << "</svg>\n";
    return out.str();
}

} // namespace earwright
