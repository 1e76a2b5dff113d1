#include "ui/theme/VerdictWord.h"

#include <QCoreApplication>

namespace earwright::ui {

QString verdictWord(Verdict verdict) {
    switch (verdict) {
    case Verdict::Supported:
        return QCoreApplication::translate("VerdictWord", "supported");
    case Verdict::Unclear:
        return QCoreApplication::translate("VerdictWord", "unclear");
    case Verdict::Contradicted:
        return QCoreApplication::translate("VerdictWord", "contradicted");
    }
    return {};
}

} // namespace earwright::ui
