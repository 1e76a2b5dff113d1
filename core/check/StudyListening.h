// What a study says about who plays, as listening takes it.
#pragma once

#include "core/listening/LineCharacter.h"
#include "core/listening/ListeningWish.h"
#include "core/listening/StereoViews.h"
#include "core/study/Study.h"

namespace earwright {

/// What an instrument plays, as far as it can be heard; everything where none of its notes can be.
LineRange lineRangeOf(const LineInstrument& line);

/// The same for the line's instrument; everything where the study does not say.
LineRange lineRangeOf(const Study& study);

/// How an instrument's tones are made; unknown of keys, where nothing is slurred, and of a range alone.
LineCharacter characterOf(const LineInstrument& line);

/// The same for the line's instrument; unknown where the study does not say.
LineCharacter characterOf(const Study& study);

/// The part as asked, for a line of the study's instrument.
ListeningWish wishOf(const Study& study, const HeardPart& part = {});

/// Where the bass is listened for; both sides together where the study does not say.
View bassViewOf(const Study& study);

} // namespace earwright
