#include "core/engraving/LedgerLines.h"

#include "core/engraving/PieceShape.h"

#include <algorithm>

namespace earwright {

namespace {

/// Staff positions of the lines.
std::vector<int> positionsOf(const std::vector<StaffHead>& heads) {
    int highest = 0;
    int lowest = 0;
    for (const StaffHead& head : heads) {
        highest = std::max(highest, head.position);
        lowest = std::min(lowest, head.position);
    }
    std::vector<int> positions;
    for (int position = 6; position <= highest; position += 2)
        positions.push_back(position);
    for (int position = -6; position >= lowest; position -= 2)
        positions.push_back(position);
    return positions;
}

} // namespace

std::vector<PlacedLine> ledgerLines(const std::vector<StaffHead>& heads, double left, double right,
                                    const std::vector<PageBox>& accidentals, double scale,
                                    const FontMetrics& font) {
    const double beyond = font.usual("legerLineExtension") * scale;
    const double thickness = font.usual("legerLineThickness");
    std::vector<PlacedLine> lines;
    for (const int position : positionsOf(heads)) {
        const double y = yOfPosition(position);
        double from = left - beyond;
        for (const PageBox& sign : accidentals)
            if (sign.top < y + thickness / 2 && sign.bottom > y - thickness / 2)
                from = std::max(from, (sign.right + left) / 2);
        lines.push_back({{from, y}, {right + beyond, y}, thickness, {}});
    }
    return lines;
}

} // namespace earwright
