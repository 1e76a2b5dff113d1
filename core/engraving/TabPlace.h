// Where a note stands in the tablature.
#pragma once

namespace earwright {

/// `string` counts from 0, the top line; `fret` from the nut or the capo, 0 is the open string.
struct TabPlace {
    int string = 0;
    int fret = 0;
    friend bool operator==(const TabPlace&, const TabPlace&) = default;
};

} // namespace earwright
