// The check of written notes: of one phrase when the user asks for it, or of all that a study holds.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/listening/ListeningWish.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <stop_token>
#include <vector>

namespace earwright {

/// Whether anything is written in a phrase: an unwritten phrase has nothing to be checked, and listing all
/// its sounds would spell the solo out.
bool isWritten(const Study& study, const Span& phrase);

/// Checks the notes whose onsets lie in a phrase. Unwritten sounds are listed within the phrase only; those
/// that a written grace note or trill accounts for are not. Listens in the view of the stereo picture in
/// which the notes are clearest, or where the wish says.
///
/// Threads: takes about a twentieth of the phrase's length; not for the interface's thread.
/// Errors: Cancelled; OutOfRange where the bars are not marked yet, so that no note has a place in time.
Result<PhraseCheck> checkPhrase(const Study& study, const Span& phrase, const RecordingEvidence& recording,
                                std::stop_token stop = {}, const Progress& progress = {},
                                const ListeningWish& wish = {});

/// The same for several phrases of a study, one answer each, in their order.
Result<std::vector<PhraseCheck>> checkPhrases(const Study& study, const std::vector<Span>& phrases,
                                              const RecordingEvidence& recording, std::stop_token stop = {},
                                              const Progress& progress = {}, const ListeningWish& wish = {});

/// Checks every note of a study: phrase by phrase, and the notes outside all phrases in passages of their
/// own, with the sounds around them. Notes come in the study's order, unwritten sounds by time; the result
/// names no phrase. Errors as for checkPhrase.
Result<PhraseCheck> checkStudy(const Study& study, const RecordingEvidence& recording,
                               std::stop_token stop = {}, const ListeningWish& wish = {});

} // namespace earwright
