// Days as files and tables have them.
#pragma once

#include "core/study/EarRecord.h"

#include <optional>
#include <string>
#include <string_view>

namespace earwright {

/// "2031-05-04" (ISO 8601).
std::string dayText(Day day);
/// A day of the years 1 to 9999; nothing where the text is none.
std::optional<Day> dayFrom(std::string_view text);

} // namespace earwright
