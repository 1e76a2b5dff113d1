// The moments of one line as columns, with the shapes that stand in them.
#pragma once

#include "core/engraving/Columns.h"
#include "core/engraving/FontMetrics.h"
#include "core/engraving/LaidPiece.h"
#include "core/engraving/SignatureLayout.h"
#include "core/engraving/SignedText.h"
#include "core/engraving/SystemPlan.h"

#include <utility>
#include <vector>

namespace earwright {

inline constexpr double chordSize = 2.7;
inline constexpr double degreeSize = 1.7;

/// A chord symbol, and the column it stands over.
struct ColumnChord {
    std::size_t column = 0;
    SignedText text;
};

struct SystemColumns {
    std::vector<Column> columns;
    /// Every piece of the line, without places yet, and the column of each.
    LaidLine pieces;
    /// The same as the rhythm over tablature; none where there is a staff.
    LaidLine rhythm;
    std::vector<std::size_t> pieceColumns;
    std::vector<ColumnChord> chords;
    /// Bars that begin with a change of key or meter, and the column of that.
    std::vector<std::pair<std::size_t, SignatureShapes>> changes;
    /// The column of the bar line that ends each bar.
    std::vector<std::size_t> barLines;
};

/// Nothing is written in it.
bool isRestBar(const StaffBar& bar);
/// Its beats are drawn as slashes, so many.
bool showsSlashes(const SystemPlan& plan, const StaffBar& bar);
int slashesOf(const StaffBar& bar);

/// Threads: any.
SystemColumns systemColumns(const SystemPlan& plan, const FontMetrics& font);

} // namespace earwright
