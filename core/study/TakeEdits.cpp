#include "core/study/TakeEdits.h"

#include "core/study/Limits.h"

#include <algorithm>
#include <cassert>

namespace earwright {

namespace {

void chooseOnly(std::vector<Take>& takes, const Take* chosen) {
    for (Take& take : takes)
        take.chosen = &take == chosen;
}

/// One more than the highest number given so far.
int nextNumber(const std::vector<Take>& takes) {
    int highest = 0;
    for (const Take& take : takes) {
        constexpr std::string_view stem = "take ";
        if (!take.name.starts_with(stem) || take.name.size() > stem.size() + 6) continue;
        const std::string digits = take.name.substr(stem.size());
        if (digits.empty() || digits.find_first_not_of("0123456789") != std::string::npos) continue;
        highest = std::max(highest, std::stoi(digits));
    }
    return highest + 1;
}

} // namespace

Study addTakes(const Study& study, const std::vector<Take>& recorded) {
    Study edited = study;
    edited.takes.reserve(edited.takes.size() + recorded.size());
    for (const Take& fresh : recorded) {
        assert(isWithinLimits(fresh.at) && !fresh.part.isEmpty() && !fresh.file.empty());
        Take take = fresh;
        take.id = TakeId{edited.nextId++};
        if (take.name.empty()) take.name = "take " + std::to_string(nextNumber(edited.takes));
        edited.takes.push_back(take);
        if (take.chosen) chooseOnly(edited.takes, &edited.takes.back());
    }
    return edited;
}

Study chooseTake(const Study& study, std::optional<TakeId> id) {
    Study edited = study;
    const Take* chosen = id ? edited.take(*id) : nullptr;
    if (id && !chosen) return study;
    chooseOnly(edited.takes, chosen);
    return edited;
}

Study renameTake(const Study& study, TakeId id, const std::string& name) {
    Study edited = study;
    for (Take& take : edited.takes)
        if (take.id == id) take.name = name;
    return edited;
}

Study removeTake(const Study& study, TakeId id) {
    Study edited = study;
    std::erase_if(edited.takes, [&](const Take& take) { return take.id == id; });
    return edited;
}

} // namespace earwright
