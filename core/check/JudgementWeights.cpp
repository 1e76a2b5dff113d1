// Written by core/listening/training/train.py. Not for editing by hand.
#include "core/check/JudgementWeights.h"

// clang-format off
namespace earwright {

const LogOdds<claimFeatureCount> claimOdds{
{0.13453F, 0.0F, 0.17063F, 0.1626F, 0.38243F, 0.32796F, -0.71077F, 0.58435F, 0.0F},
4.6609F};

const LogOdds<unwrittenFeatureCount> unwrittenOdds{
{0.011703F, 0.35322F, 0.00036223F, 0.32403F, 0.42347F, 2.3029F, -2.4401F, -0.90015F, 1.1541F, 0.21776F},
2.6152F};

} // namespace earwright
