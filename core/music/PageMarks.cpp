#include "core/music/PageMarks.h"

#include <algorithm>

namespace earwright {

KeySignature PageMarks::keyAt(std::int64_t bar) const {
    KeySignature standing;
    for (const KeyChange& change : keys)
        if (change.bar <= std::max<std::int64_t>(bar, 1)) standing = change.key;
    return standing;
}

Swing PageMarks::swingAt(const Beats& place) const {
    Swing standing;
    for (const SwingChange& change : swings)
        if (change.at <= place) standing = change.swing;
    return standing;
}

} // namespace earwright
