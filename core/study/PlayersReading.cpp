#include "core/study/PlayersReading.h"

#include "core/study/StudyNumbers.h"
#include "core/study/StudyWords.h"

namespace earwright {

namespace {

PitchRange readPitchRange(const StrictJson& json) {
    json.expectMembers({"lowest", "highest"});
    const PitchRange range{readInt(json["lowest"], 0, 127), readInt(json["highest"], 0, 127)};
    if (!isRange(range)) json["highest"].refuse("must lie above “lowest”");
    return range;
}

Instrument readInstrument(const StrictJson& json) {
    std::string reason = "must be one of";
    const std::string text = json.text();
    for (const NamedInstrument& named : namedInstruments()) {
        if (text == named.word) return named.instrument;
        reason += std::string(" “") + named.word + "”";
    }
    json.refuse(reason);
    return Instrument::Guitar;
}

} // namespace

Players readPlayers(const StrictJson& json) {
    json.expectMembers({}, {"line", "range", "bass"});
    Players players;
    if (json.has("line") && json.has("range")) json["range"].refuse("must not stand beside “line”");
    if (json.has("line")) players.line = readInstrument(json["line"]);
    if (json.has("range")) players.line = readPitchRange(json["range"]);
    if (json.has("bass")) players.bass = json["bass"].oneOf(stereoPlaceWords);
    return players;
}

} // namespace earwright
