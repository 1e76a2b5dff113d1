// Prints the numbers by which picked and slurred notes are told apart, for weights.py to learn from.
//
// print_attack_features AUDIO NOTES, where NOTES has lines of onset, length (seconds), MIDI number, whether
// the note is slurred (1), begun anew (0) or first of a phrase (-1), and how it was made, sorted by onset.
// Prints for each note with one before it whether it is slurred, how it was made, semitones from the note
// before, the chance it is given today as a plucked, blown, held and unknown line's, and the numbers; a
// note whose beginning is not heard has nothing after the semitones.
#include "core/check/PhrasingQuestions.h"
#include "core/listening/AttackFeatures.h"
#include "core/listening/RecordingEvidence.h"
#include "core/listening/SlurChance.h"

#include <algorithm>
#include <cstdio>
#include <fstream>

using namespace earwright;

namespace {

struct Made {
    int slurred = 0;
    int how = 0;
};

void print(const AttackFeatures& features) {
    using enum LineCharacter;
    for (const LineCharacter character : {Plucked, Blown, Held, Unknown})
        std::printf("\t%.4f", slurChance(features, character));
    for (const float feature : features)
        std::printf("\t%.5g", static_cast<double>(feature));
}

} // namespace

int main(int count, char** words) {
    constexpr double leastSteepness = 0.2;
    if (count != 3) return 2;
    const auto recording = Recording::open(words[1]);
    if (!recording) return 1;
    const auto sound = AnalysisSound::read(**recording);
    if (!sound) return 1;
    std::vector<PhrasingClaim> claims;
    std::vector<Made> made;
    std::ifstream file(words[2]);
    double onset = 0, length = 0;
    int midi = 0;
    for (Made how; file >> onset >> length >> midi >> how.slurred >> how.how;) {
        claims.push_back({{Seconds(onset), Seconds(onset + length)}, midi, {}});
        made.push_back(how);
    }
    const StereoViews views(*sound, {Seconds(0), sound->duration()});
    constexpr std::size_t enough = 15;
    const std::vector<PhrasingClaim> some(
        claims.begin(), claims.begin() + std::min(std::ssize(claims), std::ptrdiff_t(enough)));
    const std::size_t view = clearestView(views, 0, some);
    const std::vector<AttackQuestion> questions = attackQuestions(0, claims);
    for (std::size_t i = 1; i < claims.size(); ++i) {
        if (!questions[i].hertzBefore || made[i].slurred < 0) continue;
        std::printf("%d\t%d\t%d", made[i].slurred, made[i].how, claims[i].midi - claims[i - 1].midi);
        const NoteAttack attack = attackOf(views, view, questions[i]);
        if (attack.steepness >= leastSteepness) print(attackFeatures(views, view, questions[i], attack));
        std::printf("\n");
    }
    return 0;
}
