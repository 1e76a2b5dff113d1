// How often one length of musical time goes into another, exactly: a place as a share of its beat, bar or
// pair.
#pragma once

#include "core/time/Beats.h"

namespace earwright {

/// How many times `part` goes into `length`, as a fraction. Requires: part is not zero.
inline Beats ratio(const Beats& length, const Beats& part) {
    return {length.numerator() * part.denominator(), length.denominator() * part.numerator()};
}

} // namespace earwright
