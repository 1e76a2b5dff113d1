#include "core/listening/PassageShelf.h"

#include "core/listening/EvidenceBytes.h"

#include <algorithm>
#include <bit>
#include <cstdint>

namespace earwright {

namespace {

std::string bits(double value) {
    return std::to_string(std::bit_cast<std::uint64_t>(value));
}

std::string wordFor(const HeardPart& part) {
    std::string word;
    if (part.focus != Focus::All) word += "-focus" + std::to_string(static_cast<int>(part.focus));
    if (part.band)
        word += (part.band->remove ? "-without" : "-band") + bits(part.band->lowHertz) + "-" +
                bits(part.band->highHertz);
    return word;
}

/// The same part of a passage under the same tuning, and only that, has this name.
std::string kindOf(const Range<Seconds>& passage, double tuningCents, const HeardPart& part) {
    return "passage-" + bits(passage.begin.value) + "-" + bits(passage.end.value) + "-" + bits(tuningCents) +
           wordFor(part);
}

} // namespace

std::string EvidencePlace::nameOf(const std::string& kind) const {
    return contentHash + "." + listeningStamp() + "." + kind;
}

std::optional<PassageEvidence> PassageShelf::find(const Range<Seconds>& passage, const TuningCurve& tuning,
                                                  const HeardPart& part) {
    {
        const std::lock_guard lock(guard);
        const auto found = std::find_if(latest.begin(), latest.end(), [&](const PassageEvidence& evidence) {
            return evidence.passage() == passage && evidence.tuning() == tuning && evidence.part() == part;
        });
        if (found != latest.end()) {
            latest.splice(latest.begin(), latest, found);
            return latest.front();
        }
    }
    if (!onDisk) return std::nullopt;
    const auto bytes = onDisk->folder.find(onDisk->nameOf(kindOf(passage, tuning.cents(), part)));
    auto recalled = bytes ? evidenceIn(*bytes, passage, tuning) : std::nullopt;
    if (!recalled) return std::nullopt;
    recalled = recalled->saidToBe(part);
    remember(*recalled);
    return recalled;
}

void PassageShelf::keep(const PassageEvidence& evidence, const AnalysisSound& sound) {
    remember(evidence);
    if (onDisk)
        onDisk->folder.keep(
            onDisk->nameOf(kindOf(evidence.passage(), evidence.tuningCents(), evidence.part())),
            bytesOf(evidence, sound));
}

void PassageShelf::remember(const PassageEvidence& evidence) {
    const std::lock_guard lock(guard);
    // Two threads that miss it at once both bring it.
    latest.remove_if([&](const PassageEvidence& kept) {
        return kept.passage() == evidence.passage() && kept.tuning() == evidence.tuning() &&
               kept.part() == evidence.part();
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
