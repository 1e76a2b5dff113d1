// What an example sheet of a study holds.
#pragma once

#include "core/engraving/EngravingOptions.h"
#include "core/study/Study.h"
#include "ui/page/SheetFile.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace earwright::ui {

/// The choices of a sheet.
struct ExampleWish {
    SheetPaper paper;
    /// Over everything; the study's own where it is not set, none where it is empty.
    std::optional<std::string> title;
    /// The phrases on it; all of the study's where none are named, and the whole line where it has none.
    std::vector<SpanId> phrases;
    /// A line of text under the heading of a phrase.
    std::map<SpanId, std::string> words;
    bool chordSymbols = true;
    /// At least one of them; the tablature alone has its rhythm over it.
    bool staff = true;
    bool tablature = true;
    bool degrees = false;
    /// How fast the recording goes in each phrase.
    bool tempo = true;
    /// Slashes in bars that have chords and no notes.
    bool slashes = false;
    Reading reading = Reading::Concert;
    /// None: treble or bass, by where the line lies.
    std::optional<Clef> clef;
    int barsPerLine = 4;
};

/// The phrases that are on the sheet, in their order: those wished for in which something is written. None:
/// the whole line is.
std::vector<SpanId> examplesOf(const Study& study, const ExampleWish& wish);

/// A sheet laid out, ready to be written.
struct LaidSheet {
    std::vector<EngravedPage> pages;
    std::string title;
    SheetPaper paper;
};

/// Errors: of MusicFont::load() and engravePages(). Threads: any one, once the application was made.
Result<LaidSheet> layOutSheet(const Study& study, const ExampleWish& wish);

/// As writeSheet() does; returns the files. Errors: of MusicFont::load() and writeSheet(). Threads: as above.
Result<std::vector<std::filesystem::path>>
writeLaidSheet(const LaidSheet& sheet, const std::filesystem::path& file, const SheetProgress& goesOn = {});

/// Both in one. Threads: as above.
Result<std::vector<std::filesystem::path>> writeExampleSheet(const Study& study, const ExampleWish& wish,
                                                             const std::filesystem::path& file,
                                                             const SheetProgress& goesOn = {});

/// The study with the sheet's title. Threads: any.
Study titledFor(const Study& study, const ExampleWish& wish);

/// Each phrase under its name, with its bars, staff and tablature; under its number, too, where there are
/// several, which are those of their sounds. Threads: any.
EngravingOptions sheetOptions(const Study& study, const ExampleWish& wish);

} // namespace earwright::ui
