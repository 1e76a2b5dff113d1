// `earwright --sheet STUDY OUT`: the phrases of a study as a page, without a display.
#pragma once

namespace earwright {

bool asksForASheet(int argc, char** argv);

/// Writes the sheet and names its files on stdout, or says in one sentence on stderr what is wrong. Returns
/// the exit code: 0, 1 for a study or file that is at fault, 2 for the command line. Options, behind the two
/// files:
/// --letter, --degrees, --no-tab, --slashes, --no-tempo, --bars N, --clef treble|treble-8|bass,
/// --reading concert|b-flat|e-flat|tenor|baritone|guitar; --sound, which also writes
/// what writeExcerptSounds() does beside the sheet, the slower record at --speed PERCENT (50).
int runSheet(int argc, char** argv);

} // namespace earwright
