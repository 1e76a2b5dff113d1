// An example sheet as a file: PDF, SVG or PNG.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/result/Result.h"
#include "ui/page/MusicFont.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace earwright::ui {

/// The paper of a sheet, in millimetres.
struct SheetPaper {
    double width = 210;
    double height = 297;
    /// Of one staff space: 1.75 mm makes a staff of 7 mm, common for parts.
    double space = 1.75;
};

/// The two papers that are in use: ISO 216 A4, and ANSI/ASME Y14.1 size A, called Letter.
inline constexpr SheetPaper a4Paper{};
inline constexpr SheetPaper letterPaper{215.9, 279.4, 1.75};

/// Told the share of the work done, 0 to 1, between pages; false calls the work off.
using SheetProgress = std::function<bool(double)>;

/// The files that so many pages make: `.pdf` is one for all of them; of `.svg` and `.png` there is one a
/// page, the first as it is named, further ones beside it as NAME-page-2 and so on. Error: Unsupported for
/// another extension.
Result<std::vector<std::filesystem::path>> sheetFiles(const std::filesystem::path& file, std::size_t pages);

/// Writes pages into sheetFiles(). Vector but for PNG (300 dots to the inch); texts in embedded fonts or,
/// in SVG, named ones. Files are written whole or not at all.
///
/// Errors: of sheetFiles(), NotWritable, Cancelled (pictures of earlier pages stay).
/// Threads: the font's.
Result<std::vector<std::filesystem::path>> writeSheet(const std::vector<EngravedPage>& pages,
                                                      const std::string& title, const SheetPaper& paper,
                                                      MusicFont& font, const std::filesystem::path& file,
                                                      const SheetProgress& goesOn = {});

} // namespace earwright::ui
