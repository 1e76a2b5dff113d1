// The fields that open on the chorus sheet to type chords, names and the words of loose ends.
#include "core/study/ChartEdits.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/theme/InlineEditor.h"
#include "ui/theme/PlaceText.h"

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr int editorHeight = 26;
constexpr int chordEditorWidth = 220;
constexpr int nameEditorWidth = 180;

} // namespace

QRect ChorusSheetView::editorPlace(const QRectF& row, double x, int width) const {
    const double left = std::clamp(x, row.left(), std::max(row.right() - width, row.left()));
    return inViewport(
        {left, row.center().y() - editorHeight / 2.0, static_cast<double>(width), editorHeight});
}

void ChorusSheetView::typeChords(std::int64_t bar) {
    if (!geometry.hasBars()) return;
    const Seconds place = model.study->beatMap.seconds(model.study->meters().barStart(bar));
    const std::size_t line = geometry.lineOf(place + Seconds(1e-6));
    const QString before = QString::fromStdString(chordText(*model.study, bar));
    reveal(place);
    editor->open(editorPlace(geometry.chordRow(line), geometry.barX(line, bar), chordEditorWidth), before,
                 chordsTitle(bar), [this, bar](const QString& text) {
                     emit wished(TypeChords{bar, text});
                 });
}

void ChorusSheetView::typeName(SpanKind kind, const Range<Seconds>& range) {
    const auto pieces = geometry.segments(range);
    if (pieces.empty()) return;
    const QString what = kind == SpanKind::Phrase   ? tr("Name of the phrase")
                         : kind == SpanKind::Chorus ? tr("Name of the chorus")
                                                    : tr("Name of the section");
    const QRectF row = kind == SpanKind::Phrase ? geometry.bracketRow(pieces.front().line)
                                                : geometry.chordRow(pieces.front().line);
    reveal(range.begin);
    editor->open(editorPlace(row, pieces.front().left, nameEditorWidth), {}, what,
                 [this, kind, range](const QString& name) {
                     emit wished(NameStretch{kind, range, name});
                 });
}

void ChorusSheetView::typeNewName(SpanId id) {
    const Span* span = model.study->span(id);
    const auto pieces = span ? geometry.segments(span->range) : std::vector<SheetGeometry::Segment>{};
    if (pieces.empty()) return;
    const std::size_t line = pieces.front().line;
    const bool phrase = span->kind == SpanKind::Phrase;
    const QRectF row = phrase                             ? geometry.bracketRow(line)
                       : geometry.heading(line).isEmpty() ? geometry.chordRow(line)
                                                          : geometry.heading(line);
    reveal(span->range.begin);
    editor->open(editorPlace(row, pieces.front().left, nameEditorWidth), QString::fromStdString(span->name),
                 tr("Name"), [this, id](const QString& name) {
                     emit wished(NameSpan{id, name});
                 });
}

void ChorusSheetView::typeLooseEnd(Seconds place) {
    if (geometry.lines().empty()) return;
    const std::size_t line = geometry.lineOf(place);
    reveal(place);
    editor->open(editorPlace(geometry.box(line), geometry.x(line, place), nameEditorWidth), {},
                 tr("What is loose here?"), [this, place](const QString& text) {
                     emit wished(KeepLooseEnd{place, text});
                 });
}

void ChorusSheetView::typeLooseEndAgain(LooseEndId id) {
    for (const LooseEnd& end : model.study->looseEnds) {
        if (end.id != id) continue;
        const std::size_t line = geometry.lineOf(end.time);
        reveal(end.time);
        editor->open(editorPlace(geometry.box(line), geometry.x(line, end.time), nameEditorWidth),
                     QString::fromStdString(end.text), tr("What is loose here?"),
                     [this, id](const QString& text) {
                         emit wished(RewordLooseEnd{id, text});
                     });
        return;
    }
}

} // namespace earwright::ui
