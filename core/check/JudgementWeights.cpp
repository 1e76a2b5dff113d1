// Written by core/check/training/odds.py. Not for editing by hand.
#include "core/check/JudgementWeights.h"

// clang-format off
namespace earwright {

const LogOdds<claimFeatureCount> claimOdds{
{0.44006F, 0.0015245F, 0.026602F, 0.34979F, 0.28898F, 0.38372F, -0.39404F, 0.55417F, 0.F},
4.2444F};

const LogOdds<unwrittenFeatureCount> unwrittenOdds{
{0.092086F, 0.F, 1.238F, 0.24113F, 0.68124F, 2.9942F, -2.5744F, -0.90865F, 0.95114F, 0.26239F},
3.4305F};

} // namespace earwright
