// The written notes as a page that other notation programs open: MusicXML 4.0 (W3C), score-partwise.
#pragma once

#include "core/engraving/PageView.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <string>

namespace earwright {

struct MusicXmlOptions {
    /// Who reads the page: notes, keys and chords are written as they read them, with what they sound like
    /// (`transpose`) beside.
    Reading reading = Reading::Concert;
    /// String and fret of each note, as fingered() finds them on the study's strings; not for horns.
    bool places = true;
    /// A second part has the line in tablature, with the tuning of the strings; only with `places`.
    bool tablature = false;
    /// What each note is on its chord, as a syllable under it.
    bool degrees = false;
};

/// The study as uncompressed MusicXML: one part (and on request its tablature), the line of pageLine() cut by
/// pageBars(), from the pickup to the last note, chorus or mark. With it go title, keys, meters, chord
/// symbols, all page marks and phrasing, loudness, and the tempo between the beat marks (in sound). What has
/// no element of its own is told with ones whose attributes tell it apart:
/// - a slide in or out is a straight scoop, plop, doit or falloff; a scoop or fall by breath a curved one;
/// - vibrato is a wavy line, its second one where the first belongs to a trill;
/// - a note picked under a slur says so in a word (other-technical), and so does one struck anew beside a
///   slurred one; slurs lead grace notes to their note where those of a double stop have unequally many;
/// - a tempo is shown as on the page (tempoFigure), with what is exact about it in its sound; where the
///   beat marks say another one, in full;
/// - what stands once over a double stop is at its first note (ChordMarks.h); a note that has not all of it
///   says so in a word (other-technical) and has its own signs;
/// - a chord symbol that cannot be read stands as words whose id begins with "symbol"; words that say a tempo
///   are a directive.
/// Notes are called as on the page for that reader (WrittenNames).
///
/// What the format does not carry, or the reader of it cannot tell:
/// - the recording, at what time of it bar 1 begins (the tempo between its beat marks is carried), spans and
///   loose ends, takes, practice, divisions of beats, what was found by ear;
/// - of the strings' tuning, without a part in tablature, those that no note is played on (ForeignStrings.h);
///   and a pin to the string that tablature finds by itself, for a reader cannot tell that it was a wish;
/// - with places, that a note was hammered on or pulled off where they have it on another string than all
///   notes before it: it stands under the slur of the staff, and in tablature under none, as on our page;
/// - how a chord symbol was typed (it comes back as printed), and the form: chords come back bar by bar;
/// - what the page cannot draw: overlaps, places that pageLine() moves, lengths within a double stop;
/// - marks, chords and keys before the pickup begins, a key or swing that stands already, a slide to a note
///   that is not there or behind a rest, a trill that no letter above can name (four semitones from E♯ or
///   B♯);
/// - that no tempo was marked: the beat marks' first one is; that no beats were: tempo marks make them;
/// - keys of seven accidentals in a transposing reading: they come back as the key with five;
/// - in a transposing reading, the chosen name of a note that has another one for its reader, who is spared a
///   double accidental, and likewise the root of a chord.
///
/// Error: OutOfRange of pageBars(). Threads: any.
Result<std::string> musicXml(const Study& study, const MusicXmlOptions& options = {});

} // namespace earwright
