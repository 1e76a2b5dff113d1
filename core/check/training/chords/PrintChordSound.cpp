// Prints what chordSound() hears, for weights.py to learn from.
//
// print_chord_sound AUDIO CHORDS LINE, the latter two as comping.py writes them. Prints for each chord its
// root and quality and three times twelve levels.
#include "core/listening/ChordSound.h"
#include "core/listening/RecordingEvidence.h"

#include <cstdio>
#include <fstream>
#include <string>

using namespace earwright;

int main(int count, char** words) {
    if (count != 4) return 2;
    const auto recording = Recording::open(words[1]);
    if (!recording) return 1;
    const auto listened = RecordingEvidence::listen(*recording);
    std::vector<LineTone> line;
    double from = 0, to = 0;
    int number = 0;
    for (std::ifstream file(words[3]); file >> from >> to >> number;)
        line.push_back({{Seconds(from), Seconds(from + to)}, number});
    std::string quality;
    for (std::ifstream file(words[2]); file >> from >> to >> number >> quality;) {
        const Range<Seconds> span{Seconds(from), Seconds(to)};
        const auto views = listened->views(span);
        const double tuning = listened->tuningCurve().centsAt(span.begin + span.length() * 0.5);
        const ChordSound sound = chordSound(*views, tuning, span, line);
        std::printf("%d\t%s", number, quality.c_str());
        for (const NoteNames* names : {&sound.comping, &sound.bass, &sound.firstBass})
            for (const double level : *names)
                std::printf("\t%.4f", level);
        std::printf("\n");
    }
    return 0;
}
