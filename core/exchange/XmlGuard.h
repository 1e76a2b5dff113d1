// Looks over XML from elsewhere before a parser builds a tree of it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace earwright {

/// Why this text should not be parsed: a document type with declarations of its own (which could define
/// entities without end), elements nested deeper than 64, or more than a million of them. Nothing where it
/// may be; whether it is well-formed is for the parser to say. Takes time in proportion to the text and no
/// memory.
std::optional<std::string> whyNotToParse(std::string_view xml);

} // namespace earwright
