// The day it is, which the core is always told.
#pragma once

#include "core/study/EarRecord.h"

namespace earwright::ui {

/// By the user's calendar and clock.
Day today();

} // namespace earwright::ui
