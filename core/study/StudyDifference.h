// What one edit changed in a study, so that it can be taken back and done again.
#pragma once

#include "core/study/Study.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

namespace earwright {

/// A value before and after, kept only if it changed.
template <class T>
class ValueChange {
public:
    ValueChange(const T& before, const T& after) {
        if (before != after) sides.emplace(before, after);
    }
    bool isNothing() const { return !sides; }
    void undo(T& value) const {
        if (sides) value = sides->first;
    }
    void redo(T& value) const {
        if (sides) value = sides->second;
    }

private:
    std::optional<std::pair<T, T>> sides;
};

/// The stretch of a list that changed, before and after: what lies around it is not kept.
template <class T>
class ListChange {
public:
    ListChange(const std::vector<T>& before, const std::vector<T>& after) {
        const auto [fromFront, toFront] =
            std::mismatch(before.begin(), before.end(), after.begin(), after.end());
        const auto [fromBack, toBack] = std::mismatch(before.rbegin(), std::make_reverse_iterator(fromFront),
                                                      after.rbegin(), std::make_reverse_iterator(toFront));
        start = static_cast<std::size_t>(fromFront - before.begin());
        old.assign(fromFront, fromBack.base());
        fresh.assign(toFront, toBack.base());
    }
    bool isNothing() const { return old.empty() && fresh.empty(); }
    void undo(std::vector<T>& list) const { replace(list, fresh.size(), old); }
    void redo(std::vector<T>& list) const { replace(list, old.size(), fresh); }

private:
    void replace(std::vector<T>& list, std::size_t going, const std::vector<T>& coming) const {
        const auto at = list.begin() + static_cast<std::ptrdiff_t>(start);
        const auto gap = list.erase(at, at + static_cast<std::ptrdiff_t>(going));
        list.insert(gap, coming.begin(), coming.end());
    }

    std::size_t start = 0;
    std::vector<T> old;
    std::vector<T> fresh;
};

/// The difference in the work: title, meter, marks, chords, spans, notes, page marks, tuning, players,
/// divisions, loose ends and takes. It takes as much memory as what changed: a hundred bytes or so for a
/// note, where a study with 2,000 notes takes 300 kB.
class StudyDifference {
public:
    StudyDifference(const Study& before, const Study& after);

    /// The two studies hold the same work.
    bool isNothing() const;
    /// The study with the work it had before. Requires: its work is that of `after`.
    Study undone(Study study) const;
    /// The study with the work it had after. Requires: its work is that of `before`.
    Study redone(Study study) const;

private:
    ValueChange<std::string> title;
    ValueChange<Meter> meter;
    ListChange<BeatMark> marks;
    ListChange<BarChords> form;
    ValueChange<std::map<std::int64_t, BarChords>> overrides;
    ListChange<Span> spans;
    ListChange<Note> notes;
    ValueChange<PageMarks> page;
    ValueChange<StringTuning> tuning;
    ValueChange<Players> players;
    ValueChange<std::map<Beats, BeatDivision>> divisions;
    ListChange<LooseEnd> looseEnds;
    ListChange<Take> takes;
};

} // namespace earwright
