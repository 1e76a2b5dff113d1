// The order a study keeps its lists in, stated once for edits and files.
#pragma once

#include "core/study/Study.h"

namespace earwright {

/// By onset, then pitch.
bool comesBefore(const Note& a, const Note& b);
/// By start; of two that start together the longer one, which holds the other, comes first.
bool comesBefore(const Span& a, const Span& b);
/// By time.
bool comesBefore(const LooseEnd& a, const LooseEnd& b);

/// Sorts notes, spans and loose ends; equal ones stay as they were.
void sortLists(Study& study);

} // namespace earwright
