#include "core/study/RecordingEdits.h"

namespace earwright {

Study setRecording(const Study& study, const RecordingRef& recording) {
    Study edited = study;
    edited.recording = recording;
    return edited;
}

Study setTitle(const Study& study, const std::string& title) {
    Study edited = study;
    edited.title = title;
    return edited;
}

} // namespace earwright
