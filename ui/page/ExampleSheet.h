// What an example sheet of a study holds.
#pragma once

#include "core/engraving/EngravingOptions.h"
#include "core/engraving/StringTuning.h"
#include "core/study/Study.h"
#include "ui/page/SheetFile.h"

#include <vector>

namespace earwright::ui {

/// The choices of a sheet.
struct SheetWish {
    SheetPaper paper;
    /// The phrases on it; all of the study's where none are named, and the whole line where it has none.
    std::vector<SpanId> phrases;
    bool tablature = true;
    bool degrees = false;
    StringTuning tuning;
    Reading reading = Reading::Concert;
    int barsPerLine = 4;
};

/// Lays the sheet out and writes it as writeSheet() does; returns the files. Errors: of MusicFont::load(),
/// engravePages() and writeSheet(). Threads: interface only.
Result<std::vector<std::filesystem::path>> writeExampleSheet(const Study& study, const SheetWish& wish,
                                                             const std::filesystem::path& file);

/// Each phrase under its name, with its bars, staff and tablature. Threads: any.
EngravingOptions sheetOptions(const Study& study, const SheetWish& wish);

} // namespace earwright::ui
