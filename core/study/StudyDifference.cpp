#include "core/study/StudyDifference.h"

namespace earwright {

StudyDifference::StudyDifference(const Study& before, const Study& after)
    : title(before.title, after.title),
      meter(before.meter, after.meter),
      marks(before.beatMap.marks(), after.beatMap.marks()),
      form(before.chart.form, after.chart.form),
      overrides(before.chart.overrides, after.chart.overrides),
      spans(before.spans, after.spans),
      notes(before.notes, after.notes),
      page(before.page, after.page),
      tuning(before.tuning, after.tuning),
      players(before.players, after.players),
      divisions(before.divisions, after.divisions),
      looseEnds(before.looseEnds, after.looseEnds),
      takes(before.takes, after.takes) {}

bool StudyDifference::isNothing() const {
    return title.isNothing() && meter.isNothing() && marks.isNothing() && form.isNothing() &&
           overrides.isNothing() && spans.isNothing() && notes.isNothing() && page.isNothing() &&
           tuning.isNothing() && players.isNothing() && divisions.isNothing() && looseEnds.isNothing() &&
           takes.isNothing();
}

Study StudyDifference::undone(Study study) const {
    std::vector<BeatMark> list = study.beatMap.marks();
    marks.undo(list);
    study.beatMap = BeatMap(std::move(list));
    title.undo(study.title);
    meter.undo(study.meter);
    form.undo(study.chart.form);
    overrides.undo(study.chart.overrides);
    spans.undo(study.spans);
    notes.undo(study.notes);
    page.undo(study.page);
    tuning.undo(study.tuning);
    players.undo(study.players);
    divisions.undo(study.divisions);
    looseEnds.undo(study.looseEnds);
    takes.undo(study.takes);
    return study;
}

Study StudyDifference::redone(Study study) const {
    std::vector<BeatMark> list = study.beatMap.marks();
    marks.redo(list);
    study.beatMap = BeatMap(std::move(list));
    title.redo(study.title);
    meter.redo(study.meter);
    form.redo(study.chart.form);
    overrides.redo(study.chart.overrides);
    spans.redo(study.spans);
    notes.redo(study.notes);
    page.redo(study.page);
    tuning.redo(study.tuning);
    players.redo(study.players);
    divisions.redo(study.divisions);
    looseEnds.redo(study.looseEnds);
    takes.redo(study.takes);
    return study;
}

} // namespace earwright
