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

/// Lays the sheet out and writes it as writeSheet() does; returns the files. Errors: of MusicFont::load(),
/// engravePages() and writeSheet(). Threads: any one, once the application was made.
Result<std::vector<std::filesystem::path>> writeExampleSheet(const Study& study, const ExampleWish& wish,
                                                             const std::filesystem::path& file,
                                                             const SheetProgress& goesOn = {});

/// The study with the sheet's title. Threads: any.
Study titledFor(const Study& study, const ExampleWish& wish);

/// Each phrase under its name, with its bars, staff and tablature. Threads: any.
EngravingOptions sheetOptions(const Study& study, const ExampleWish& wish);

} // namespace earwright::ui
