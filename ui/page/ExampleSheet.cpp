#include "ui/page/ExampleSheet.h"

#include "core/engraving/Engraving.h"
#include "core/engraving/Fingering.h"
#include "ui/page/MusicFont.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

PageExcerpt excerptOf(const Study& study, const Span& phrase, const ExampleWish& wish) {
    const Range<Beats> beats = study.beatsOf(phrase);
    PageExcerpt excerpt = barsAround(study, beats);
    excerpt.only = beats;
    excerpt.heading = phrase.name;
    if (const auto words = wish.words.find(phrase.id); words != wish.words.end())
        excerpt.words = words->second;
    const double bpm = 60.0 * (beats.end - beats.begin).toDouble() / phrase.range.length().value;
    if (wish.tempo && std::isfinite(bpm)) excerpt.beatsPerMinute = std::round(bpm);
    return excerpt;
}

} // namespace

Result<std::vector<std::filesystem::path>> writeExampleSheet(const Study& study, const ExampleWish& wish,
                                                             const std::filesystem::path& file,
                                                             const SheetProgress& goesOn) {
    const auto font = MusicFont::load();
    if (!font) return font.error();
    const Study titled = titledFor(study, wish);
    const auto pages = engravePages(titled, sheetOptions(titled, wish), (*font)->metrics());
    if (!pages) return pages.error();
    return writeSheet(*pages, titled.title, wish.paper, **font, file, goesOn);
}

Study titledFor(const Study& study, const ExampleWish& wish) {
    Study titled = study;
    if (wish.title) titled.title = *wish.title;
    return titled;
}

EngravingOptions sheetOptions(const Study& study, const ExampleWish& wish) {
    EngravingOptions options;
    options.pageWidth = wish.paper.width / wish.paper.space;
    options.pageHeight = wish.paper.height / wish.paper.space;
    options.barsPerLine = wish.barsPerLine;
    options.reading = wish.reading;
    options.clef = wish.clef;
    options.chordSymbols = wish.chordSymbols;
    options.degrees = wish.degrees;
    options.tempos = wish.tempo;
    options.slashes = wish.slashes;
    if (study.beatMap.hasTempo())
        for (const Span& phrase : study.spansOf(SpanKind::Phrase)) {
            const bool isWanted = wish.phrases.empty() || std::find(wish.phrases.begin(), wish.phrases.end(),
                                                                    phrase.id) != wish.phrases.end();
            if (isWanted && !study.notesIn(study.beatsOf(phrase)).empty())
                options.excerpts.push_back(excerptOf(study, phrase, wish));
        }
    if (wish.tablature) {
        options.strings = static_cast<int>(study.tuning.strings.size());
        options.places = fingered(study.notes, study.tuning).places;
    }
    return options;
}

} // namespace earwright::ui
