// Written by core/check/training/odds.py. Not for editing by hand.
#include "core/check/JudgementWeights.h"

// clang-format off
namespace earwright {

const LogOdds<claimPitchFeatureCount> claimPitchOdds{
{0.70023F, 0.097808F, 0.34268F, -0.16705F, 0.21321F, 0.28156F},
1.393F};

const LogOdds<claimOnsetFeatureCount> claimOnsetOdds{
{0.99388F, 0.55132F, 0.39784F, -0.54485F},
3.2727F};

const LogOdds<suggestionFeatureCount> suggestionOdds{
{1.0925F, 0.19957F, 0.036455F, 1.0397F, 0.F, -0.31735F, 0.88564F, 0.27351F},
2.8053F};

const LogOdds<unwrittenFeatureCount> unwrittenOdds{
{0.F, 0.38992F, 0.8037F, 0.29932F, 0.33181F, 2.73F, -3.0568F, -0.89516F, 1.1336F, 0.066944F},
2.6653F};

} // namespace earwright
