#include "ui/page/ExampleSheet.h"

#include "core/engraving/Engraving.h"
#include "core/engraving/Fingering.h"
#include "ui/page/MusicFont.h"

#include <QCoreApplication>
#include <QString>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

/// `number`: from 1; 0 for the only one.
QString headingOf(const Span& phrase, std::size_t number) {
    const QString name = QString::fromStdString(phrase.name);
    if (number == 0) return name;
    if (name.isEmpty()) return QCoreApplication::translate("ExampleSheet", "Example %1").arg(number);
    return QCoreApplication::translate("ExampleSheet", "%1. %2").arg(number).arg(name);
}

PageExcerpt excerptOf(const Study& study, const Span& phrase, std::size_t number, const ExampleWish& wish) {
    const Range<Beats> beats = study.beatsOf(phrase);
    PageExcerpt excerpt = barsAround(study, beats);
    excerpt.only = beats;
    excerpt.heading = headingOf(phrase, number).toStdString();
    if (const auto words = wish.words.find(phrase.id); words != wish.words.end())
        excerpt.words = words->second;
    const double bpm = 60.0 * (beats.end - beats.begin).toDouble() / phrase.range.length().value;
    if (wish.tempo && std::isfinite(bpm)) excerpt.beatsPerMinute = std::round(bpm);
    return excerpt;
}

} // namespace

std::vector<SpanId> examplesOf(const Study& study, const ExampleWish& wish) {
    std::vector<SpanId> examples;
    if (!study.beatMap.hasTempo()) return examples;
    for (const Span& phrase : study.spansOf(SpanKind::Phrase)) {
        const bool isWanted = wish.phrases.empty() || std::find(wish.phrases.begin(), wish.phrases.end(),
                                                                phrase.id) != wish.phrases.end();
        if (isWanted && !study.notesIn(study.beatsOf(phrase)).empty()) examples.push_back(phrase.id);
    }
    return examples;
}

Result<LaidSheet> layOutSheet(const Study& study, const ExampleWish& wish) {
    const auto font = MusicFont::load();
    if (!font) return font.error();
    const Study titled = titledFor(study, wish);
    auto pages = engravePages(titled, sheetOptions(titled, wish), (*font)->metrics());
    if (!pages) return pages.error();
    return LaidSheet{*std::move(pages), titled.title, wish.paper};
}

Result<std::vector<std::filesystem::path>>
writeLaidSheet(const LaidSheet& sheet, const std::filesystem::path& file, const SheetProgress& goesOn) {
    const auto font = MusicFont::load();
    if (!font) return font.error();
    return writeSheet(sheet.pages, sheet.title, sheet.paper, **font, file, goesOn);
}

Result<std::vector<std::filesystem::path>> writeExampleSheet(const Study& study, const ExampleWish& wish,
                                                             const std::filesystem::path& file,
                                                             const SheetProgress& goesOn) {
    const auto sheet = layOutSheet(study, wish);
    if (!sheet) return sheet.error();
    return writeLaidSheet(*sheet, file, goesOn);
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
    options.staff = wish.staff;
    options.degrees = wish.degrees;
    options.tempos = wish.tempo;
    options.slashes = wish.slashes;
    const std::vector<SpanId> examples = examplesOf(study, wish);
    for (std::size_t i = 0; i < examples.size(); ++i)
        options.excerpts.push_back(
            excerptOf(study, *study.span(examples[i]), examples.size() > 1 ? i + 1 : 0, wish));
    if (wish.tablature) {
        options.strings = static_cast<int>(study.tuning.strings.size());
        options.places = fingered(study.notes, study.tuning, LineTime(study)).places;
    }
    return options;
}

} // namespace earwright::ui
