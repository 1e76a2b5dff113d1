// Written by core/check/training/odds.py. Not for editing by hand.
#include "core/check/JudgementWeights.h"

// clang-format off
namespace earwright {

const LogOdds<claimPitchFeatureCount> claimPitchOdds{
{0.46369F, 0.14314F, 0.36624F, -0.41714F, -0.028082F, 0.23568F},
4.483F};

const LogOdds<claimOnsetFeatureCount> claimOnsetOdds{
{0.76664F, 0.65182F, 1.0392F, -0.25667F},
5.9125F};

const LogOdds<suggestionFeatureCount> suggestionOdds{
{1.1014F, 0.27625F, 0.15963F, 0.76368F, 0.F, -0.27832F, 0.70014F, 0.20333F},
1.521F};

const LogOdds<unwrittenFeatureCount> unwrittenOdds{
{0.F, 0.38992F, 0.8037F, 0.29932F, 0.33181F, 2.73F, -3.0568F, -0.89516F, 1.1336F, 0.066944F},
2.6653F};

} // namespace earwright
