// Where a check or a hint listened, in words.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/listening/HeardPart.h"

#include <QString>

namespace earwright::ui {

/// "listened on the right, where the line is clearest", or "… as you do" where the user had said so. Empty
/// for all of the recording.
QString listenedText(const HeardPart& part, bool asAsked);
QString listenedText(const PhraseCheck& check);

} // namespace earwright::ui
