#include "core/music/PageMarks.h"

namespace earwright {

KeySignature PageMarks::keyAt(std::int64_t bar) const {
    KeySignature standing;
    for (const KeyChange& change : keys)
        if (change.bar <= bar) standing = change.key;
    return standing;
}

Swing PageMarks::swingAt(const Beats& place) const {
    Swing standing;
    for (const SwingChange& change : swings)
        if (change.at <= place) standing = change.swing;
    return standing;
}

} // namespace earwright
