// A stretch of time, half open: its end is the first place that no longer belongs to it.
#pragma once

#include <algorithm>
#include <optional>

namespace earwright {

/// [begin, end) of Seconds, Frames, OutputFrames or Beats.
template <class T>
struct Range {
    T begin{};
    T end{};

    friend constexpr bool operator==(const Range&, const Range&) = default;

    constexpr T length() const { return end - begin; }
    constexpr bool isEmpty() const { return !(begin < end); }
    constexpr bool contains(const T& place) const { return !(place < begin) && place < end; }
    constexpr bool overlaps(const Range& other) const {
        return begin < other.end && other.begin < end && !isEmpty() && !other.isEmpty();
    }
    /// What both cover, or nothing where they only touch or lie apart.
    constexpr std::optional<Range> intersection(const Range& other) const {
        const Range both{std::max(begin, other.begin), std::min(end, other.end)};
        if (both.isEmpty()) return std::nullopt;
        return both;
    }
    constexpr Range shifted(const T& by) const { return {begin + by, end + by}; }
};

template <class T>
Range(T, T) -> Range<T>;

} // namespace earwright
