// What the hand, or a word typed on the sheet, asks for. The desk grants it; the sheet changes nothing
// itself.
#pragma once

#include "core/study/Study.h"

#include <QMetaType>
#include <QString>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>

namespace earwright::ui {

struct HearFrom {
    Seconds place;
};
/// Nothing: the stretch chosen before is let go.
struct ChooseStretch {
    std::optional<Range<Seconds>> stretch;
};
struct LoopOver {
    Range<Seconds> loop;
};
struct PlayAt {
    int percent = 100;
};
struct MoveMarkTo {
    std::size_t index = 0;
    Seconds place;
};
struct RemoveMarkAt {
    std::size_t index = 0;
};
struct MarkBarAt {
    Seconds place;
};
struct MarkBeatAt {
    Seconds place;
};
struct CountBarsFrom {
    Seconds place;
};
struct NameStretch {
    SpanKind kind = SpanKind::Phrase;
    Range<Seconds> stretch;
    QString name;
};
struct NameSpan {
    SpanId span;
    QString name;
};
struct DropSpan {
    SpanId span;
};
struct ChooseSpan {
    SpanId span;
};
struct TypeChords {
    std::int64_t bar = 1;
    QString text;
};
struct KeepToForm {
    std::int64_t bar = 1;
};
struct KeepLooseEnd {
    Seconds place;
    QString text;
};
struct RewordLooseEnd {
    LooseEndId looseEnd;
    QString text;
};
struct TickLooseEnd {
    LooseEndId looseEnd;
};

using SheetWish =
    std::variant<std::monostate, HearFrom, ChooseStretch, LoopOver, PlayAt, MoveMarkTo, RemoveMarkAt,
                 MarkBarAt, MarkBeatAt, CountBarsFrom, NameStretch, NameSpan, DropSpan, ChooseSpan,
                 TypeChords, KeepToForm, KeepLooseEnd, RewordLooseEnd, TickLooseEnd>;

} // namespace earwright::ui

Q_DECLARE_METATYPE(earwright::ui::SheetWish)
