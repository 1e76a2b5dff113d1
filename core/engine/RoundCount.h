// How many rounds of a loop were heard to their end.
#pragma once

#include "core/engine/Engine.h"

#include <cstdint>
#include <optional>

namespace earwright {

/// Fed with what is heard, more often than passes go by. A round is a pass; in trade it is the record's pass
/// and the written notes' pass after it. The engine counts anew after a pause, a seek or another loop; rounds
/// completed before stay counted.
class RoundCount {
public:
    void restart() { *this = RoundCount(); }
    void hear(const Heard& heard, Hearing hearing) {
        if (before && heard.pass > before->pass) {
            const std::int64_t passes = heard.pass - before->pass;
            // In trade every second pass ends a round: the first of them, where it began on the written
            // notes.
            count += hearing == Hearing::Trade ? (passes + (before->yoursTurn ? 1 : 0)) / 2 : passes;
        }
        before = Before{heard.pass, heard.yoursTurn};
    }
    std::int64_t rounds() const { return count; }

private:
    struct Before {
        std::int64_t pass = 0;
        bool yoursTurn = false;
    };
    std::optional<Before> before;
    std::int64_t count = 0;
};

} // namespace earwright
