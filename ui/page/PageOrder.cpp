#include "ui/page/PageOrder.h"

#include "core/engraving/Engraving.h"
#include "core/engraving/Fingering.h"

namespace earwright::ui {

Result<std::vector<EngravedSystem>> laidOut(const PageOrder& order) {
    const Study& study = *order.study;
    EngravingOptions options;
    options.margin = 0;
    options.pageWidth = order.width;
    options.barsPerLine = order.wish.barsPerLine;
    options.reading = order.wish.reading;
    options.clef = order.wish.clef;
    options.chordSymbols = order.wish.chordSymbols;
    options.degrees = order.wish.degrees;
    if (order.wish.tablature) {
        options.strings = static_cast<int>(study.tuning.strings.size());
        options.places = fingered(study.notesIn(order.bars), study.tuning, LineTime(study)).places;
    }
    return engraveSystems(study, barsAround(study, order.bars), options, *order.font);
}

} // namespace earwright::ui
