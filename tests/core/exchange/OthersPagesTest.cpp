// MusicXML as other programs plausibly write it: with more than we show, and with less than we write.
#include "core/exchange/MusicXml.h"
#include "core/exchange/MusicXmlReading.h"
#include "core/study/StudyFile.h"
#include "tests/core/exchange/ChanceStudy.h"
#include "tests/core/exchange/WithinBounds.h"

#include <algorithm>
#include <pugixml.hpp>
#include <random>
#include <sstream>

namespace earwright {
namespace {

Imported read(const std::string& measures, const std::string& wish = "") {
    const std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"no\"?>\n<!DOCTYPE score-partwise PUBLIC "
        "\"-//Recordare//DTD MusicXML 3.1 Partwise//EN\" \"http://www.musicxml.org/dtds/partwise.dtd\">\n"
        "<score-partwise version=\"3.1\"><identification><encoding><software>Some "
        "program</software></encoding>"
        "</identification><defaults/><credit "
        "page=\"1\"><credit-words>Title</credit-words></credit><part-list>"
        "<score-part id=\"P1\"><part-name>Line</part-name></score-part></part-list><part id=\"P1\">" +
        measures + "</part></score-partwise>";
    const auto imported = readMusicXml(text, "page.musicxml", wish);
    EXPECT_TRUE(imported.ok()) << describe(imported.error());
    if (!imported) return {};
    const auto kept = StudyFile::parse(StudyFile::text(imported->study), "line.study");
    EXPECT_TRUE(kept.ok()) << describe(kept.error());
    return *imported;
}

std::string note(const std::string& step, int octave, int duration, const std::string& more = "") {
    return "<note><pitch><step>" + step + "</step><octave>" + std::to_string(octave) +
           "</octave></pitch><duration>" + std::to_string(duration) + "</duration>" + more + "</note>";
}

std::string measure(const std::string& number, const std::string& inside, const std::string& more = "") {
    return "<measure number=\"" + number + "\"" + more + ">" + inside + "</measure>";
}

std::string attributes(const std::string& inside) {
    return "<attributes>" + inside + "</attributes>";
}

const std::string fourFour = "<time><beats>4</beats><beat-type>4</beat-type></time>";

bool says(const Imported& imported, const std::string& words) {
    return std::any_of(imported.leftOut.begin(), imported.leftOut.end(), [&](const std::string& sentence) {
        return sentence.find(words) != std::string::npos;
    });
}

/// "0+1 60, 1+1/2 62": onset, length and pitch of every note.
std::string lineOf(const Imported& imported) {
    std::string text;
    for (const Note& written : imported.study.notes)
        text += (text.empty() ? "" : ", ") + toString(written.onset) + "+" + toString(written.length) + " " +
                std::to_string(written.pitch.midi);
    return text;
}

TEST(OthersPages, DivisionsMayChangeAndTypesMayBeMissing) {
    const Imported page = read(measure("1", attributes("<divisions>1</divisions>" + fourFour) +
                                                note("C", 4, 2) + attributes("<divisions>480</divisions>") +
                                                note("D", 4, 240) + note("E", 4, 720)) +
                               measure("2", attributes("<divisions>24</divisions>") + note("F", 4, 32) +
                                                note("G", 4, 32) + note("A", 4, 32)));
    EXPECT_EQ(lineOf(page), "0+2 60, 2+1/2 62, 5/2+3/2 64, 4+4/3 65, 16/3+4/3 67, 20/3+4/3 69");
    EXPECT_TRUE(page.leftOut.empty());
}

TEST(OthersPages, OfAPianoTheFullestVoiceOfTheFirstStaffWithNotesIsTaken) {
    const std::string rest = "<note><rest/><duration>4</duration><voice>1</voice><staff>1</staff></note>";
    const std::string both = "<voice>1</voice><staff>1</staff>";
    const Imported page =
        read(measure("1", attributes("<divisions>1</divisions>" + fourFour + "<staves>2</staves>") + rest +
                              "<backup><duration>4</duration></backup>" +
                              note("C", 3, 4, "<voice>5</voice><staff>2</staff>")) +
             measure("2", note("C", 5, 4, "<voice>2</voice><staff>1</staff>") +
                              "<backup><duration>4</duration></backup>" + note("E", 5, 2, both) +
                              note("G", 5, 2, both)));
    EXPECT_EQ(lineOf(page), "4+2 76, 6+2 79");
    EXPECT_TRUE(says(page, "Other staves"));
    EXPECT_TRUE(says(page, "Other voices"));
}

TEST(OthersPages, APickupMayBeNumberedNoughtOrOne) {
    for (const char* number : {"0", "1", "X1"}) {
        const Imported page =
            read(measure(number,
                         attributes("<divisions>2</divisions>" + fourFour) +
                             "<direction><direction-type><dynamics><f/></dynamics></direction-type>"
                             "</direction>" +
                             note("G", 4, 1) + note("A", 4, 1),
                         " implicit=\"yes\"") +
                 measure("1", note("C", 5, 8)));
        EXPECT_EQ(lineOf(page), "-1+1/2 67, -1/2+1/2 69, 0+4 72") << number;
        ASSERT_EQ(page.study.page.dynamics.size(), 1u);
        EXPECT_EQ(page.study.page.dynamics.front().at, Beats(-1)) << "marks go with their notes";
    }
}

TEST(OthersPages, AHornInEFlatSoundsAtConcertPitchWithItsChordsKeysAndNames) {
    const Imported page = read(measure(
        "1", attributes("<divisions>1</divisions><key><fifths>2</fifths></key>" + fourFour +
                        "<transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose>") +
                 "<harmony><root><root-step>B</root-step></root><kind>minor-seventh</kind></harmony>" +
                 "<note><pitch><step>G</step><alter>1</alter><octave>4</octave></pitch>"
                 "<duration>4</duration></note>"));
    ASSERT_EQ(page.study.notes.size(), 1u);
    // A major sixth down: G♯ sounds B, B minor is D minor, two sharps are one flat.
    EXPECT_EQ(page.study.notes[0].pitch.midi, 59);
    EXPECT_EQ(toString(page.study.barChords(1).chords.at(0).symbol), "Dm7");
    EXPECT_EQ(page.study.page.keyAt(1).fifths, -1);
}

TEST(OthersPages, TempoIsReadInWhateverNoteItIsCounted) {
    const auto tempo = [](const std::string& metronome) {
        const Imported page =
            read(measure("1", attributes("<divisions>1</divisions>" + fourFour) +
                                  "<direction><direction-type><metronome>" + metronome +
                                  "</metronome></direction-type></direction>" + note("C", 4, 4)));
        return page.study.page.tempos.empty() ? 0 : page.study.page.tempos[0].quartersPerMinute.value_or(0);
    };
    const std::string dot = "<beat-unit-dot/>";
    EXPECT_EQ(tempo("<beat-unit>half</beat-unit><per-minute>88</per-minute>"), 176);
    EXPECT_EQ(tempo("<beat-unit>quarter</beat-unit>" + dot + "<per-minute>80</per-minute>"), 120);
    EXPECT_EQ(tempo("<beat-unit>eighth</beat-unit><per-minute>c. 120-126</per-minute>"), 60);
    EXPECT_EQ(tempo("<beat-unit>quarter</beat-unit><beat-unit>eighth</beat-unit>"), 0)
        << "one note as another";
}

TEST(OthersPages, SlursOfGraceNotesEndWithThem) {
    const auto slur = [](const char* type) {
        return std::string("<notations><slur number=\"1\" type=\"") + type + "\"/></notations>";
    };
    const Imported page = read(measure("1", attributes("<divisions>1</divisions>" + fourFour) +
                                                "<note><grace/><pitch><step>B</step>"
                                                "<octave>3</octave></pitch>" +
                                                slur("start") + "</note>" + note("C", 4, 1, slur("stop")) +
                                                note("D", 4, 1, slur("start")) +
                                                note("E", 4, 1, slur("stop")) + note("F", 4, 1)));
    ASSERT_EQ(page.study.notes.size(), 4u);
    EXPECT_EQ(page.study.notes[0].phrasing.graceNotes, std::vector{59});
    for (std::size_t i = 0; i < 4; ++i)
        EXPECT_EQ(page.study.notes[i].phrasing.slurred, i == 2) << i;
}

TEST(OthersPages, TrillsGoToTheNoteOfTheKeyUnlessASignSaysOtherwise) {
    const auto trill = [](const std::string& inside) {
        const Imported page = read(measure(
            "1", attributes("<divisions>1</divisions><key><fifths>-2</fifths></key>" + fourFour) +
                     note("A", 4, 4,
                          "<notations><ornaments><trill-mark/>" + inside + "</ornaments></notations>")));
        return page.study.notes.at(0).phrasing.trill;
    };
    EXPECT_EQ(trill(""), 1) << "B flat in the key";
    EXPECT_EQ(trill("<accidental-mark>natural</accidental-mark>"), 2);
    EXPECT_EQ(trill("<accidental-mark>sharp</accidental-mark>"), 3);
}

TEST(OthersPages, WhatALineCannotHoldIsNamedPlainly) {
    const auto in = [](const std::string& notations) { return "<notations>" + notations + "</notations>"; };
    const Imported page = read(
        measure(
            "1",
            attributes("<divisions>2</divisions>" + fourFour) +
                "<direction><direction-type><segno/></direction-type></direction>"
                "<direction><direction-type><octave-shift type=\"down\" "
                "size=\"8\"/></direction-type></direction>"
                "<direction><direction-type><dynamics><fp/></dynamics></direction-type></direction>" +
                note("C", 5, 2, in("<ornaments><tremolo type=\"single\">3</tremolo></ornaments>")) +
                note("D", 5, 2, in("<fermata/>")) + note("E", 5, 2, in("<arpeggiate/>")) +
                "<note><cue/><pitch><step>F</step><octave>5</octave></pitch><duration>2</duration></note>" +
                "<note><pitch><step>F</step><alter>0.5</alter><octave>5</octave></pitch><duration>0</"
                "duration></note>") +
        measure("2", "<note><unpitched/><duration>4</duration></note>" +
                         attributes("<key><fifths>1</fifths></key>") +
                         note("G", 4, 4, in("<technical><fingering>2</fingering></technical>")) +
                         "<sound dacapo=\"yes\"/>"));
    EXPECT_EQ(page.study.notes.size(), 4u);
    for (const char* words :
         {"Jumps", "Octave signs", "Dynamics that have no sign", "Tremolos", "Fermatas", "Arpeggio",
          "Cue notes", "Quarter tones", "Notes without a pitch", "Fingerings", "change of key within"})
        EXPECT_TRUE(says(page, words)) << words;
    for (const std::string& sentence : page.leftOut)
        EXPECT_TRUE(sentence.ends_with('.')) << sentence;
}

TEST(OthersPages, BarsOfAnotherLengthGetAMeterOfTheirOwn) {
    const Imported page = read(measure("1", attributes("<divisions>1</divisions><time><beats>3+2</beats>"
                                                       "<beat-type>4</beat-type></time>") +
                                                note("C", 4, 5)) +
                               measure("2", note("D", 4, 3)) + measure("3", note("E", 4, 5)));
    EXPECT_EQ(page.study.meter, (Meter{5, 4}));
    EXPECT_EQ(page.study.page.meters, (std::vector<MeterChange>{{2, {3, 4}}, {3, {5, 4}}}));
    EXPECT_EQ(lineOf(page), "0+5 60, 5+3 62, 8+5 64");
}

TEST(OthersPages, AFirstBarOfAnotherLengthGetsAMeterOfItsOwn) {
    const std::string first = attributes("<divisions>1</divisions>" + fourFour);
    const Imported longer = read(measure("1", first + note("C", 4, 7)) + measure("2", note("D", 4, 4)));
    EXPECT_EQ(longer.study.meter, (Meter{7, 4}));
    EXPECT_EQ(longer.study.page.meters, (std::vector<MeterChange>{{2, {4, 4}}}));
    EXPECT_EQ(lineOf(longer), "0+7 60, 7+4 62");
    const Imported behindPickup = read(measure("0", first + note("G", 4, 1)) + measure("1", note("C", 4, 2)) +
                                       measure("2", note("D", 4, 4)));
    EXPECT_EQ(lineOf(behindPickup), "-1+1 67, 0+2 60, 2+4 62");
    for (const auto& [length, written] : {std::pair{2, "C"}, {7, "C"}}) {
        const std::string harmony =
            "<harmony><root><root-step>G</root-step></root><kind>dominant</kind></harmony>";
        const Imported withChord =
            read(measure("0", first + harmony + note("G", 4, 1)) + measure("1", note(written, 4, length)) +
                 measure("2", note("D", 4, 4)));
        const auto chords = withChord.study.barChords(0).chords;
        ASSERT_EQ(chords.size(), 1u) << length;
        EXPECT_EQ(withChord.study.meters().barStart(0) + chords[0].withinBar, Beats(-1)) << length;
    }
    EXPECT_TRUE(longer.leftOut.empty() && behindPickup.leftOut.empty());
}

TEST(OthersPages, WithoutAMeterBarsAreAsLongAsTheirNotes) {
    // As chant and excerpts are written: no <time> at all, or only from a later bar on.
    const Imported none =
        read(measure("1", attributes("<divisions>2</divisions>") + note("C", 4, 2) + note("D", 4, 2)) +
             measure("2", note("E", 4, 4)) + measure("3", note("F", 4, 4)));
    EXPECT_EQ(none.study.meter, (Meter{2, 4}));
    EXPECT_TRUE(none.study.page.meters.empty());
    EXPECT_EQ(lineOf(none), "0+1 60, 1+1 62, 2+2 64, 4+2 65");
    const Imported later = read(
        measure("1", attributes("<divisions>2</divisions>") + note("C", 4, 5)) +
        measure("2", attributes("<time><beats>3</beats><beat-type>4</beat-type></time>") + note("E", 4, 6)));
    EXPECT_EQ(later.study.meter, (Meter{5, 8}));
    EXPECT_EQ(later.study.page.meters, (std::vector<MeterChange>{{2, {3, 4}}}));
    EXPECT_EQ(lineOf(later), "0+5 60, 5+6 64");
    EXPECT_TRUE(none.leftOut.empty() && later.leftOut.empty());
}

TEST(OthersPages, PutsWordsWhereAStudyFileCanHoldThem) {
    // An offset of one of 10 080 parts of a quarter, and one that leads far behind any music.
    const auto words = [](const std::string& text, const std::string& offset) {
        return "<direction><direction-type><words>" + text + "</words></direction-type><offset>" + offset +
               "</offset></direction>";
    };
    const auto wedge = [](const char* type, const char* offset) {
        return std::string("<direction><direction-type><wedge type=\"") + type +
               "\"/></direction-type><offset>" + offset + "</offset></direction>";
    };
    const Imported page = read(measure(
        "1",
        attributes("<divisions>10080</divisions><time><beats>4</beats><beat-type>32</beat-type></time>") +
            words("easy", "1") + words("later", "9999999") + wedge("crescendo", "-1") + wedge("stop", "2") +
            "<sound tempo=\"120\"><swing><first>2</first><second>1</second></swing>" +
            "<offset>1</offset></sound>" + note("C", 4, 959) + attributes("<divisions>1</divisions>") +
            words("never", "9999999") + note("D", 4, 1)));
    ASSERT_EQ(page.study.page.texts.size(), 3u);
    // 8 beats a quarter: a 1260th of a beat is nearer to 0 than to 1/480.
    EXPECT_EQ(page.study.page.texts[0], (TextMark{Beats(0), "easy", false}));
    EXPECT_EQ(page.study.page.swings, (std::vector<SwingChange>{{Beats(0), {2, 8}}}));
    EXPECT_EQ(page.study.page.hairpins.size(), 1u);
    const auto kept = StudyFile::parse(StudyFile::text(page.study), "line.study");
    ASSERT_TRUE(kept.ok()) << describe(kept.error());
    EXPECT_EQ(*kept, page.study);
}

TEST(OthersPages, ChordsStandInOrderAndSoThatAStudyFileHoldsThem) {
    const auto harmony = [](const char* step, int offset) {
        return std::string("<harmony><root><root-step>") + step +
               "</root-step></root><kind>dominant</kind><offset>" + std::to_string(offset) +
               "</offset></harmony>";
    };
    // Of 924 parts of a beat: a seventh, a half, an eleventh; a fourth would make 308 parts of the bar.
    const Imported page = read(measure("1", attributes("<divisions>924</divisions>" + fourFour) +
                                                harmony("F", 132) + harmony("B", 462) + harmony("G", 84) +
                                                harmony("C", 231) + note("C", 4, 4 * 924)));
    const std::vector<PlacedChord> chords = page.study.barChords(1).chords;
    ASSERT_EQ(chords.size(), 3u);
    EXPECT_EQ(chords[0].withinBar, Beats(1, 11));
    EXPECT_EQ(chords[1].withinBar, Beats(1, 7));
    EXPECT_EQ(chords[2].withinBar, Beats(1, 2));
    EXPECT_TRUE(says(page, "between beats"));
}

TEST(OthersPages, PartsOfABeatThatGoTogetherNowhereStayWithinBounds) {
    std::string inside = attributes(fourFour);
    for (const int prime : {99991, 99989, 99971, 99961, 99929, 99923})
        inside +=
            attributes("<divisions>" + std::to_string(prime) + "</divisions>") + note("C", 4, prime / 2);
    const Imported page = read(measure("1", inside));
    ASSERT_EQ(page.study.notes.size(), 6u);
    for (std::size_t i = 0; i < 6; ++i)
        EXPECT_NEAR(page.study.notes[i].onset.toDouble(), 0.5 * static_cast<double>(i), 0.01);
}

TEST(OthersPages, OnlyAnEndingForTheFirstTimeIsTheFirst) {
    const auto ending = [](const char* number, const char* type) {
        return std::string("<ending number=\"") + number + "\" type=\"" + type + "\"/>";
    };
    const std::string times = "<repeat direction=\"backward\" times=\"11\"/>";
    const Imported page = read(
        measure("1", attributes("<divisions>1</divisions>" + fourFour) + note("C", 4, 4)) +
        measure("2", "<barline location=\"left\">" + ending("1, 2, 3, 4, 5, 6, 7, 8, 9, 10", "start") +
                         "</barline>" + note("D", 4, 4) + "<barline location=\"right\">" +
                         ending("1, 2, 3, 4, 5, 6, 7, 8, 9, 10", "stop") + times + "</barline>") +
        measure("3", "<barline location=\"left\">" + ending("11", "start") + "</barline>" + note("E", 4, 4)) +
        measure("4", note("F", 4, 4) + "<barline location=\"right\">" + times + "</barline>"));
    EXPECT_EQ(page.study.page.repeats, (std::vector<Repeat>{{1, 2, 11, 1}, {3, 4, 11, 0}}));
}

class Collector final : public pugi::xml_tree_walker {
public:
    bool for_each(pugi::xml_node& node) override {
        if (node.type() == pugi::node_element) elements.push_back(node);
        return true;
    }
    std::vector<pugi::xml_node> elements;
};

/// Elements torn out, doubled and put where they do not belong, and values made wild; still XML.
std::string mutilated(const std::string& text, std::mt19937& random) {
    static const std::vector<const char*> wild{"-1",    "0", "999999999999", "1e308", "nan", "",
                                               "32768", "H", "start"};
    pugi::xml_document document;
    if (!document.load_string(text.c_str())) return text;
    for (auto changes = 1 + random() % 8; changes > 0; --changes) {
        Collector found;
        document.traverse(found);
        const auto any = [&] { return found.elements[random() % found.elements.size()]; };
        pugi::xml_node node = any();
        const auto kind = random() % 5;
        if (kind == 0 && node.parent().parent())
            node.parent().remove_child(node);
        else if (kind == 1 && node.parent().parent())
            node.parent().insert_copy_after(node, node);
        else if (kind == 2 && node.parent().parent().parent())
            any().append_copy(node);
        else if (node.first_attribute() && random() % 2 == 0)
            node.first_attribute().set_value(wild[random() % wild.size()]);
        else if (node.first_child().type() == pugi::node_pcdata)
            node.text().set(wild[random() % wild.size()]);
    }
    std::ostringstream mutilatedText;
    document.save(mutilatedText);
    return mutilatedText.str();
}

TEST(OthersPages, NoMutilationMakesReadingFailBadly) {
    std::mt19937 random(11);
    std::vector<std::string> pages;
    for (std::uint32_t seed = 1; seed <= 8; ++seed)
        pages.push_back(*musicXml(ChanceStudy(seed).make(), {static_cast<Reading>(seed % 4), true, true}));
    int opened = 0;
    for (int round = 0; round < 600; ++round) {
        const WithinBounds bounds;
        const std::string text = mutilated(pages[static_cast<std::size_t>(round) % pages.size()], random);
        const auto imported = readMusicXml(text, "page.musicxml");
        if (!imported) {
            EXPECT_FALSE(imported.error().message.empty());
            continue;
        }
        ++opened;
        const auto kept = StudyFile::parse(StudyFile::text(imported->study), "line.study");
        ASSERT_TRUE(kept.ok()) << describe(kept.error()) << " in round " << round;
    }
    EXPECT_GT(opened, 300) << "most of them are still pages";
}

TEST(OthersPages, WithABarOfHalvesOfItsUnitGoOnWhereItEnds) {
    const Imported imported =
        read(measure("1", attributes("<divisions>2</divisions>" + fourFour) + note("C", 4, 8)) +
             measure("2", note("D", 4, 4) + note("E", 4, 3)) + measure("3", note("F", 4, 8)) +
             measure("4", note("G", 4, 8)));
    EXPECT_EQ(lineOf(imported), "0+4 60, 4+2 62, 6+3/2 64, 15/2+4 65, 23/2+4 67");
    EXPECT_EQ(imported.study.page.meters, (std::vector<MeterChange>{{2, {7, 8}}, {3, {4, 4}}}));
    EXPECT_TRUE(imported.leftOut.empty());
}

// Programs that count 256 parts of a quarter give the notes of a triplet 85, 85 and 86 of them.
TEST(OthersPages, RoundTheNotesOfTripletsThatAreReadAsPrinted) {
    const std::string triplet = "<type>eighth</type><time-modification><actual-notes>3</actual-notes>"
                                "<normal-notes>2</normal-notes></time-modification>";
    const Imported imported =
        read(measure("1", attributes("<divisions>256</divisions>" + fourFour) + note("C", 4, 85, triplet) +
                              note("D", 4, 85, triplet) + note("E", 4, 86, triplet) + note("F", 4, 768)));
    EXPECT_EQ(lineOf(imported), "0+1/3 60, 1/3+1/3 62, 2/3+1/3 64, 1+3 65");
    EXPECT_TRUE(imported.leftOut.empty());
    // A quarter that is said to last half of one does.
    EXPECT_EQ(lineOf(read(measure("1", attributes("<divisions>256</divisions>" + fourFour) +
                                           note("C", 4, 128, "<type>quarter</type>") + note("D", 4, 896)))),
              "0+1/2 60, 1/2+7/2 62");
}

} // namespace
} // namespace earwright
