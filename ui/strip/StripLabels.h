// The names over the form strip, laid so that none covers another.
#pragma once

#include "core/study/Study.h"
#include "ui/strip/StripGeometry.h"

#include <QString>

#include <vector>

namespace earwright::ui {

/// One name and the room it has.
struct StripLabel {
    QString text;
    double x = 0;
    double room = 0;
};

/// Sections and choruses by their starts; those that start together share a name ("head · chorus 1").
std::vector<StripLabel> layLabels(const Study& study, const StripGeometry& geometry);

} // namespace earwright::ui
