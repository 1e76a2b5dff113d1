// The columns that `check … --phrasing` adds to each claimed note.
#pragma once

#include "core/check/PhrasingMark.h"
#include "core/check/PhrasingMeasure.h"
#include "core/check/Verdict.h"

namespace earwright::batch {

/// With a tab before each: offset_ms length_s loudness_db slur_chance centre_cents slide_cents slide_ms
/// slide_out_cents bend_cents vibrato_hz vibrato_cents trill_hz trill_semitones marks heard. A cell is empty
/// where nothing of the kind is heard. marks holds `mark:verdict` for each written mark, heard the marks that
/// are clearly heard and not written, with commas.
void printPhrasingHeader();
/// `note`: what the check says of it; where it is contradicted no other marks are said to be heard.
void printPhrasing(const Phrasing& written, const NotePlaying& playing, Verdict note);
/// Empty cells, for rows of another kind.
void printNoPhrasing();

} // namespace earwright::batch
