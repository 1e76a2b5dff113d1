#include "ui/page/ExampleSheet.h"

#include "core/engraving/Engraving.h"
#include "core/engraving/Fingering.h"
#include "ui/page/MusicFont.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

PageExcerpt excerptOf(const Study& study, const Span& phrase) {
    const Range<Beats> beats = study.beatsOf(phrase);
    PageExcerpt excerpt = barsAround(study, beats);
    excerpt.only = beats;
    excerpt.heading = phrase.name;
    const double bpm = 60.0 * (beats.end - beats.begin).toDouble() / phrase.range.length().value;
    if (std::isfinite(bpm)) excerpt.words = "about " + std::to_string(std::lround(bpm)) + " beats a minute";
    return excerpt;
}

} // namespace

Result<std::vector<std::filesystem::path>> writeExampleSheet(const Study& study, const SheetWish& wish,
                                                             const std::filesystem::path& file) {
    const auto font = MusicFont::load();
    if (!font) return font.error();
    const auto pages = engravePages(study, sheetOptions(study, wish), (*font)->metrics());
    if (!pages) return pages.error();
    return writeSheet(*pages, study.title, wish.paper, **font, file);
}

EngravingOptions sheetOptions(const Study& study, const SheetWish& wish) {
    EngravingOptions options;
    options.pageWidth = wish.paper.width / wish.paper.space;
    options.pageHeight = wish.paper.height / wish.paper.space;
    options.barsPerLine = wish.barsPerLine;
    options.reading = wish.reading;
    options.degrees = wish.degrees;
    if (study.beatMap.hasTempo())
        for (const Span& phrase : study.spansOf(SpanKind::Phrase)) {
            const bool isWanted = wish.phrases.empty() || std::find(wish.phrases.begin(), wish.phrases.end(),
                                                                    phrase.id) != wish.phrases.end();
            if (isWanted && !study.notesIn(study.beatsOf(phrase)).empty())
                options.excerpts.push_back(excerptOf(study, phrase));
        }
    if (wish.tablature) {
        options.strings = static_cast<int>(wish.tuning.strings.size());
        options.places = fingered(study.notes, wish.tuning).places;
    }
    return options;
}

} // namespace earwright::ui
