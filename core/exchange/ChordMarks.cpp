#include "core/exchange/ChordMarks.h"

namespace earwright {

namespace {

/// Of a wider trill nothing but an accidental tells how far it goes, which another note has elsewhere.
constexpr int widestSharedTrill = 2;

/// What the first note of a chord gives to the others.
Phrasing sharedBy(const Phrasing& first) {
    Phrasing shared;
    shared.accented = first.accented;
    shared.staccato = first.staccato;
    shared.tenuto = first.tenuto;
    shared.turn = first.turn;
    shared.mordent = first.mordent;
    shared.vibrato = first.vibrato;
    shared.trill = first.trill;
    return shared;
}

} // namespace

Phrasing withShared(const Phrasing& first, Phrasing other) {
    const Phrasing shared = sharedBy(first);
    other.accented = other.accented || (shared.accented && !other.ghosted);
    other.staccato = other.staccato || shared.staccato;
    other.tenuto = other.tenuto || shared.tenuto;
    other.vibrato = other.vibrato || shared.vibrato;
    if (!other.turn) other.turn = shared.turn;
    if (!other.mordent) other.mordent = shared.mordent;
    if (!other.trill) other.trill = shared.trill;
    return other;
}

bool sharesMarks(const Phrasing& first, const Phrasing& other) {
    if (first.trill > widestSharedTrill) return false;
    return withShared(first, withoutShared(first, other)) == other;
}

Phrasing withoutShared(const Phrasing& first, Phrasing other) {
    const Phrasing shared = sharedBy(first);
    other.accented = other.accented && !shared.accented;
    other.staccato = other.staccato && !shared.staccato;
    other.tenuto = other.tenuto && !shared.tenuto;
    other.vibrato = other.vibrato && !shared.vibrato;
    if (shared.turn) other.turn.reset();
    if (shared.mordent) other.mordent.reset();
    if (shared.trill) other.trill.reset();
    return other;
}

} // namespace earwright
