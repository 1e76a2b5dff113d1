#include "core/listening/PassageShelf.h"

#include "core/listening/EvidenceBytes.h"

#include <algorithm>
#include <bit>
#include <cstdint>

namespace earwright {

namespace {

/// The same passage under the same tuning, and only that, has this name.
std::string kindOf(const Range<Seconds>& passage, double tuningCents) {
    const auto bits = [](double value) { return std::to_string(std::bit_cast<std::uint64_t>(value)); };
    return "passage-" + bits(passage.begin.value) + "-" + bits(passage.end.value) + "-" + bits(tuningCents);
}

} // namespace

std::string EvidencePlace::nameOf(const std::string& kind) const {
    return contentHash + "." + listeningStamp() + "." + kind;
}

std::optional<PassageEvidence> PassageShelf::find(const Range<Seconds>& passage, double tuningCents) {
    {
        const std::lock_guard lock(guard);
        const auto found = std::find_if(latest.begin(), latest.end(), [&](const PassageEvidence& evidence) {
            return evidence.passage() == passage && evidence.tuningCents() == tuningCents;
        });
        if (found != latest.end()) {
            latest.splice(latest.begin(), latest, found);
            return latest.front();
        }
    }
    if (!onDisk) return std::nullopt;
    const auto bytes = onDisk->folder.find(onDisk->nameOf(kindOf(passage, tuningCents)));
    auto recalled = bytes ? evidenceIn(*bytes, passage, tuningCents) : std::nullopt;
    if (recalled) remember(*recalled);
    return recalled;
}

void PassageShelf::keep(const PassageEvidence& evidence, const AnalysisSound& sound) {
    remember(evidence);
    if (onDisk)
        onDisk->folder.keep(onDisk->nameOf(kindOf(evidence.passage(), evidence.tuningCents())),
                            bytesOf(evidence, sound));
}

void PassageShelf::remember(const PassageEvidence& evidence) {
    const std::lock_guard lock(guard);
    // Two threads that miss it at once both bring it.
    latest.remove_if([&](const PassageEvidence& kept) {
        return kept.passage() == evidence.passage() && kept.tuningCents() == evidence.tuningCents();
    });
    latest.push_front(evidence);
    std::size_t sum = 0;
    for (auto kept = latest.begin(); kept != latest.end(); ++kept) {
        sum += kept->bytes();
        if (sum <= mostBytes) continue;
        latest.erase(kept, latest.end());
        return;
    }
}

} // namespace earwright
