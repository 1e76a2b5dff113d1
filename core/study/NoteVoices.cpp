#include "core/study/NoteVoices.h"

#include <span>

namespace earwright {

namespace {

using Together = std::span<const Note>;

/// The notes that begin at a place, from the lowest.
Together beginningAt(const Study& study, const Beats& place) {
    const auto before = [](const Note& note, const Beats& at) { return note.onset < at; };
    const auto after = [](const Beats& at, const Note& note) { return at < note.onset; };
    const auto first = std::lower_bound(study.notes.begin(), study.notes.end(), place, before);
    return {first, std::upper_bound(first, study.notes.end(), place, after)};
}

} // namespace

std::size_t voiceOf(const Study& study, const Note& note) {
    const Together together = beginningAt(study, note.onset);
    const auto own = std::find_if(together.begin(), together.end(),
                                  [&](const Note& other) { return other.id == note.id; });
    return static_cast<std::size_t>(own - together.begin());
}

const Note* noteAfter(const Study& study, const Note& note) {
    const auto next = std::upper_bound(study.notes.begin(), study.notes.end(), note.onset,
                                       [](const Beats& at, const Note& other) { return at < other.onset; });
    if (next == study.notes.end()) return nullptr;
    const Together goals = beginningAt(study, next->onset);
    return &goals[otherVoice(voiceOf(study, note), goals.size())];
}

const Note* noteBefore(const Study& study, const Note& note) {
    const auto own = std::lower_bound(study.notes.begin(), study.notes.end(), note.onset,
                                      [](const Note& other, const Beats& at) { return other.onset < at; });
    if (own == study.notes.begin()) return nullptr;
    const Together sources = beginningAt(study, std::prev(own)->onset);
    return &sources[otherVoice(voiceOf(study, note), sources.size())];
}

} // namespace earwright
