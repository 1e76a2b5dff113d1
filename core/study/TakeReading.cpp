#include "core/study/TakeReading.h"

#include "core/study/Limits.h"
#include "core/study/StudyNumbers.h"

#include <algorithm>
#include <string>
#include <string_view>

namespace earwright {

namespace {

/// A name of a file within one folder, and nothing that leads out of it.
std::string readFileName(const StrictJson& json) {
    const std::string name = json.text();
    if (name.empty() || name == "." || name == ".." || name.find_first_of("/\\") != std::string::npos)
        json.refuse("must be the name of a file without a folder");
    return name;
}

/// "2031-05-04T18:22:07Z", each digit anything from 0 to 9.
std::string readMoment(const StrictJson& json) {
    static constexpr std::string_view pattern = "dddd-dd-ddTdd:dd:ddZ";
    const std::string text = json.text();
    const bool fits = std::equal(text.begin(), text.end(), pattern.begin(), pattern.end(),
                                 [](char c, char p) { return p == 'd' ? c >= '0' && c <= '9' : c == p; });
    if (!fits) json.refuse("must be a moment such as “2031-05-04T18:22:07Z”");
    return text;
}

Take readTake(const StrictJson& json) {
    json.expectMembers({"id", "name", "file", "begin", "end", "at", "speed", "semitones", "recorded"},
                       {"chosen"});
    Take take;
    take.id = TakeId{readId(json["id"])};
    take.name = json["name"].text();
    take.file = readFileName(json["file"]);
    take.part = {Frames(json["begin"].whole(0, largestId)), Frames(json["end"].whole(0, largestId))};
    if (take.part.isEmpty()) json["end"].refuse("must lie after “begin”");
    take.at = readSeconds(json["at"]);
    take.speed = json["speed"].number(slowestTake, fastestTake);
    take.semitones = json["semitones"].number(-13, 13);
    take.recorded = readMoment(json["recorded"]);
    take.chosen = json.has("chosen") && json["chosen"].boolean();
    return take;
}

} // namespace

std::vector<Take> readTakes(const StrictJson& study) {
    std::vector<Take> takes;
    if (!study.has("takes")) return takes;
    bool anyChosen = false;
    for (const StrictJson& item : study["takes"].items()) {
        takes.push_back(readTake(item));
        if (takes.back().chosen && anyChosen) item["chosen"].refuse("is true of two takes");
        anyChosen = anyChosen || takes.back().chosen;
    }
    return takes;
}

} // namespace earwright
