#include "core/engraving/Fingering.h"

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

std::vector<TabPlace> placesOf(const Note& note, const StringTuning& tuning, const StringPins& pins) {
    std::vector<TabPlace> places;
    for (int string = 0; string < static_cast<int>(tuning.strings.size()); ++string) {
        const int fret = note.pitch.midi - tuning.openPitch(string);
        if (fret >= 0 && fret <= tuning.highestFret()) places.push_back({string, fret});
    }
    const auto pin = pins.find(note.id);
    if (pin == pins.end()) return places;
    const auto pinned = std::find_if(places.begin(), places.end(),
                                     [&](const TabPlace& place) { return place.string == pin->second; });
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

std::vector<Candidate> candidatesFor(const StruckTogether& event, const StringTuning& tuning,
                                     const StringPins& pins) {
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

std::optional<Stage> stageFor(StruckTogether event, const StringTuning& tuning, const StringPins& pins,
                              std::vector<NoteId>& unplayable) {
    const auto gone = std::stable_partition(
        event.begin(), event.end(), [&](const Note& note) { return !placesOf(note, tuning, {}).empty(); });
    for (auto note = gone; note != event.end(); ++note)
        unplayable.push_back(note->id);
    event.erase(gone, event.end());
    while (event.size() > tuning.strings.size()) {
        unplayable.push_back(event.front().id);
        event.erase(event.begin());
    }
    StringPins wishes = pins;
    while (!event.empty()) {
        std::vector<Candidate> candidates = candidatesFor(event, tuning, wishes);
        if (!candidates.empty()) return Stage{std::move(event), std::move(candidates)};
        // Two pins that no hand can reach at once are a wish too many, not a note too many.
        if (!wishes.empty()) {
            wishes.clear();
            continue;
        }
        unplayable.push_back(event.front().id);
        event.erase(event.begin());
    }
    return std::nullopt;
}

void weigh(Stage& stage, const Stage* before, const StringTuning& tuning) {
    for (Candidate& candidate : stage.candidates) {
        const double here = costOfPlace(stage.event, candidate.hand, tuning);
        if (!before) {
            candidate.cost = here;
            continue;
        }
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < before->candidates.size(); ++i) {
            const Candidate& from = before->candidates[i];
            const double cost = from.cost + costOfMove(before->event, from.hand, stage.event, candidate.hand);
            if (cost >= least) continue;
            least = cost;
            candidate.before = i;
        }
        candidate.cost = least + here;
    }
}

std::size_t cheapest(const std::vector<Candidate>& candidates) {
    const auto least =
        std::min_element(candidates.begin(), candidates.end(),
                         [](const Candidate& a, const Candidate& b) { return a.cost < b.cost; });
    return static_cast<std::size_t>(least - candidates.begin());
}

} // namespace

Fingering fingered(const std::vector<Note>& notes, const StringTuning& tuning, const StringPins& pins) {
    assert(isPlayable(tuning));
    Fingering result;
    std::vector<Stage> stages;
    for (StruckTogether& event : eventsOf(notes)) {
        auto stage = stageFor(std::move(event), tuning, pins, result.unplayable);
        if (!stage) continue;
        weigh(*stage, stages.empty() ? nullptr : &stages.back(), tuning);
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

} // namespace earwright
