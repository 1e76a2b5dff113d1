// Written by core/check/training/odds.py. Not for editing by hand.
#include "core/check/JudgementWeights.h"

// clang-format off
namespace earwright {

const LogOdds<claimPitchFeatureCount> claimPitchOdds{
{0.77575F, 0.040366F, 0.051495F, -0.69475F, 0.074002F, 0.25209F},
4.1087F};

const LogOdds<claimOnsetFeatureCount> claimOnsetOdds{
{0.39044F, 0.9099F, 0.85267F, -0.27366F},
5.4648F};

const LogOdds<suggestionFeatureCount> suggestionOdds{
{0.96323F, 0.25482F, 0.43393F, 0.37413F, 0.F, -0.25266F, 0.82459F, 0.25333F},
2.4931F};

const LogOdds<unwrittenFeatureCount> unwrittenOdds{
{0.11185F, 0.2604F, 0.55349F, 0.25434F, 0.42008F, 2.3524F, -3.1658F, -0.92708F, 1.3682F, 0.12847F},
3.607F};

} // namespace earwright
