#include "core/engraving/Fingering.h"

#include "core/engraving/HandMove.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <optional>

namespace earwright {

namespace {

struct Candidate {
    HandPlace hand;
    double cost = 0;
    /// Index among the candidates of the event before.
    std::size_t before = 0;
};

struct Stage {
    StruckTogether event;
    std::vector<Candidate> candidates;
};

std::vector<StruckTogether> eventsOf(std::vector<Note> notes) {
    std::stable_sort(notes.begin(), notes.end(), [](const Note& a, const Note& b) {
        return a.onset != b.onset ? a.onset < b.onset : a.pitch.midi < b.pitch.midi;
    });
    std::vector<StruckTogether> events;
    for (const Note& note : notes) {
        if (events.empty() || events.back().front().onset != note.onset) events.emplace_back();
        events.back().push_back(note);
    }
    return events;
}

/// Whether the user's pins are heard.
enum class Pins { Kept, PassedOver };

std::vector<TabPlace> placesOf(const Note& note, const StringTuning& tuning, Pins pins) {
    std::vector<TabPlace> places;
    for (int string = 0; string < static_cast<int>(tuning.strings.size()); ++string) {
        if (isOnString(note, tuning, string))
            places.push_back({string, note.pitch.midi - tuning.openPitch(string)});
    }
    if (!note.pinnedString || pins == Pins::PassedOver) return places;
    const auto pinned = std::find_if(places.begin(), places.end(), [&](const TabPlace& place) {
        return place.string == *note.pinnedString;
    });
    return pinned == places.end() ? places : std::vector<TabPlace>{*pinned};
}

/// Every way to lay the notes from `next` on into the hand, added to `found`.
void layHand(const std::vector<std::vector<TabPlace>>& choices, std::size_t next, HandPlace& hand,
             std::vector<Candidate>& found) {
    if (next == choices.size()) return found.push_back({hand, 0, 0});
    for (const TabPlace& place : choices[next]) {
        hand.places.push_back(place);
        if (isInReach(hand)) layHand(choices, next + 1, hand, found);
        hand.places.pop_back();
    }
}

std::vector<Candidate> candidatesFor(const StruckTogether& event, const StringTuning& tuning, Pins pins) {
    std::vector<std::vector<TabPlace>> choices;
    for (const Note& note : event)
        choices.push_back(placesOf(note, tuning, pins));
    std::vector<Candidate> found;
    for (int position = 1; position <= std::max(1, tuning.highestFret()); ++position) {
        HandPlace hand{position, {}};
        layHand(choices, 0, hand, found);
    }
    return found;
}

std::optional<Stage> stageFor(StruckTogether event, const StringTuning& tuning,
                              std::vector<NoteId>& unplayable) {
    const auto gone = std::stable_partition(event.begin(), event.end(), [&](const Note& note) {
        return !placesOf(note, tuning, Pins::PassedOver).empty();
    });
    for (auto note = gone; note != event.end(); ++note)
        unplayable.push_back(note->id);
    event.erase(gone, event.end());
    while (event.size() > tuning.strings.size()) {
        unplayable.push_back(event.front().id);
        event.erase(event.begin());
    }
    Pins wishes = Pins::Kept;
    while (!event.empty()) {
        std::vector<Candidate> candidates = candidatesFor(event, tuning, wishes);
        if (!candidates.empty()) return Stage{std::move(event), std::move(candidates)};
        // Two pins that no hand can reach at once are a wish too many, not a note too many.
        if (wishes == Pins::Kept) {
            wishes = Pins::PassedOver;
            continue;
        }
        unplayable.push_back(event.front().id);
        event.erase(event.begin());
    }
    return std::nullopt;
}

/// A note of an earlier event that still sounds: which event, which of its notes.
struct Held {
    std::size_t stage = 0;
    std::size_t note = 0;
};

/// Events before the last one whose notes sound into the next, as held notes and broken chords do. Ringing
/// ends with the first event that does not ring.
std::vector<Held> heldBefore(const std::vector<Stage>& stages, const StruckTogether& next) {
    constexpr std::size_t furthest = 8;
    std::vector<Held> held;
    bool rings = next.front().phrasing.letRing;
    for (std::size_t back = 1; back <= std::min(furthest, stages.size()); ++back) {
        const std::size_t index = stages.size() - back;
        const StruckTogether& event = stages[index].event;
        rings = rings && event.front().phrasing.letRing;
        for (std::size_t i = 0; i < event.size() && back > 1; ++i)
            if (soundsUnder(event[i], next.front()) || (rings && event[i].phrasing.letRing))
                held.push_back({index, i});
    }
    return held;
}

class Weigher {
public:
    Weigher(const std::vector<Stage>& earlier, Stage& toWeigh, const StringTuning& strings,
            const LineTime& time)
        : before(earlier), stage(toWeigh), tuning(strings), held(heldBefore(before, stage.event)) {
        if (!before.empty()) move.emplace(before.back().event, stage.event, time);
    }

