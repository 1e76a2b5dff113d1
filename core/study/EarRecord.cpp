#include "core/study/EarRecord.h"

namespace earwright {

namespace {

template <class Condition>
int countPlaces(const EarRecord& record, Condition condition) {
    int count = 0;
    for (const PhraseRecord& phrase : record.phrases)
        for (const EarPlace& place : phrase.places)
            count += condition(place) ? 1 : 0;
    return count;
}

} // namespace

int EarRecord::foundByEar() const {
    return countPlaces(*this, [](const EarPlace& place) { return place.foundByEar(); });
}

int EarRecord::foundWithHelp() const {
    return countPlaces(*this, [](const EarPlace& place) { return place.settled && !place.foundByEar(); });
}

} // namespace earwright
