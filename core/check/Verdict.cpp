#include "core/check/Verdict.h"

namespace earwright {

const char* toString(Verdict verdict) {
    switch (verdict) {
    case Verdict::Supported:
        return "supported";
    case Verdict::Unclear:
        return "unclear";
    case Verdict::Contradicted:
        return "contradicted";
    }
    return "";
}

} // namespace earwright