    void weigh() {
        for (Candidate& candidate : stage.candidates) {
            candidate.cost = costOfPlace(stage.event, candidate.hand, tuning);
            if (move) candidate.cost += costOfWayTo(candidate);
        }
    }

private:
    double costOfWayTo(Candidate& candidate) const {
        const Stage& last = before.back();
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < last.candidates.size(); ++i) {
            const Candidate& from = last.candidates[i];
            double cost = from.cost + move->cost(from.hand, candidate.hand);
            if (!held.empty()) cost += costOfHeld(i, candidate.hand);
            if (cost >= least) continue;
            least = cost;
            candidate.before = i;
        }
        return least;
    }

    /// Where the held notes are is told by the cheapest way to candidate `from` of the last event.
    double costOfHeld(std::size_t from, const HandPlace& next) const {
        double cost = 0;
        std::size_t at = before.size() - 1;
        for (const Held& one : held) {
            for (; at > one.stage; --at)
                from = before[at].candidates[from].before;
            cost += costOfCutting(before[at].candidates[from].hand.places[one.note], next);
        }
        return cost;
    }

    const std::vector<Stage>& before;
    Stage& stage;
    const StringTuning& tuning;
    /// From the latest event backwards.
    std::vector<Held> held;
    /// From the event before; none for the first.
    std::optional<HandMove> move;
};

std::size_t cheapest(const std::vector<Candidate>& candidates) {
    const auto least =
        std::min_element(candidates.begin(), candidates.end(),
                         [](const Candidate& a, const Candidate& b) { return a.cost < b.cost; });
    return static_cast<std::size_t>(least - candidates.begin());
}

} // namespace

Fingering fingered(const std::vector<Note>& notes, const StringTuning& tuning, const LineTime& time) {
    assert(isPlayable(tuning));
    Fingering result;
    std::vector<Stage> stages;
    for (StruckTogether& event : eventsOf(notes)) {
        auto stage = stageFor(std::move(event), tuning, result.unplayable);
        if (!stage) continue;
        Weigher(stages, *stage, tuning, time).weigh();
        stages.push_back(std::move(*stage));
    }
    if (stages.empty()) return result;
    std::size_t chosen = cheapest(stages.back().candidates);
    for (auto stage = stages.rbegin(); stage != stages.rend(); ++stage) {
        const Candidate& candidate = stage->candidates[chosen];
        for (std::size_t i = 0; i < stage->event.size(); ++i)
            result.places.emplace(stage->event[i].id, candidate.hand.places[i]);
        chosen = candidate.before;
    }
    return result;
}

bool isOnString(const Note& note, const StringTuning& tuning, int string) {
    const int fret = note.pitch.midi - tuning.openPitch(string);
    return fret >= 0 && fret <= tuning.highestFret();
}

std::optional<int> neighbourString(const Note& note, const StringTuning& tuning, int now, bool higher) {
    const int step = higher ? -1 : 1;
    for (int string = now + step; string >= 0 && string < static_cast<int>(tuning.strings.size());
         string += step)
        if (isOnString(note, tuning, string)) return string;
    return {};
}

} // namespace earwright
