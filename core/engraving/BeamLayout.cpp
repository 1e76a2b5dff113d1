#include "core/engraving/BeamLayout.h"

#include "core/engraving/Extent.h"
#include "core/engraving/StemLayout.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace earwright {

namespace {

constexpr double shortestStem = 3.25;
constexpr double middleLine = 2;
constexpr double steepest = 1;
/// Of a narrow group: rise per width.
constexpr double steepestNarrow = 0.22;
constexpr double hookLength = 1.1;
/// Between a beam and what stands under it beside the heads.
constexpr double beamClearance = 0.1;
/// Stem and flag of a grace note over its head.
constexpr double graceStemRoom = 2.4;

/// One group of pieces under one beam, mirrored so that stems point up: heights grow towards the beam.
class BeamGroup {
public:
    BeamGroup(std::span<LaidPiece> group, Sketch& onto)
        : pieces(group), sketch(onto), font(onto.metrics()), up(group.front().piece.stemUp) {}

    void draw() {
        for (LaidPiece& laid : pieces)
            laid.stem = stemTo(laid, 0, font);
        findLine();
        for (LaidPiece& laid : pieces) {
            laid.stem->endY = yAt(laid.stem->x);
            drawStem(laid, sketch);
        }
        for (std::size_t level = 0; level < mostBeams(); ++level)
            drawLevel(level);
    }

private:
    double width() const { return pieces.back().stem->x - pieces.front().stem->x; }
    double yAt(double x) const {
        return startY + (width() > 0 ? rise * (x - pieces.front().stem->x) / width() : 0);
    }
    std::size_t mostBeams() const {
        std::size_t most = 0;
        for (const LaidPiece& laid : pieces)
            most = std::max(most, laid.piece.beams.size());
        return most;
    }
    double leastStem(const LaidPiece& laid) const {
        const double step = font.usual("beamThickness") + font.usual("beamSpacing");
        const auto beams = static_cast<double>(laid.piece.beams.size());
        return shortestStem + step * std::max(0.0, beams - 2);
    }

    /// y of the outer edge at both ends.
    void findLine() {
        std::vector<int> positions;
        for (const LaidPiece& laid : pieces)
            positions.push_back(up ? laid.piece.heads.back().position : laid.piece.heads.front().position);
        rise = -beamRise(positions, up, width());
        const double sign = up ? -1 : 1;
        startY = up ? 1e9 : -1e9;
        for (const LaidPiece& laid : pieces) {
            const double head = up ? laid.highestY() : laid.lowestY();
            const double fromStart = yAt(laid.stem->x) - startY;
            moveOut(head + sign * leastStem(laid) - fromStart);
        }
        clearWhatStandsBetween();
        const double nearest = up ? std::max(startY, startY + rise) : std::min(startY, startY + rise);
        if (up ? nearest > middleLine : nearest < middleLine) startY += middleLine - nearest;
        const double endY = snapped(startY + rise);
        startY = snapped(startY);
        rise = endY - startY;
    }

    void moveOut(double needed) { startY = up ? std::min(startY, needed) : std::max(startY, needed); }

    /// Accidentals and grace notes between two stems stay clear of the beams over them.
    void clearWhatStandsBetween() {
        const double step = font.usual("beamThickness") + font.usual("beamSpacing");
        const double sign = up ? -1 : 1;
        for (std::size_t i = 1; i < pieces.size(); ++i) {
            const auto beams = std::max(pieces[i].piece.beams.size(), pieces[i - 1].piece.beams.size());
            const double thick = step * static_cast<double>(beams) + beamClearance;
            for (const PlacedGlyph& glyph : pieces[i].shape.shapes.glyphs) {
                const PageBox box = boxOf(glyph, font).moved({pieces[i].x, 0});
                const bool isGrace = glyph.scale != 1;
                const double stem = isGrace && up ? graceStemRoom : 0;
                const double fromStart = yAt((box.left + box.right) / 2) - startY;
                moveOut((up ? box.top - stem : box.bottom) + sign * thick - fromStart);
            }
        }
    }

    /// The nearest place further out at which the beam sits on a line, hangs from it or straddles it.
    double snapped(double y) const {
        const double fromTop = up ? y : 4 - y;
        if (fromTop < -0.7 || fromTop > 4) return y;
        const double half = font.usual("staffLineThickness") / 2;
        const double high = font.usual("beamThickness");
        // Outer edge from a line: hanging, straddling, sitting.
        const std::array<double, 3> fits{-half, -high / 2, half - high};
        double best = -1e9;
        for (const double fit : fits)
            best = std::max(best, std::floor(fromTop - fit + 1e-9) + fit);
        return up ? best : 4 - best;
    }

    void drawLevel(std::size_t level) {
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const std::vector<std::string>& beams = pieces[i].piece.beams;
            if (level >= beams.size()) continue;
            if (beams[level] == "begin") drawBeam(level, pieces[i].stem->x, pieces[endOf(level, i)].stem->x);
            if (beams[level] == "forward hook") drawBeam(level, pieces[i].stem->x, hookEnd(i, 1));
            if (beams[level] == "backward hook") drawBeam(level, hookEnd(i, -1), pieces[i].stem->x);
        }
    }

    std::size_t endOf(std::size_t level, std::size_t from) const {
        std::size_t end = from + 1;
        while (end + 1 < pieces.size() && level < pieces[end].piece.beams.size() &&
               pieces[end].piece.beams[level] != "end")
            ++end;
        return std::min(end, pieces.size() - 1);
    }

    double hookEnd(std::size_t i, int direction) const {
        const std::size_t next = direction > 0 ? i + 1 : i - 1;
        const double room = std::abs(pieces[next].stem->x - pieces[i].stem->x) / 2;
        return pieces[i].stem->x + direction * std::min(hookLength, room);
    }

    void drawBeam(std::size_t level, double left, double right) {
        const double sign = up ? 1 : -1;
        const double high = font.usual("beamThickness");
        const double offset = sign * static_cast<double>(level) * (high + font.usual("beamSpacing"));
        const double half = font.usual("stemThickness") / 2;
        const double yLeft = yAt(left) + offset;
        const double yRight = yAt(right) + offset;
        sketch.add(PlacedBeam{{{{left - half, yLeft},
                                {right + half, yRight},
                                {right + half, yRight + sign * high},
                                {left - half, yLeft + sign * high}}}});
    }

    std::span<LaidPiece> pieces;
    Sketch& sketch;
    const FontMetrics& font;
    bool up;
    double startY = 0;
    double rise = 0;
};

} // namespace

double beamRise(const std::vector<int>& positions, bool stemUp, double width) {
    const int first = positions.front();
    const int last = positions.back();
    if (first == last) return 0;
    for (std::size_t i = 1; i + 1 < positions.size(); ++i) {
        const bool isNearest =
            stemUp ? positions[i] >= std::max(first, last) : positions[i] <= std::min(first, last);
        if (isNearest) return 0;
    }
    const double size = std::min({std::abs(last - first) * 0.25, steepest, width * steepestNarrow});
    return last > first ? size : -size;
}

void layOutBeams(LaidLine& line, Sketch& sketch) {
    for (std::size_t first = 0; first < line.size(); ++first) {
        const std::vector<std::string>& beams = line[first].piece.beams;
        if (beams.empty() || beams.front() != "begin") continue;
        std::size_t last = first + 1;
        while (last + 1 < line.size() && line[last].piece.beams.front() != "end")
            ++last;
        BeamGroup(std::span(line).subspan(first, last - first + 1), sketch).draw();
    }
}

} // namespace earwright
