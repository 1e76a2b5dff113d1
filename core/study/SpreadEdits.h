// Writing so many notes evenly over so many beats: three quarters in the time of two.
#pragma once

#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// The notes spread evenly over the counted beats they lie in, from the beat of the first to the beat the
/// last one ends in, each as long as the next one leaves it; what begins together stays together. Three
/// eighths become a quarter-note triplet, three over four beats a half-note triplet, five a quintuplet. The
/// grid's beats are divided so that every note has its column.
///
/// Changes nothing for less than two places, where another note begins among those beats, or where the places
/// need more than twelve parts of a beat.
Study spreadEvenly(const Study& study, const std::vector<NoteId>& notes);

} // namespace earwright
