#include "app/batch/ListeningOptions.h"

#include "app/batch/FocusWords.h"
#include "app/batch/RangeWords.h"

#include <cmath>

namespace earwright::batch {

Result<ListeningWish> wishIn(const Arguments& arguments) {
    ListeningWish wish;
    const auto band = arguments.twoNumbers("--band", Band::lowestHertz, Band::highestHertz);
    if (!band) return band.error();
    if (*band) wish.part.band = Band{(*band)->first, (*band)->second};
    if (const auto range = arguments.text("--range")) {
        const auto line = rangeNamed(*range);
        if (!line) return line.error();
        wish.line = *line;
    }
    const auto word = arguments.text("--focus");
    if (!word) return wish;
    const auto focus = focusNamed(*word);
    if (!focus)
        return Error{ErrorKind::OutOfRange,
                     "The option --focus takes all, left, right, centre or sides, not “" + *word + "”.", ""};
    wish.part.focus = *focus;
    return wish;
}

std::string wordFor(const HeardPart& part) {
    std::string word(nameOf(part.focus));
    if (part.band)
        word += ' ' + std::to_string(std::lround(part.band->lowHertz)) + '-' +
                std::to_string(std::lround(part.band->highHertz));
    return word;
}

} // namespace earwright::batch
