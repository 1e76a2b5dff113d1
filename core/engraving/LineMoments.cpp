#include "core/engraving/LineMoments.h"

#include <algorithm>
#include <iterator>

namespace earwright {

double LineMoments::xAt(const Beats& at) const {
    if (moments.empty()) return 0;
    const auto next = std::find_if(moments.begin(), moments.end(),
                                   [&](const PlacedMoment& moment) { return moment.at >= at; });
    if (next == moments.end()) return moments.back().x;
    if (next == moments.begin() || next->at == at) return next->x;
    const auto before = std::prev(next);
    const double share = (at - before->at).toDouble() / (next->at - before->at).toDouble();
    return before->x + share * (next->x - before->x);
}

} // namespace earwright
