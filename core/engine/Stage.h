// What goes on where the record itself is silent by intention.
#pragma once

namespace earwright {

enum class Stage {
    Sounding, ///< the record goes on
    Gap,      ///< the silence between two passes of a loop
    CountIn,  ///< the beats before playing begins
};

} // namespace earwright
