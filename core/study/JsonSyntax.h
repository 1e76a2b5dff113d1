// From bytes to JSON values, refusing what a careless reader would let pass.
#pragma once

#include "core/result/Result.h"

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace earwright {

/// Reads one JSON text (RFC 8259). `name` stands for the file in messages.
///
/// Refused with ErrorKind::Malformed, besides broken syntax (with line and column in bytes): numbers no
/// double can hold, text that is not UTF-8, anything after the value, nesting deeper than 64, and a member
/// that stands twice in one object (with its path).
Result<nlohmann::json> parseJson(std::string_view text, const std::string& name);

} // namespace earwright
