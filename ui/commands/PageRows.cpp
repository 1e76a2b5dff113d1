// The menu Page.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

/// Staff and tablature under the grid. Letters as for the page itself, which has E.
void addPage(std::vector<Command>& table) {
    const auto add = [&](CommandId id, const char* word, const char* name, const char* about, KeyList keys,
                         bool startsGroup = false) {
        table.push_back({id, Page, word, name, about, std::move(keys), StudyOpen, startsGroup});
    };
    add(ShowPage, "page", WORDS("Staff and tablature"),
        WORDS("Shows the phrase as it is engraved under the grid, or puts it away"),
        {with(shift, Qt::Key_E)});
    add(NextReading, "page-reading", WORDS("Next reading"),
        WORDS("Writes the page as the notes sound, for B♭ and E♭ instruments, tenor, baritone, guitar"),
        {with(alt | shift, Qt::Key_R)}, true);
    add(NextClef, "page-clef", WORDS("Next clef"),
        WORDS("The clef that fits the line, treble, treble sounding an octave lower, bass"),
        {with(alt | shift, Qt::Key_C)});
    add(PageTablature, "page-tablature", WORDS("Tablature on the page"),
        WORDS("Shows the tablature under the staff, or only the staff"), {with(alt | shift, Qt::Key_T)},
        true);
    add(PageChords, "page-chords", WORDS("Chord symbols on the page"),
        WORDS("Shows the chord symbols over the staff, or none"), {with(alt | shift, Qt::Key_K)});
    add(PageDegrees, "page-degrees", WORDS("Degrees on the page"),
        WORDS("Shows what each note is on its chord, or not"), {with(alt | shift, Qt::Key_D)});
    add(PageFewerBars, "page-fewer-bars", WORDS("Fewer bars to a line of the page"),
        WORDS("Breaks staff and tablature into lines of one bar less"), {with(alt | shift, Qt::Key_Left)},
        true);
    add(PageMoreBars, "page-more-bars", WORDS("More bars to a line of the page"),
        WORDS("Breaks staff and tablature into lines of one bar more, at last of as many as fit"),
        {with(alt | shift, Qt::Key_Right)});
    add(PageLarger, "page-larger", WORDS("Larger page"), WORDS("Draws staff and tablature larger"),
        {with(alt | shift, Qt::Key_Up)}, true);
    add(PageSmaller, "page-smaller", WORDS("Smaller page"), WORDS("Draws staff and tablature smaller"),
        {with(alt | shift, Qt::Key_Down)});
    add(PageChoices, "page-menu", WORDS("All choices of the page…"),
        WORDS("Opens the page's menu, with the strings of the selected note"), {with(alt | shift, Qt::Key_E)},
        true);
    add(Strings, "strings", WORDS("Strings and tuning…"),
        WORDS("Says how the instrument of the tablature is tuned, with how many strings, frets and a capo"),
        {});
}

} // namespace earwright::ui::rows
