// A named stretch of the recording: a phrase, a chorus or a section of the form.
#pragma once

#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <compare>
#include <cstdint>
#include <string>

namespace earwright {

enum class SpanKind { Phrase, Chorus, Section };

/// Names a span for as long as the study lives; never used twice.
struct SpanId {
    std::uint64_t value = 0;
    friend auto operator<=>(const SpanId&, const SpanId&) = default;
};

/// Kept in seconds, not beats: phrases can be marked before the bars are, and stay with the sound when a
/// bar mark is corrected.
struct Span {
    SpanId id;
    SpanKind kind = SpanKind::Phrase;
    std::string name;
    Range<Seconds> range;

    friend bool operator==(const Span&, const Span&) = default;
};

} // namespace earwright
