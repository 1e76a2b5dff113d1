#include "app/batch/EarCommand.h"

#include "app/batch/Arguments.h"
#include "core/study/DayText.h"
#include "core/study/EarSummary.h"
#include "core/study/StudyFile.h"
#include "core/study/StudyWords.h"

#include <cstdio>

namespace earwright::batch {

namespace {

void print(const char* group, const std::string& key, const EarCount& count) {
    std::printf("%s\t%s\t%d\t%d\t%d\n", group, key.c_str(), count.all(), count.unaided, count.helped);
}

void print(const EarSummary& summary, EarPeriod period) {
    std::printf("group\tkey\tfound\tunaided\thelped\n");
    print("all", "", summary.all);
    for (const auto& [day, count] : summary.byPeriod)
        print(period == EarPeriod::Week ? "week" : "month", dayText(day), count);
    for (const auto& [semitones, count] : summary.byInterval)
        print("interval", std::to_string(semitones), count);
    for (const auto& [mistake, count] : summary.byMistake)
        print("mistake", mistake ? wordFor(mistakeWords, *mistake) : "none", count);
}

} // namespace

int runEar(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--by"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const std::string by = arguments->text("--by").value_or("week");
    if (by != "week" && by != "month")
        return complain({ErrorKind::OutOfRange, "The option --by takes week or month, not “" + by + "”.", ""},
                        exitUsage);
    const auto study = StudyFile::read(arguments->alone(0));
    if (!study) return complain(study.error(), exitInput);
    const EarPeriod period = by == "week" ? EarPeriod::Week : EarPeriod::Month;
    print(summaryOf(study->earRecord, period), period);
    return exitDone;
}

} // namespace earwright::batch
