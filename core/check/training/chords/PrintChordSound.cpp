// Prints what chordSound() hears, for weights.py to learn from.
//
// print_chord_sound AUDIO CHORDS LINE, the latter two as comping.py writes them. Prints for each chord what
// CHORDS says of it after its times, the loudness of the bass, and twelve levels each of the three registers
// of comping, of the bass and of the bass as the chord begins.
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
    std::string quality, rest;
    for (std::ifstream file(words[2]); std::getline(file >> from >> to >> number >> quality, rest);) {
        const Range<Seconds> span{Seconds(from), Seconds(to)};
        const auto views = listened->views(span);
        const double tuning = listened->tuningCurve().centsAt(span.begin + span.length() * 0.5);
        const ChordSound sound = chordSound(*views, tuning, span, line);
        std::printf("%d\t%s%s\t%.4f", number, quality.c_str(), rest.c_str(), sound.bassLoudness);
        for (const NoteNames* names :
             {&sound.registers[0], &sound.registers[1], &sound.registers[2], &sound.bass, &sound.firstBass})
            for (const double level : *names)
                std::printf("\t%.4f", level);
        std::printf("\n");
    }
    return 0;
}
