// Which recording the study is about, and what the study is called.
#pragma once

#include "core/study/Study.h"

#include <string>

namespace earwright {

/// Where the recording is and how it is recognised. No step to undo: goes through History::replacePresent.
Study setRecording(const Study& study, const RecordingRef& recording);

Study setTitle(const Study& study, const std::string& title);

} // namespace earwright
